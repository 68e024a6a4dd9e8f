#include "meaning/kind.h"

#include "meaning/modules.h"

namespace curbstop::meaning {

KindInfo::KindInfo(syntax::Node node)
    : declaration(node)
    , name(declared_name(node))
    , label(label_of(node)) {
    for (const syntax::Node item : node.children()) {
        switch (item.kind()) {
        case Syntax::in_groups_:
            for (const syntax::Node group : item.children()) {
                groups.push_back(group);
            }
            break;
        case Syntax::port_:
            for (const syntax::Node port : item.children()) {
                ports.push_back(port);
            }
            break;
        case Syntax::end_:
            ends.push_back(item);
            break;
        case Syntax::given_:
            givens.push_back(item);
            break;
        case Syntax::chamber_:
            chambers.push_back(item);
            break;
        case Syntax::position_:
            positions.push_back(item);
            break;
        case Syntax::always_:
            always.push_back(item);
            break;
        case Syntax::dial_:
            dials.push_back(item);
            break;
        case Syntax::guard_set_:
        case Syntax::guard_while_:
            guards.push_back(item);
            break;
        case Syntax::hazard_:
            hazards.push_back(item);
            break;
        case Syntax::inner_part_:
            inner_parts.push_back(item);
            break;
        case Syntax::springs_back_:
            springs_back = item.child(0);
            break;
        case Syntax::each_way_order_:
            for (const syntax::Node way : item.children()) {
                each_way.push_back(way);
            }
            break;
        case Syntax::rated_:
            rated = item.child(0);
            break;
        case Syntax::body_:
            body = item.child(0);
            break;
        case Syntax::may_run_dry_:
            may_run_dry = item.child(0);
            break;
        case Syntax::cools_:
            cools = item.child(0);
            break;
        case Syntax::sight_glass_:
            sight_glass = true;
            break;
        default:
            break; // name, label, doc
        }
    }
}

std::optional<std::uint32_t> KindInfo::position(std::string_view position_name) const {
    for (std::uint32_t i = 0; i < positions.size(); ++i) {
        if (positions[i].child(0).text() == position_name) {
            return i;
        }
    }
    return std::nullopt;
}

} // namespace curbstop::meaning
