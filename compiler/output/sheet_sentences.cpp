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

std::string helper_words(const Sheet& sheet) {
    const Tongue tongue(sheet.language);
    std::vector<Phrase> steps;
    const std::vector<std::uint32_t>& all_steps = sheet.preparation.helper_steps;
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
    const auto all = in<"steps">(tongue.all_of(steps));
    // Of which number the word is, not how many persons: the count stands in no place of the sentence.
    return plain(tongue.say_of<Saying::helper_in_steps>(all_steps.size(), all));
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
    return tongue.say<Saying::caution_as_in>(in<"step">(step));
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
