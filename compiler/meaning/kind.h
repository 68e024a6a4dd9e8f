// A kind's declaration sorted by what its items are, so that each part made of it need not walk the syntax again.
// Must not know: systems, parts.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "meaning/text.h"
#include "syntax/tree.h"

namespace curbstop::meaning {

struct KindInfo {
    explicit KindInfo(syntax::Node declaration);

    syntax::Node declaration;
    std::string_view name;
    Text label;
    std::vector<syntax::Node> groups; ///< names of groups
    std::vector<syntax::Node> ports;  ///< `port` names, each with its label
    std::vector<syntax::Node> ends;
    std::vector<syntax::Node> givens;
    std::vector<syntax::Node> chambers;
    std::vector<syntax::Node> positions;
    std::vector<syntax::Node> always;
    std::vector<syntax::Node> dials;
    std::vector<syntax::Node> guards; ///< set and while
    std::vector<syntax::Node> hazards;
    std::vector<syntax::Node> inner_parts;
    std::optional<syntax::Node> springs_back;
    std::vector<syntax::Node> each_way; ///< names of positions
    std::optional<syntax::Node> rated;
    std::optional<syntax::Node> body;
    std::optional<syntax::Node> may_run_dry;
    std::optional<syntax::Node> cools;
    bool sight_glass = false;

    /// Index of a position, or nothing.
    std::optional<std::uint32_t> position(std::string_view position_name) const;
};

} // namespace curbstop::meaning
