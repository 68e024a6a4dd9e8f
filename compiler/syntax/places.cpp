#include "syntax/places.h"

namespace curbstop::syntax {

std::string_view place_phrase(Place place) {
    switch (place) {
    case Place::file:
        return "at the top of a file";
    case Place::fluid:
        return "in a fluid";
    case Place::pipe:
        return "in a pipe";
    case Place::kind:
        return "in a kind";
    case Place::chamber:
        return "in a chamber";
    case Place::ways:
        return "among ways";
    case Place::settings:
        return "among the settings of a part";
    case Place::system:
        return "in a system";
    case Place::lineup:
        return "in a line-up";
    case Place::procedure:
        return "in a procedure";
    case Place::stage:
        return "in a stage";
    case Place::step:
        return "in a step";
    case Place::season:
        return "in a season";
    }
    return {};
}

std::string_view item_phrase(Place place) {
    switch (place) {
    case Place::file:
        return "a declaration";
    case Place::fluid:
        return "a property of the fluid";
    case Place::pipe:
        return "`bore`, `rated` or `source`";
    case Place::kind:
        return "something that a kind is made of, such as `port` or `position`";
    case Place::chamber:
        return "`low`, `side`, `brim` or `top`";
    case Place::ways:
        return "a way";
    case Place::settings:
        return "a setting";
    case Place::system:
        return "something that a system is made of, such as `part` or `run`";
    case Place::lineup:
        return "a part and how it stands";
    case Place::procedure:
        return "a stage, `requires` or `ensures`";
    case Place::stage:
        return "a step";
    case Place::step:
        return "a statement";
    case Place::season:
        return "`ensures`";
    }
    return {};
}

} // namespace curbstop::syntax
