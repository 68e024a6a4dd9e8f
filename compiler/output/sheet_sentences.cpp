// Sentences about a sheet as a whole, that both forms of it print.
#include "output/sheet.h"

namespace curbstop::output {

namespace {

std::vector<Phrase> as_labels(const std::vector<Wording>& texts) {
    std::vector<Phrase> result;
    for (const Wording& text : texts) {
        result.push_back(phrase(label(text)));
    }
    return result;
}

} // namespace

std::string checked_words(const Sheet& sheet) {
    return Tongue(sheet.language).text(Saying::worked_out_for_all);
}

std::string walk_words(const Preparation& preparation, const Tongue& tongue) {
    if (preparation.place_changes == 0) {
        return {};
    }
    return plain(preparation.walk_length.empty()
                     ? tongue.say_of<Saying::place_changes>(preparation.place_changes)
                     : tongue.say_of<Saying::place_changes_walk>(preparation.place_changes,
                                                                 in<"length">(preparation.walk_length)));
}

Phrase as_left_words(const Sheet& sheet) {
    return Tongue(sheet.language).say<Saying::stands_as_left>(in<"procedure">(label(sheet.as_left_by)));
}

Phrase left_heading(const Sheet& sheet) {
    return Tongue(sheet.language).say<Saying::left_heading>(in<"procedure">(name(sheet.as_left_by)));
}

namespace {

/// "2, 4 and 6–9"
Phrase steps_words(const Tongue& tongue, const std::vector<std::uint32_t>& all_steps) {
    std::vector<Phrase> steps;
    for (std::size_t i = 0; i < all_steps.size();) {
        std::size_t last = i;
        while (last + 1 < all_steps.size() && all_steps[last + 1] == all_steps[last] + 1) {
            ++last;
        }
        if (last < i + 2) { // two are not worth a range
            last = i;
        }
        const Phrase from = phrase(tongue.number(all_steps[i]));
        steps.push_back(last == i ? from
                                  : tongue.say<Saying::brief_between>(in<"from">(plain(from)),
                                                                      in<"to">(tongue.number(all_steps[last]))));
        i = last + 1;
    }
    return tongue.all_of(steps);
}

} // namespace

std::string helper_words(const Sheet& sheet) {
    const Tongue tongue(sheet.language);
    // Of which number the word is, not how many persons: the count stands in no place of the sentence.
    const auto& two = sheet.preparation.helper_steps;
    std::string text = plain(tongue.say_of<Saying::helper_in_steps>(two.size(), in<"steps">(steps_words(tongue, two))));
    if (const auto& three = sheet.preparation.third_steps; !three.empty()) {
        text +=
            " " + plain(tongue.say_of<Saying::third_in_steps>(three.size(), in<"steps">(steps_words(tongue, three))));
    }
    return text;
}

Phrase places_words(const Sheet& sheet, const SheetStep& step) {
    const Tongue tongue(sheet.language);
    return tongue.say<Saying::places>(in<"places">(tongue.all_of(as_labels(step.zones))));
}

Phrase caution_words(const Caution& caution, const Tongue& tongue) {
    if (caution.as_in == 0) {
        return phrase(caution.text);
    }
    Piece step{plain(tongue.say<Saying::step_number>(in<"number">(tongue.number(caution.as_in))))};
    step.step = caution.as_in;
    // What it is about is said all the same: who turns pages back with wet gloves?
    constexpr std::size_t worth_a_reference = 24;
    const std::size_t end = caution.text.find(". ");
    return end == std::string::npos || caution.text.size() - end < worth_a_reference
               ? phrase(caution.text)
               : tongue.say<Saying::caution_rest_as_in>(in<"first">(caution.text.until(end + 1)), in<"step">(step));
}

Phrase version_words(const Sheet& sheet) {
    return Tongue(sheet.language)
        .say<Saying::procedure_version>(in<"name">(code(sheet.procedure_name)),
                                        in<"version">(code(sheet.info.content_version)));
}

std::string tag_of(LineKind kind, const Tongue& tongue) {
    switch (kind) {
    case LineKind::see:
        return tongue.text(Saying::tag_see);
    case LineKind::watch:
        return tongue.text(Saying::tag_watch);
    case LineKind::note:
        return tongue.text(Saying::tag_note);
    case LineKind::estimate:
        return tongue.text(Saying::tag_about);
    case LineKind::helper:
        return tongue.text(Saying::tag_helper);
    case LineKind::photo:
        return tongue.text(Saying::tag_photo);
    case LineKind::act:
    case LineKind::check:
    case LineKind::proved:
    case LineKind::leave_so:
    case LineKind::record:
    case LineKind::bring:
    case LineKind::wear:
    case LineKind::hold:
    case LineKind::conditional:
    case LineKind::in_case:
    case LineKind::repeat:
    case LineKind::only_cautions:
        return {};
    }
    return {};
}

} // namespace curbstop::output
