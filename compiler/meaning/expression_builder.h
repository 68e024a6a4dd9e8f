// Expressions from syntax: names resolved, positions and units checked. Must not know how truth is decided.
#pragma once

#include "meaning/context.h"

namespace curbstop::meaning {

/// The expression that `node` writes; a complaint and nothing where it makes no sense. `own_ports` are meant by a bare
/// `no pressure` (in a kind).
std::optional<ExpressionId> expression_from(Context& context, syntax::Node node, const Scope& scope,
                                            std::span<const NodeId> own_ports = {});

/// The values of `variable` that a `standing` node means; `uncoupled` and the like may be several.
std::optional<ValueSet> values_from(Context& context, VariableId variable, syntax::Node standing, const Scope& scope);

/// The variables that subjects name: parts, covers, ends, `all GROUP`, `all covers`.
std::vector<VariableId> subjects_from(Context& context, syntax::Node subjects, const Scope& scope);

/// The value of a dial that stands for `setting`, added if need be; the value of a vessel under a node.
std::optional<std::uint32_t> dial_value(Context& context, VariableId dial, const Quantity& setting, text::Span where);
std::uint32_t vessel_value(Context& context, VariableId vessel, NodeId under);

/// Adds the variables that an expression speaks of to `variables`, each once, in the order of the text.
void variables_in(const System& system, ExpressionId expression, std::vector<VariableId>& variables);

} // namespace curbstop::meaning
