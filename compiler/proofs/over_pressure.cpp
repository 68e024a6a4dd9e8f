// over-pressure. Claim: no source that is on presses on anything with more than it is rated for, reducers and relief
// valves counted. A dial counts at what it is set to. Judged where it is new. Assumes: a relief valve lets off whatever
// comes. Does not show: static head.
#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "meaning/quantity_text.h"
#include "proofs/obligations.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;

namespace {

class OverPressure : public Obligation {
  public:
    std::string_view slug() const override { return "over-pressure"; }
    void start(Event& event) override { judge(event, false); }
    void instant(Event& event, const instants::Move&) override { judge(event, true); }
    void contents_changed(Event& event) override { judge(event, true); }

  private:
    struct Key {
        meaning::SourceId source;
        const meaning::Rating* rating;
        auto operator<=>(const Key&) const = default;
    };

    void judge(Event& event, bool report) {
        Engine& engine = event.engine;
        instants::Diagrams& diagrams = event.diagrams();
        std::map<Key, Set> now;
        for (const SourceState& source : engine.sources()) {
            if (!source.possibly_on) {
                continue;
            }
            for (const Threshold& threshold : source.thresholds) {
                for (const meaning::Rating& rating : threshold.weak) {
                    ++asked;
                    // A vented chamber stands at the pressure of the air: what counts is what goes on from it.
                    const Vertex vertex = engine.network().source_vertex(rating.node);
                    if (!threshold.reach->possible(vertex)) {
                        continue;
                    }
                    const Set strong = diagrams.both(source.on, engine.gives_more_than(source.id, threshold.at));
                    Set wrong = diagrams.both(strong, threshold.reach->exact(vertex, engine.knowledge()));
                    if (diagrams.disjoint(wrong, engine.possible())) {
                        continue;
                    }
                    wrong = diagrams.both(wrong, engine.knowledge().truth(rating.exists));
                    wrong = diagrams.without(wrong, relieved(engine, vertex, threshold.at));
                    if (diagrams.disjoint(wrong, engine.possible())) {
                        continue;
                    }
                    const Key key{source.id, &rating};
                    now.emplace(key, wrong);
                    const auto earlier = before_.find(key);
                    const Set fresh =
                        diagrams.both(diagrams.without(wrong, earlier == before_.end() ? nothing : earlier->second),
                                      engine.possible());
                    if (report && fresh != nothing) {
                        tell(event, source, threshold, rating, fresh);
                    }
                }
            }
        }
        before_ = std::move(now);
    }

    // Where a relief valve that opens at the rating or below is joined to the vertex.
    static Set relieved(Engine& engine, Vertex vertex, const meaning::Quantity& rating) {
        const meaning::System& system = engine.system();
        std::vector<meaning::Quantity> settings;
        for (const meaning::Way& way : system.ways) {
            if (way.above && !(rating.value < way.above->value) &&
                std::ranges::find(settings, *way.above) == settings.end()) {
                settings.push_back(*way.above);
            }
        }
        Set result = nothing;
        for (const meaning::Quantity& setting : settings) {
            Reach search(engine.network(), system,
                         ReachSpec{.starts = {vertex},
                                   .classes = static_cast<std::uint8_t>(pass | relief),
                                   .relief_at = setting});
            for (const Vertex reached : search.marks()) {
                const meaning::OutletId outlet = engine.network().outlet_at(reached);
                if (outlet.valid()) {
                    result = engine.diagrams().either(result, search.exact(reached, engine.knowledge()));
                }
            }
        }
        return result;
    }

    void tell(Event& event, const SourceState& source, const Threshold& threshold, const meaning::Rating& rating,
              Set fresh) {
        Engine& engine = event.engine;
        const meaning::System& system = engine.system();
        const auto configuration = engine.knowledge().assignment(fresh);
        Finding finding{.slug = slug(), .span = event.span};
        finding.message =
            fmt::format("`{}` can press on `{}` with more than the {} it is rated for", system[source.id].label,
                        rating.label, meaning::format_quantity(threshold.at, meaning::Unit::bar));
        const Route way = route(engine, *threshold.reach, engine.network().source_vertex(rating.node), configuration);
        finding.notes.push_back(fmt::format("the way: {}{}{}", system[source.id].label,
                                            way.stations.empty() ? "" : " > ", joined(way.stations, " > ")));
        add_circumstances(event, fresh, finding);
        finding.remedies.emplace_back(
            system[source.id].dial.valid()
                ? "set its dial lower before this, or shut it off from there"
                : "put a pressure reducer or a relief valve between them, or shut it off from there");
        add_or_ask(engine, event.findings, fresh, std::move(finding));
    }

    std::map<Key, Set> before_;
};

} // namespace

std::unique_ptr<Obligation> over_pressure() {
    return std::make_unique<OverPressure>();
}

} // namespace curbstop::proofs
