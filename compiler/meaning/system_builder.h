// Builds the system from its declaration: first everything that has a name, then what joins it.
// Must not know: procedures, proofs.
#pragma once

#include <deque>
#include <map>

#include "meaning/context.h"

namespace curbstop::meaning {

/// Parts in one system, those inside assemblies included: a ship has hundreds; the limit stops kinds that multiply.
inline constexpr std::size_t max_parts = 50'000;
/// How deep assemblies may nest.
inline constexpr std::size_t max_assembly_depth = 16;

class SystemBuilder {
  public:
    SystemBuilder(Context& context, syntax::Node declaration);

    /// Fills context.system. What could not be understood has been complained about.
    void build();

  private:
    /// One part of a kind, between its naming and its joining.
    struct Instance {
        PartId part;
        const KindInfo* kind = nullptr;
        Scope scope;                  // inside the kind
        std::size_t outer = SIZE_MAX; // the instance around it, where its settings are to be understood
        std::optional<syntax::Node> settings;
        std::optional<syntax::Node> over;
    };
    struct EndFit {
        VariableId variable;
        std::string_view fits;
        bool cap = false;
        bool dips = false;
    };
    struct PartDraft {
        std::string name;
        Text label;
        std::string doc;
        syntax::Node kind_name;
        text::Span span;
        std::optional<syntax::Node> settings;
        std::optional<syntax::Node> over;
        std::vector<WorkPlace> places;
        ExpressionId exists;
        std::optional<Quantity> height;
        std::size_t outer = SIZE_MAX;
        std::vector<PhotoId> photos = {};
    };

    // naming (system_builder.cpp)
    void read_languages();
    void name_item(syntax::Node item);
    void name_zone(syntax::Node item);
    void name_cover(syntax::Node item);
    void name_vessel(syntax::Node item);
    void name_place(syntax::Node item);
    void name_free_end(syntax::Node item);
    void name_part(syntax::Node item);
    void add_name(Thing thing);
    NodeId add_node(Node node);
    VariableId add_variable(Variable variable);
    void add_end(syntax::Node item, std::string name, Text label, PartId part, ExpressionId exists,
                 std::optional<Quantity> height);
    std::vector<WorkPlace> work_places(syntax::Node item);
    ExpressionId existence(syntax::Node item);
    std::vector<Chamber::Acceptance> acceptances(syntax::Node item);
    void name_walks();
    void fill_end_values();

    // parts (part_builder.cpp)
    const KindInfo* kind_info(syntax::Node name);
    void instantiate(PartDraft draft);
    void read_givens(Instance& instance);
    void add_position_variable(Instance& instance);
    void add_dials(Instance& instance);
    /// What a body or chamber holds: written out, or as a quantity that the kind is given.
    std::optional<Quantity> volume_of(const Instance& instance, syntax::Node written, bool zero_allowed);
    void check_filling(const Chamber& vessel, syntax::Node filled);
    void add_chambers(Instance& instance);
    Scope outer_scope(const Instance& instance) const;
    std::optional<syntax::Node> setting(const Instance& instance, std::string_view name) const;

    // joining (way_builder.cpp, source_builder.cpp, joint_builder.cpp)
    void bind_given_parts(Instance& instance);
    void join(Instance& instance);
    void join_runs();
    void add_ways(const Instance& instance, syntax::Node ways, ExpressionId condition);
    void add_way(const Instance& instance, syntax::Node way, ExpressionId condition);
    void add_source(const Instance& instance, syntax::Node way, ExpressionId condition);
    /// What stands after `giving`.
    std::optional<Quantity> flow_rate(syntax::Node written, const Scope& scope);
    OutletId outlet_for(const Instance& instance, NodeId lands, bool below);
    OutletId add_outlet(Outlet outlet);
    WayId push_way(Way way);
    void add_guards(const Instance& instance);
    void add_end_ways();
    void add_fill_outlets();
    void collect_ratings();
    void check_tees();
    ExpressionId while_clause(syntax::Node way, const Scope& scope);

    Context& context_;
    System& system_;
    syntax::Node declaration_;
    std::map<std::string_view, KindInfo> kinds_;
    std::deque<Instance> instances_;
    std::vector<std::string_view> kind_stack_; // kinds being instantiated, outermost first
    std::vector<EndFit> ends_;
};

} // namespace curbstop::meaning
