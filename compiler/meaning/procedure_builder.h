// Procedures from syntax: names resolved, loops and fragments written out.
// Must not know: proofs, output.
#pragma once

#include "meaning/context.h"
#include "meaning/step_names.h"

namespace curbstop::meaning {

/// Steps that one procedure may come to once its loops are written out.
inline constexpr std::size_t max_steps = 100'000;
/// Statements that it may come to with that, and once all rounds of its repeats that have to be followed are.
inline constexpr std::uint64_t max_statements = 300'000;
/// How deep fragments may use fragments.
inline constexpr std::size_t max_fragment_depth = 16;
/// The most repetitions a `repeat` may name.
inline constexpr std::uint32_t max_repetitions = 1000;

class ProcedureBuilder {
  public:
    explicit ProcedureBuilder(Context& context)
        : context_(context)
        , system_(context.system) {}

    Procedure build(syntax::Node declaration);
    /// The contracts of a season, against the whole system.
    std::optional<Contract> contract(syntax::Node node, const Scope& scope);

  private:
    /// Whether one thing more may be written out; complains the first time that it may not.
    [[nodiscard]] bool may_write_out(syntax::Node node);

    // stages and steps (procedure_builder.cpp)
    void add_procedure_requires(Procedure& procedure, syntax::Node node);
    Stage stage(syntax::Node node);
    void add_stage_item(StageItems& items, syntax::Node node, Scope& scope);
    void add_stage_items(StageItems& items, syntax::Node block, Scope& scope);
    void add_step(StageItems& items, syntax::Node node, Scope& scope);
    std::vector<std::pair<Scope::Binding, std::vector<Scope::Binding>>> loop_bindings(syntax::Node loop,
                                                                                      const Scope& scope);
    /// Calls `body(scope)` for every turn of a loop, with its names bound.
    template <typename Body>
    void each_turn(syntax::Node loop, Scope& scope, const Body& body);
    /// Calls `body(fragment, scope)` with the arguments of a `do` bound.
    template <typename Body>
    void inside_fragment(syntax::Node use, Scope& scope, bool steps_wanted, const Body& body);
    std::vector<PartId> in_walking_order(std::vector<PartId> parts, syntax::Node from_to);

    // statements (statement_builder.cpp)
    void add_statements(Statements& statements, syntax::Node block, Scope& scope, std::size_t from = 0);
    void add_statement(Statements& statements, syntax::Node node, Scope& scope);
    void add_handling(Statements& statements, syntax::Node node, Scope& scope);
    void add_words(Statements& statements, syntax::Node node, Scope& scope);
    void push(Statements& statements, syntax::Node node, decltype(Statement::what) what,
              ExpressionId exists = Expressions::always());
    std::optional<Setting> setting_of(VariableId variable, syntax::Node standing, const Scope& scope);
    std::optional<VariableId> end_of(syntax::Node ref, const Scope& scope);

    // flows (flow_builder.cpp)
    std::optional<Flow> flow(syntax::Node node, const Scope& scope);
    bool add_origin(Flow& flow, syntax::Node ref, const Scope& scope, ExpressionId& exists);
    bool add_outlet(Flow& flow, syntax::Node ref, const Scope& scope);
    std::optional<Observation> observation(syntax::Node until, const Scope& scope);
    /// Whether what is seen can be seen of such a flow; complains if not.
    bool fits(const Observation& seen, const Flow& flow, const Scope& scope);
    void read_bounds(Flow& flow, syntax::Node node, const Scope& scope);
    [[nodiscard]] bool read_bounds(RecordStatement& record, syntax::Node node, const Scope& scope);

    /// Text of a string with `{name}` replaced by the label of what is bound.
    /// `{step NAME}` stays, for the number is known only once all steps are.
    Text words(syntax::Node string, const Scope& scope);
    static std::string with_bound_labels(std::string_view text, const Scope& scope, Language language);
    ExpressionId exists_of(const Thing& thing) const;

    Context& context_;
    System& system_;
    std::uint32_t branches_ = 0;
    std::size_t steps_ = 0;
    std::uint64_t written_ = 0; // statements, turns of loops, uses of fragments
    bool too_long_ = false;
    StepNames step_names_;
    std::optional<syntax::Node> next_name_;   // that a `do` gives to the first step of its fragment
    std::vector<std::string_view> fragments_; // being written out, outermost first
};

} // namespace curbstop::meaning
