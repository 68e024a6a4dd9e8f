#include "output/step_places.h"

#include "output/gear.h"

#include <algorithm>
#include <variant>

namespace curbstop::output {

using namespace meaning;

namespace {

class Walker {
  public:
    Walker(const Words& words, const Whereabouts& start, Placed& placed)
        : words_(&words)
        , start_(&start)
        , placed_(&placed) {}

    void statements(const Statements& all) {
        for (const Statement& each : all) {
            std::visit([this](const auto& what) { visit(what); }, each.what);
        }
    }

    [[nodiscard]] StepPlaces take() {
        if (places_.own.empty() && !watched_.empty()) {
            places_.own = watched_; // all that there is to do
        }
        places_.all = places_.own;
        for (const ZoneId zone : watched_) {
            if (std::ranges::find(places_.all, zone) == places_.all.end()) {
                places_.all.push_back(zone);
            }
        }
        return std::move(places_);
    }

    static bool has_helper(const Statements& all) {
        return std::ranges::any_of(
            all, [](const Statement& each) { return std::holds_alternative<HelperStatement>(each.what); });
    }
    void with_helper() { helped_ = true; }

  private:
    void go(ZoneId zone) {
        if (zone && (places_.own.empty() || places_.own.back() != zone)) {
            places_.own.push_back(zone);
        }
    }
    void go(const std::vector<WorkPlace>& places) {
        acted_ = true;
        const auto here = [&](const WorkPlace& place) {
            return places_.own.empty() ? start_->surely(place.zone) : place.zone == places_.own.back();
        };
        const auto found = std::ranges::find_if(places, here);
        if (!places.empty()) {
            go(found == places.end() ? places.front().zone : found->zone);
        }
    }
    void go(VariableId variable) { go(words_->places(variable)); }
    void go(PartId part) {
        acted_ = true;
        for (; part; part = words_->system()[part].parent) {
            if (const auto& places = words_->system()[part].places; !places.empty()) {
                return go(places);
            }
        }
    }
    void look(ExpressionId id) {
        for (const ExpressionId piece : words_->conjuncts(id)) {
            const Expression& e = words_->system()[piece];
            if (e.kind == ExpressionKind::cool && e.chamber) {
                go(words_->system()[e.chamber].part);
            } else if (e.kind == ExpressionKind::no_pressure && e.node) {
                go(words_->system()[e.node].part);
            }
        }
    }

    void visit(const SetStatement& s) {
        for (const Setting& setting : s.settings) {
            go(setting.variable);
        }
    }
    void visit(const HoldStatement& s) {
        go(s.setting.variable);
        statements(s.body);
    }
    void visit(const CoupleStatement& s) {
        if (!is_gear(words_->system(), words_->system()[s.a].part)) { // what is carried along is where it is coupled
            go(s.a);
        }
        go(s.b);
    }
    void visit(const UncoupleStatement& s) { go(s.end); }
    void visit(const CapStatement& s) { go(s.end); }
    void visit(const DipStatement& s) { go(s.end); }
    void visit(const LiftOutStatement& s) { go(s.end); }
    void visit(const PlaceStatement& s) {
        go(words_->system()[s.under].part);
        if (!places_.own.empty()) {
            (*placed_)[s.chamber.value] = places_.own.back();
        }
    }
    void visit(const TakeAwayStatement& s) {
        if (const auto found = placed_->find(s.chamber.value); found != placed_->end()) {
            go(found->second);
            placed_->erase(found);
        }
    }
    void visit(const PourStatement& s) {
        for (const Place& place : words_->system().places) {
            if (place.node == s.into) {
                return go(place.zone);
            }
        }
        if (!acted_) { // what it gets into may lie elsewhere than its mouth, where one stands by then
            go(words_->system()[s.into].part);
        }
    }
    void visit(const VerifyStatement& s) {
        for (const VariableId each : s.looked_at) {
            go(each);
        }
    }
    void visit(const WatchStatement& s) {
        if (helped_) {
            watched_.push_back(s.zone);
        } else {
            go(s.zone);
        }
    }
    void visit(const ContractStatement& s) {
        if (s.requires_) {
            look(s.expression);
        }
    }
    void visit(const RepeatStatement& s) { statements(s.body); }
    void visit(const ConditionalStatement& s) { statements(s.body); }
    void visit(const InCaseStatement& s) { statements(s.body); }
    template <class Other>
    void visit(const Other&) {} // done wherever one is

    const Words* words_;
    const Whereabouts* start_;
    StepPlaces places_;
    Placed* placed_;
    std::vector<ZoneId> watched_; // by a helper
    bool acted_ = false;          // more than taken a vessel away
    bool helped_ = false;
};

} // namespace

StepPlaces places_of(const Words& words, const Step& step, const Whereabouts& start, Placed& placed) {
    Walker walker(words, start, placed);
    if (Walker::has_helper(step.statements)) {
        walker.with_helper();
    }
    walker.statements(step.statements);
    return walker.take();
}

} // namespace curbstop::output
