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

std::string label_of(const Named& thing) {
    std::string label = one_line(thing.label);
    if (!label.empty() && thing.label != thing.name) {
        return label;
    }
    std::string name = thing.name.substr(thing.name.rfind('.') + 1);
    std::replace(name.begin(), name.end(), '_', ' ');
    return one_line_or(name, "(no name)");
}

std::string_view signal_word(meaning::Signal signal) {
    switch (signal) {
    case meaning::Signal::danger:
        return "DANGER";
    case meaning::Signal::warning:
        return "WARNING";
    case meaning::Signal::caution:
        return "CAUTION";
    case meaning::Signal::notice:
        return "NOTICE";
    }
    return {};
}

std::string_view signal_meaning(meaning::Signal signal) {
    switch (signal) {
    case meaning::Signal::danger:
        return "will kill or badly injure you if you do not avoid it.";
    case meaning::Signal::warning:
        return "could kill or badly injure you if you do not avoid it.";
    case meaning::Signal::caution:
        return "could injure you lightly or moderately if you do not avoid it.";
    case meaning::Signal::notice:
        return "is about damage to things, not about injury.";
    }
    return {};
}

ValueSet all_values(const meaning::Variable& variable) {
    const std::size_t count = variable.values.size();
    return count >= meaning::max_values ? ~ValueSet{0} : (ValueSet{1} << count) - 1;
}

// A label that already says whose it is stands alone.
std::string Words::of_part(meaning::PartId part, const Named& thing, bool only_one) const {
    const std::string own = label_of(thing);
    if (!part) {
        return own;
    }
    std::string whole = this->part(part);
    if (only_one) {
        return whole;
    }
    return own.starts_with(label_of((*system_)[part])) || own.starts_with(whole) ? own : whole + ", " + own;
}

std::string Words::part(meaning::PartId id) const {
    const meaning::Part& part = (*system_)[id];
    return part.parent ? of_part(part.parent, part, false) : label_of(part);
}

std::string Words::variable(meaning::VariableId id) const {
    const meaning::Variable& variable = (*system_)[id];
    return of_part(variable.part, variable, variable.kind == VariableKind::position);
}

std::string Words::value(meaning::VariableId id, std::uint32_t index) const {
    const meaning::Variable& variable = (*system_)[id];
    if (index >= variable.values.size()) {
        return "?";
    }
    const meaning::Value& value = variable.values[index];
    if (value.setting) {
        return quantity_words(*value.setting);
    }
    if (value.partner) {
        if (variable.kind == VariableKind::vessel) {
            return "under " + node(value.partner);
        }
        const bool vessel = (*system_)[value.partner].kind == NodeKind::vessel;
        return (vessel ? "in " : "coupled to ") + node(value.partner);
    }
    return label_of(value);
}

std::string Words::values(meaning::VariableId id, ValueSet set) const {
    const meaning::Variable& variable = (*system_)[id];
    if ((set & all_values(variable)) == all_values(variable) && variable.values.size() > 1) {
        return "any way";
    }
    std::vector<Phrase> ways;
    for (std::uint32_t i = 0; i < variable.values.size(); ++i) {
        if ((set >> i & 1U) != 0) {
            // The first value of a dial stands for its greatest setting and for one that is not known.
            const bool unknown = variable.kind == VariableKind::dial && i == 0;
            ways.push_back(phrase((unknown ? "at most " : "") + value(id, i)));
        }
    }
    return ways.empty() ? "not there" : plain(joined(ways, "or"));
}

std::string Words::node(meaning::NodeId id) const {
    const meaning::Node& node = (*system_)[id];
    switch (node.kind) {
    case NodeKind::chamber:
        return node.chamber ? chamber(node.chamber) : of_part(node.part, node, false);
    case NodeKind::port:
        return of_part(node.part, node, node.part && (*system_)[node.part].nodes.size() == 1);
    case NodeKind::end:
        return of_part(node.part, node, false);
    case NodeKind::tee:
    case NodeKind::vessel:
    case NodeKind::place:
        return label_of(node);
    }
    return {};
}

std::string Words::chamber(meaning::ChamberId id) const {
    const meaning::Chamber& chamber = (*system_)[id];
    const auto of_same_part = std::count_if(system_->chambers.begin(), system_->chambers.end(),
                                            [&](const auto& other) { return other.part == chamber.part; });
    return of_part(chamber.part, chamber, of_same_part == 1);
}

std::string Words::source(meaning::SourceId id) const {
    const meaning::Source& source = (*system_)[id];
    return of_part(source.part, source, true);
}

std::string Words::outlet(meaning::OutletId id) const {
    const meaning::Outlet& outlet = (*system_)[id];
    if (outlet.fills) {
        return chamber(outlet.fills);
    }
    if (outlet.end) {
        return node(outlet.end);
    }
    return of_part(outlet.part, outlet, outlet.part && (*system_)[outlet.part].outlets.size() == 1);
}

std::string Words::zone(meaning::ZoneId id) const {
    return label_of((*system_)[id]);
}

std::string Words::fluid(meaning::FluidId id) const {
    return label_of((*system_)[id]);
}

std::string Words::place(const meaning::WorkPlace& place) const {
    std::string words = place.zone ? zone(place.zone) : std::string();
    std::vector<Phrase> covers;
    for (const meaning::VariableId cover : place.covers) {
        covers.push_back(phrase(variable(cover)));
    }
    if (covers.empty()) {
        return words;
    }
    return words + (words.empty() ? "" : ", ") + "behind " + plain(joined(covers, "and"));
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
