#include "output/words.h"

#include "output/clean_text.h"
#include "output/quantity_words.h"

#include <algorithm>
#include <bit>
#include <cstddef>

namespace curbstop::output {

using meaning::ExpressionId;
using meaning::Named;
using meaning::NodeKind;
using meaning::ValueSet;
using meaning::VariableKind;

namespace {

// A text in one language is marked where that is not the one of the sheet.
Wording marked(const std::string& text, Language language, const Tongue& tongue) {
    Wording words = with_literals(text);
    if (language != tongue.language() && !words.empty()) {
        words.foreign.push_back({0, words.size(), language});
    }
    return words;
}

Wording named_in(const Named& thing, const Tongue& tongue) {
    const meaning::Told label = thing.label.in(tongue.language());
    std::string line = one_line(label.text);
    if (!line.empty() && label.text != thing.name) {
        return marked(line, label.language, tongue);
    }
    std::string name = thing.name.substr(thing.name.rfind('.') + 1);
    std::replace(name.begin(), name.end(), '_', ' ');
    line = one_line(name);
    return line.empty() ? Wording(tongue.text(Saying::no_name)) : marked(line, label.language, tongue);
}

} // namespace

std::string label_of(const Named& thing) {
    return named_in(thing, Tongue(thing.label.language));
}

std::size_t own_label_begins(std::string_view label, std::string_view whole) {
    if (!label.starts_with(whole)) {
        return 0;
    }
    // meaning::composed puts a no-break space before the colon in French.
    for (const std::string_view between : {", ", ": ", "\u00A0: "}) {
        if (label.substr(whole.size()).starts_with(between)) {
            return whole.size() + between.size();
        }
    }
    return 0;
}

std::string signal_word(meaning::Signal signal, const Tongue& tongue) {
    switch (signal) {
    case meaning::Signal::danger:
        return tongue.text(Saying::signal_danger);
    case meaning::Signal::warning:
        return tongue.text(Saying::signal_warning);
    case meaning::Signal::caution:
        return tongue.text(Saying::signal_caution);
    case meaning::Signal::notice:
        return tongue.text(Saying::signal_notice);
    }
    return {};
}

std::string signal_meaning(meaning::Signal signal, const Tongue& tongue) {
    switch (signal) {
    case meaning::Signal::danger:
        return tongue.text(Saying::meaning_danger);
    case meaning::Signal::warning:
        return tongue.text(Saying::meaning_warning);
    case meaning::Signal::caution:
        return tongue.text(Saying::meaning_caution);
    case meaning::Signal::notice:
        return tongue.text(Saying::meaning_notice);
    }
    return {};
}

ValueSet all_values(const meaning::Variable& variable) {
    const std::size_t count = variable.values.size();
    return count >= meaning::max_values ? ~ValueSet{0} : (ValueSet{1} << count) - 1;
}

Wording Words::told(const meaning::Text& text) const {
    const meaning::Told told = text.in(tongue_.language());
    return marked(one_line(told.text), told.language, tongue_);
}

Wording Words::told_or(const meaning::Text& text, Saying otherwise) const {
    Wording line = told(text);
    return line.empty() ? Wording(tongue_.text(otherwise)) : line;
}

std::vector<Phrase> Words::labels(const std::vector<meaning::Text>& texts) const {
    std::vector<Phrase> result;
    for (const meaning::Text& text : texts) {
        result.push_back(phrase(label(told(text))));
    }
    return result;
}

Wording Words::named(const Named& thing) const {
    return named_in(thing, tongue_);
}

// A label that already says whose it is stands alone.
Wording Words::of_part(meaning::PartId part, const Named& thing, bool only_one) const {
    Wording own = named(thing);
    if (!part) {
        return own;
    }
    Wording whole = this->part(part);
    if (only_one) {
        return whole;
    }
    return own.starts_with(named((*system_)[part])) || own.starts_with(whole) ? own : whole + ", " + own;
}

Wording Words::part(meaning::PartId id) const {
    const meaning::Part& part = (*system_)[id];
    return part.parent ? of_part(part.parent, part, false) : named(part);
}

Wording Words::variable(meaning::VariableId id) const {
    const meaning::Variable& variable = (*system_)[id];
    return of_part(variable.part, variable, variable.kind == VariableKind::position);
}

Wording Words::value(meaning::VariableId id, std::uint32_t index) const {
    const meaning::Variable& variable = (*system_)[id];
    if (index >= variable.values.size()) {
        return "?";
    }
    const meaning::Value& value = variable.values[index];
    if (value.setting) {
        return quantity_words(*value.setting, tongue_);
    }
    if (value.partner) {
        const Wording partner = node(value.partner);
        if (variable.kind == VariableKind::vessel) {
            return plain(tongue_.say<Saying::stands_under>(in<"what">(partner)));
        }
        const bool vessel = (*system_)[value.partner].kind == NodeKind::vessel;
        return plain(vessel ? tongue_.say<Saying::stands_in>(in<"what">(partner))
                            : tongue_.say<Saying::coupled_to>(in<"what">(partner)));
    }
    switch (variable.kind) {
    case VariableKind::cover:
        return tongue_.text(index == 0 ? Saying::cover_shut : Saying::cover_open);
    case VariableKind::end:
        // Where no cap belongs on it, nothing but a hose is missing.
        if (index != 0) {
            return tongue_.text(Saying::end_capped);
        }
        return tongue_.text(variable.values.size() > 1 && variable.values[1].name == "capped" ? Saying::end_open
                                                                                              : Saying::end_uncoupled);
    case VariableKind::vessel:
        return tongue_.text(Saying::put_away);
    case VariableKind::position:
    case VariableKind::dial:
        return named(value);
    }
    return {};
}

Phrase Words::to_do(meaning::VariableId id, std::uint32_t index) const {
    const meaning::Variable& variable = (*system_)[id];
    if (index >= variable.values.size()) {
        return {};
    }
    const meaning::Told told = variable.values[index].to_do.in(tongue_.language());
    const std::string line = one_line(told.text);
    if (line.empty()) {
        return {};
    }
    constexpr std::string_view place = "{part}";
    const std::size_t at = line.find(place);
    if (at == std::string::npos) {
        return tongue_.say<Saying::part_to_do>(in<"what">(label(this->variable(id))),
                                               in<"do">(marked(line, told.language, tongue_)));
    }
    Phrase result;
    if (at > 0) {
        append(result, marked(line.substr(0, at), told.language, tongue_));
    }
    append(result, label(this->variable(id)));
    append(result, marked(line.substr(at + place.size()), told.language, tongue_));
    append(result, ".");
    return result;
}

Wording Words::values(meaning::VariableId id, ValueSet set) const {
    const meaning::Variable& variable = (*system_)[id];
    if ((set & all_values(variable)) == all_values(variable) && variable.values.size() > 1) {
        return tongue_.text(Saying::any_way);
    }
    std::vector<Phrase> ways;
    for (std::uint32_t i = 0; i < variable.values.size(); ++i) {
        if ((set >> i & 1U) != 0) {
            // The first value of a dial stands for its greatest setting and for one that is not known.
            const bool unknown = variable.kind == VariableKind::dial && i == 0;
            ways.push_back(unknown ? tongue_.say<Saying::at_most_value>(in<"value">(value(id, i)))
                                   : phrase(value(id, i)));
        }
    }
    return ways.empty() ? Wording(tongue_.text(Saying::not_there)) : plain(tongue_.one_of(ways));
}

Wording Words::node(meaning::NodeId id) const {
    const meaning::Node& node = (*system_)[id];
    switch (node.kind) {
    case NodeKind::chamber:
        return node.chamber ? chamber(node.chamber) : of_part(node.part, node, false);
    case NodeKind::port:
        return of_part(node.part, node, node.part && (*system_)[node.part].nodes.size() == 1);
    case NodeKind::end:
        return of_part(node.part, node, false);
    case NodeKind::place:
        // The ground is a place that no author declares.
        return node.name == "ground" ? Wording(tongue_.text(Saying::the_ground)) : named(node);
    case NodeKind::tee:
    case NodeKind::vessel:
        return named(node);
    }
    return {};
}

Wording Words::chamber(meaning::ChamberId id) const {
    const meaning::Chamber& chamber = (*system_)[id];
    const auto of_same_part = std::count_if(system_->chambers.begin(), system_->chambers.end(),
                                            [&](const auto& other) { return other.part == chamber.part; });
    return of_part(chamber.part, chamber, of_same_part == 1);
}

Wording Words::source(meaning::SourceId id) const {
    const meaning::Source& source = (*system_)[id];
    return of_part(source.part, source, true);
}

Wording Words::outlet(meaning::OutletId id) const {
    const meaning::Outlet& outlet = (*system_)[id];
    if (outlet.fills) {
        return chamber(outlet.fills);
    }
    if (outlet.end) {
        return node(outlet.end);
    }
    return of_part(outlet.part, outlet, outlet.part && (*system_)[outlet.part].outlets.size() == 1);
}

Wording Words::zone(meaning::ZoneId id) const {
    return named((*system_)[id]);
}

Wording Words::fluid(meaning::FluidId id) const {
    return named((*system_)[id]);
}

Wording Words::place(const meaning::WorkPlace& place) const {
    std::vector<Phrase> covers;
    for (const meaning::VariableId cover : place.covers) {
        covers.push_back(phrase(variable(cover)));
    }
    if (covers.empty()) {
        return place.zone ? zone(place.zone) : Wording();
    }
    const Phrase all = tongue_.all_of(covers);
    return plain(place.zone ? tongue_.say<Saying::place_behind>(in<"place">(zone(place.zone)), in<"covers">(all))
                            : tongue_.say<Saying::behind>(in<"covers">(all)));
}

std::vector<meaning::WorkPlace> Words::places(meaning::VariableId id) const {
    const meaning::Variable& variable = (*system_)[id];
    if (variable.part) {
        // An inner part without a place of its own is worked where what holds it is.
        for (meaning::PartId part = variable.part; part; part = (*system_)[part].parent) {
            if (!(*system_)[part].places.empty()) {
                return (*system_)[part].places;
            }
        }
        return {};
    }
    for (const meaning::Cover& cover : system_->covers) {
        if (cover.variable == id) {
            return {cover.place};
        }
    }
    return {};
}

} // namespace curbstop::output
