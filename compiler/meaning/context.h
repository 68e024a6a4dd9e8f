// What the passes of this folder share while a model is being built: the model so far, the names, where complaints go.
// Must not know: proofs, output.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "meaning/kind.h"
#include "meaning/modules.h"
#include "meaning/names.h"
#include "meaning/procedure.h"
#include "syntax/tree.h"
#include "text/diagnostic.h"

namespace curbstop::meaning {

/// Names bound for a while: loop variables, arguments of fragments, what a kind was given. Innermost last.
struct Scope {
    /// Names of the scope are below this part (in a kind); empty in a system.
    std::string prefix;
    struct Binding {
        std::string_view name;
        std::optional<Thing> thing; ///< nothing: an optional part that was not given
        std::optional<Quantity> quantity;
    };
    std::vector<Binding> bindings;
    /// Notes to add to complaints made inside: "in `do rinse` here".
    std::vector<text::Label> trail;

    const Binding* find(std::string_view name) const;
};

class Context {
  public:
    Context(const text::SourceSet& sources, const Declarations& declarations, text::DiagnosticSink& sink, Model& model)
        : sources(sources)
        , declarations(declarations)
        , sink(sink)
        , model(model)
        , system(model.system) {}

    const text::SourceSet& sources;
    const Declarations& declarations;
    text::DiagnosticSink& sink;
    Model& model;
    System& system;
    Names names;
    /// Parts whose kind is not known: what is below them is not missed.
    std::unordered_set<std::string> broken;
    /// What parts were given: `PART.GIVEN` to the part given; nothing where it is optional and was not.
    std::unordered_map<std::string, std::optional<Thing>> given_parts;
    std::unordered_map<std::string_view, FluidId> fluids;
    std::unordered_map<std::string_view, GroupId> groups;
    std::unordered_map<std::string_view, LineupId> lineups;
    std::unordered_map<std::string_view, ProcedureId> procedures;

    /// Reports an error at `where`; labels and remedies may be added to what is returned before the next complaint.
    void complain(std::string_view slug, text::Span where, std::string message, const Scope* scope = nullptr,
                  std::vector<std::string> notes = {}, std::vector<std::string> remedies = {},
                  std::vector<text::Label> labels = {});

    /// A unit without a number, of the dimension asked for; otherwise a complaint. `of`: what it is the unit of.
    std::optional<Unit> unit(syntax::Node node, Dimension dimension, std::string_view of);
    /// A quantity of the dimension asked for; otherwise a complaint that says what is needed.
    std::optional<Quantity> quantity(syntax::Node node, Dimension dimension);
    /// The same, and greater than zero (not below zero where `zero_allowed`).
    std::optional<Quantity> positive_quantity(syntax::Node node, Dimension dimension, bool zero_allowed = false);
    /// A whole number from 1 to `most`.
    std::optional<std::uint32_t> count(syntax::Node number, std::uint32_t most);

    std::optional<FluidId> fluid(syntax::Node name, const Scope* scope = nullptr);
    std::optional<OptionId> option(syntax::Node name);
    std::optional<ZoneId> zone(syntax::Node name);

    /// What a reference stands for; complains (with the nearest name) where nothing is found.
    const Thing* resolve(syntax::Node ref, const Scope& scope);
    /// Whether a reference in a kind leads to an optional part that was not given, be it to this part (`power`) or to
    /// one that it was given (`power.feed`).
    bool is_left_out(syntax::Node ref, const Scope& scope) const;
    /// A part, cover, end, dial or vessel that can stand in several ways.
    std::optional<VariableId> variable(syntax::Node ref, const Scope& scope);
    /// A port, tee, end or chamber; a part with just one port will do.
    std::optional<NodeId> node(syntax::Node ref, const Scope& scope);
    /// A chamber, vessel or a part with just one chamber.
    std::optional<ChamberId> chamber(syntax::Node ref, const Scope& scope);

    void mention(VariableId variable);

    /// A complaint that `thing` is of the wrong sort.
    void wrong_sort(syntax::Node ref, const Thing& thing, std::string_view needed, const Scope& scope);

  private:
    /// A dotted name with each given in it replaced by the part that was given; if that is none, the name up to it.
    struct BehindGiven {
        std::string name;
        bool left_out = false;
    };
    BehindGiven behind_given(std::string name) const;

    // Things made up on the way (a bound name with a further dotted part) that resolve() hands out.
    std::deque<Thing> made_;
};

/// A dotted reference as one text.
std::string dotted(syntax::Node ref);

/// The text of a node with runs of white space and comments made one space.
std::string as_written(syntax::Node node);

} // namespace curbstop::meaning
