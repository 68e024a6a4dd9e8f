#include "output/crew.h"

#include "output/sheet_switches.h"

#include <algorithm>

namespace curbstop::output {

using namespace meaning;

namespace {

/// An arm and a step, in metres. Common practice, no source.
constexpr double within_reach = 2;

bool is_near(const System& system, ZoneId a, ZoneId b) {
    return a == b || std::ranges::any_of(system.walks, [&](const Walk& walk) {
               return ((walk.a == a && walk.b == b) || (walk.a == b && walk.b == a)) &&
                      to_double(walk.length, Unit::m) <= within_reach;
           });
}

} // namespace

bool Crew::is_in_reach(SourceId source, const std::vector<ZoneId>& hands) const {
    const System& system = words_->system();
    const auto switches = switched_by(system, system[source].on);
    std::vector<WorkPlace> places;
    for (const auto& [variable, values] : switches) {
        std::ranges::copy(words_->places(variable), std::back_inserter(places));
    }
    // What nothing switches, or is switched anywhere, needs nobody in a place.
    return places.empty() || hands.empty() || std::ranges::any_of(places, [&](const WorkPlace& place) {
               return std::ranges::any_of(hands, [&](ZoneId hand) { return is_near(system, place.zone, hand); });
           });
}

Needs Crew::next(const proofs::StepReport& report, const std::vector<ZoneId>& hands,
                 const std::vector<SourceId>& must_stay) {
    Needs needs;
    const bool helper_stays = !helped_.empty();
    needs.people = report.helper || helper_stays ? 2 : 1;
    std::vector<SourceId> stay = must_stay;
    if (helper_stays && !report.helper) {
        stay.clear(); // that is what the second is for
    }
    std::ranges::copy_if(stay, std::back_inserter(needs.unattended),
                         [&](SourceId source) { return !is_in_reach(source, hands); });
    needs.people += needs.unattended.empty() ? 0 : 1;
    if (report.helper || helper_stays) {
        helped_ = report.running;
    }
    return needs;
}

} // namespace curbstop::output
