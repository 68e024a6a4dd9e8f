#include "proofs/remedy.h"

#include <algorithm>
#include <bit>
#include <deque>

#include <fmt/format.h>

#include "meaning/quantity_text.h"
#include "proofs/pocket_story.h"
#include "proofs/proof.h"

namespace curbstop::proofs {

using namespace meaning;

namespace {

/// So many procedures are proved in search of a remedy: each costs what the check itself does.
constexpr std::size_t most_tries = 48;
/// So many parts next to a pocket are tried as outlets.
constexpr std::size_t most_outlets = 3;
constexpr std::size_t budget_of_a_try = 1'000'000;

/// A step that draws, blows or flushes: behind it another of its kind can stand.
struct Site {
    std::vector<std::size_t> path; ///< stage, then the item in each list on the way down
    const Flow* flow = nullptr;
    const Step* step = nullptr;
};

const StageItems* inner_items(const StageItem& item) {
    if (const auto* conditional = std::get_if<ConditionalSteps>(&item.what)) {
        return &conditional->items;
    }
    if (const auto* in_case = std::get_if<InCaseSteps>(&item.what)) {
        return &in_case->items;
    }
    if (const auto* repeat = std::get_if<RepeatSteps>(&item.what)) {
        return &repeat->items;
    }
    if (const auto* meanwhile = std::get_if<MeanwhileSteps>(&item.what)) {
        return &meanwhile->items;
    }
    return nullptr;
}

const Flow* flow_in(const Statements& statements) {
    for (const Statement& statement : statements) {
        const Flow* found = nullptr;
        if (const auto* flow = std::get_if<FlowStatement>(&statement.what)) {
            found = flow->flow.gravity ? nullptr : &flow->flow;
        } else if (const auto* hold = std::get_if<HoldStatement>(&statement.what)) {
            found = flow_in(hold->body);
        } else if (const auto* conditional = std::get_if<ConditionalStatement>(&statement.what)) {
            found = flow_in(conditional->body);
        }
        if (found != nullptr) {
            return found;
        }
    }
    return nullptr;
}

bool same_kind(const Flow& a, const Flow& b) {
    return a.chambers == b.chambers && a.supplies == b.supplies && a.until->kind == b.until->kind &&
           a.until->fluid == b.until->fluid;
}

// The last step of each kind of flow, the latest first.
void find_sites(const StageItems& items, const std::vector<std::size_t>& path, std::vector<Site>& sites,
                bool (*suits)(const Flow&)) {
    for (std::size_t i = 0; i < items.size(); ++i) {
        std::vector<std::size_t> here = path;
        here.push_back(i);
        if (const auto* step = std::get_if<Step>(&items[i].what)) {
            const Flow* flow = flow_in(step->statements);
            if (flow != nullptr && flow->until && suits(*flow)) {
                std::erase_if(sites, [&](const Site& earlier) { return same_kind(*earlier.flow, *flow); });
                sites.push_back({std::move(here), flow, step});
            }
        } else if (const StageItems* inner = inner_items(items[i])) {
            find_sites(*inner, here, sites, suits);
        }
    }
}

// The list that a path leads to, in a copy of the procedure.
StageItems& list_at(Procedure& procedure, const std::vector<std::size_t>& path) {
    StageItems* items = &procedure.stages[path.front()].items;
    for (std::size_t i = 1; i + 1 < path.size(); ++i) {
        items = const_cast<StageItems*>(inner_items((*items)[path[i]])); // NOLINT: the copy is ours
    }
    return *items;
}

/// A part that lets something out, standing so.
struct Tap {
    PartId part;
    std::uint32_t open = 0;
    std::uint32_t shut = 0;
};

// The taps nearest to a pocket, whatever stands how.
std::vector<Tap> taps_near(Engine& engine, PocketIndex pocket) {
    const System& system = engine.system();
    const Network& network = engine.transport().network();
    std::vector<char> seen(network.vertex_count(), 0);
    std::deque<Vertex> queue;
    for (Vertex vertex = 0; vertex < network.vertex_count(); ++vertex) {
        if (engine.transport().pocket_at(vertex) == pocket) {
            seen[vertex] = 1;
            queue.push_back(vertex);
        }
    }
    std::vector<PartId> parts;
    while (!queue.empty() && parts.size() < most_outlets) {
        const Vertex at = queue.front();
        queue.pop_front();
        if (const OutletId outlet = network.outlet_at(at); outlet.valid()) {
            const PartId part = system[outlet].part;
            if (part.valid() && system[part].variable.valid() && std::ranges::find(parts, part) == parts.end()) {
                parts.push_back(part);
            }
            continue;
        }
        const auto go = [&](Vertex to) {
            if (seen[to] == 0 && to != network.air()) {
                seen[to] = 1;
                queue.push_back(to);
            }
        };
        for (const EdgeIndex index : network.out_of(at)) {
            go(network.edge(index).to);
        }
        for (const EdgeIndex index : network.into(at)) {
            go(network.edge(index).from);
        }
    }
    std::vector<Tap> taps;
    for (const PartId part : parts) {
        const Variable& variable = system[system[part].variable];
        const ValueSet standing = engine.values_where_there(system[part].variable);
        for (std::uint32_t value = 0; value < variable.values.size(); ++value) {
            const bool opens =
                variable.each_way.empty() || std::ranges::find(variable.each_way, value) != variable.each_way.end();
            if (opens && standing != ValueSet{1} << value && std::has_single_bit(standing)) {
                taps.push_back({part, value, static_cast<std::uint32_t>(std::countr_zero(standing))});
            }
        }
    }
    return taps;
}

Flow flow_to(const System& system, const Flow& like, PartId part) {
    Flow flow = like;
    flow.outlets = system[part].outlets;
    flow.outlet_groups = {flow.outlets};
    flow.outlet_labels = {system[part].label};
    flow.outlet_exists = {system[part].exists};
    flow.parts_exist = system[part].exists == Expressions::always() ? like.origin_exists : system[part].exists;
    flow.seen_at = {};
    return flow;
}

Step step_for(const System& system, const Site& site, const Tap& tap) {
    const VariableId variable = system[tap.part].variable;
    const ExpressionId exists = system[tap.part].exists;
    const text::Span span = site.step->span;
    Step step;
    step.span = span;
    Statement draw{FlowStatement{flow_to(system, *site.flow, tap.part)}, span, exists};
    if (system[variable].springs_back) {
        HoldStatement hold{{variable, tap.open, span}, {}};
        hold.body.push_back(std::move(draw));
        step.statements.push_back({std::move(hold), span, exists});
    } else {
        step.statements.push_back({SetStatement{{{variable, tap.open, span}}}, span, exists});
        step.statements.push_back(std::move(draw));
        step.statements.push_back({SetStatement{{{variable, tap.shut, span}}}, span, exists});
    }
    return step;
}

// The step as one would write it.
std::string written(const System& system, const Site& site, const Tap& tap) {
    const Variable& variable = system[system[tap.part].variable];
    std::string origin;
    for (const ChamberId chamber : site.flow->chambers) {
        origin += (origin.empty() ? "" : ", ") +
                  (system[chamber].vessel ? system[chamber].name : system[system[chamber].part].name);
    }
    for (const meaning::SourceId supply : site.flow->supplies) {
        origin += (origin.empty() ? "" : ", ") + system[system[supply].part].name;
    }
    const Observation& until = *site.flow->until;
    std::string seen =
        until.kind == ObservationKind::clear      ? "clear"
        : until.kind == ObservationKind::only_air ? "only air"
        : until.kind == ObservationKind::reads_at_least
            ? fmt::format("reads at least {}", write_quantity(*until.least, Unit::mg_per_L)
                                                   .value_or(format_quantity(*until.least, UnitSystem::metric)))
            : "shows " + system[until.fluid].name;
    std::string flow = fmt::format("flow {} to {} until {} \"…\"", origin, system[tap.part].name, seen);
    for (const auto& [word, amount] : {std::pair("at least", site.flow->at_least), {"at most", site.flow->at_most}}) {
        if (amount) {
            flow += fmt::format(" {} {}", word, format_quantity(*amount, Unit::L));
        }
    }
    const std::string open = variable.values[tap.open].name;
    if (variable.springs_back) {
        return fmt::format("`hold {} at {} {{ {} }}`", variable.name, open, flow);
    }
    return fmt::format("`set {0} to {1}`, `{2}`, `set {0} to {3}`", variable.name, open, flow,
                       variable.values[tap.shut].name);
}

} // namespace

std::vector<std::string> flows_that_clear(Event& event, const Expression& claim, const std::vector<Shortfall>& pockets,
                                          Broken broken, bool (*suits)(const Flow&)) {
    if (event.model == nullptr || !event.findings.seeks_remedies() || event.findings.errors() != 0) {
        return {};
    }
    std::vector<Site> sites;
    for (std::size_t i = 0; i < event.procedure.stages.size(); ++i) {
        find_sites(event.procedure.stages[i].items, {i}, sites, suits);
    }
    std::ranges::reverse(sites);
    const System& system = event.engine.system();
    std::vector<PocketIndex> left;
    for (const Shortfall& pocket : pockets) {
        left.push_back(pocket.pocket);
    }
    std::vector<std::string> found;
    std::size_t tries = 0;
    for (std::size_t next = 0; next < left.size() && tries < most_tries;) {
        bool cleared = false;
        for (const Tap& tap : taps_near(event.engine, left[next])) {
            for (const Site& site : sites) {
                if (cleared || ++tries > most_tries) {
                    break;
                }
                Procedure changed = event.procedure;
                StageItems& list = list_at(changed, site.path);
                list.insert(list.begin() + static_cast<std::ptrdiff_t>(site.path.back()) + 1,
                            StageItem{step_for(system, site, tap), site.step->span});
                text::DiagnosticSink heard;
                Findings apart(heard, false);
                Proof proof(*event.model, budget_of_a_try);
                try {
                    proof.run(changed, apart, false);
                } catch (const instants::BudgetSpent&) {
                    continue;
                }
                const bool clean = std::ranges::all_of(heard.diagnostics(), [](const text::Diagnostic& said) {
                    return said.severity != text::Severity::error || said.slug == "frost-risk" ||
                           said.slug == "not-drinkable" || said.slug == "not-sanitised";
                });
                if (!clean || proof.engine() == nullptr) {
                    continue;
                }
                const std::vector<Shortfall> still = broken(*proof.engine(), claim);
                const auto is_still = [&](PocketIndex pocket) {
                    return std::ranges::find(still, pocket, &Shortfall::pocket) != still.end();
                };
                const auto gone = static_cast<std::size_t>(
                    std::ranges::count_if(left, [&](PocketIndex pocket) { return !is_still(pocket); }));
                if (is_still(left[next]) || still.size() + gone > pockets.size() + found.size() * pockets.size()) {
                    continue;
                }
                cleared = true;
                found.push_back(fmt::format("behind the step `{}`: {} (tried: it clears {} of them)", site.step->title,
                                            written(system, site, tap), gone));
                std::erase_if(left, [&](PocketIndex pocket) { return !is_still(pocket); });
            }
        }
        next += cleared ? 0 : 1;
    }
    return found;
}

} // namespace curbstop::proofs
