// Findings told in the owner's labels: from where, through what, standing how, out where, what would stop it.
// Must not know: what any obligation demands.
#pragma once

#include <set>
#include <string>
#include <tuple>
#include <vector>

#include "proofs/engine.h"
#include "text/diagnostic.h"

namespace curbstop::proofs {

/// A violation: the configurations in which something is wrong, and what to say about it.
struct Finding {
    std::string_view slug;
    text::Severity severity = text::Severity::error;
    text::Span span{};
    std::string message = {};
    std::vector<text::Label> labels = {};
    std::vector<std::string> notes = {};
    std::vector<std::string> remedies = {};
    std::vector<std::string> cut = {}; ///< of blocked-flow: what is shut on the way
};

class Findings {
  public:
    /// `seeks_remedies`: whether what costs more than the check itself may be tried to help the author.
    explicit Findings(text::DiagnosticSink& sink, bool seeks_remedies = true)
        : sink_(sink)
        , seeks_remedies_(seeks_remedies) {}
    /// Each slug once per place; a warning does not keep an error of its slug from being said there.
    void add(Finding finding);
    /// Findings from here on are in this step of the sheet; in none with a null.
    void in_step(const meaning::Step* step, std::uint32_t number) {
        step_ = step;
        number_ = number;
    }
    std::size_t errors() const { return errors_; }
    bool seeks_remedies() const { return seeks_remedies_; }

  private:
    text::DiagnosticSink& sink_;
    bool seeks_remedies_;
    const meaning::Step* step_ = nullptr;
    std::uint32_t number_ = 0;
    std::set<std::tuple<std::string_view, text::Span, text::Severity>> said_;
    std::size_t errors_ = 0;
};

/// A part that has not been moved since the start and a value such that looking would settle the matter: with it none
/// of `wrong` is left, and something is.
struct Proposal {
    meaning::VariableId variable;
    std::uint32_t value = 0;
};
std::optional<Proposal> verify_that_settles(Engine& engine, instants::Set wrong);
std::string verify_text(const meaning::System& system, const Proposal& proposal);

/// Adds the finding; where one look at something unmoved would settle it, as `needs-verify` with that look proposed.
void add_or_ask(Engine& engine, Findings& findings, instants::Set wrong, Finding finding);

/// What is particular about one configuration of `set`: "with Loft tap; Kitchen tap stood open at the start".
std::vector<std::string> circumstances(Engine& engine, instants::Set set);

/// "Kitchen tap (open)".
std::string part_standing(const Engine& engine, meaning::VariableId variable, std::uint32_t value);
std::string origin_label(const meaning::System& system, const Origin& origin);
std::string outlet_label(const meaning::System& system, meaning::OutletId outlet);

/// The parts on a path, as they stand in a configuration, and the last that could be put otherwise to close it.
struct Route {
    std::vector<std::string> stations;
    std::optional<Proposal> closes;
};
Route route(Engine& engine, const Reach& reach, Vertex to, const std::vector<bool>& configuration);
/// The parts that are shut on the way that has the fewest of them; empty if nothing joins the two at all.
std::vector<std::string> closed_on_the_way(Engine& engine, const Reach& reach, std::span<const Vertex> to,
                                           const std::vector<bool>& configuration);

std::string joined(const std::vector<std::string>& words, std::string_view between);
std::string joined(const std::vector<meaning::Text>& labels, std::string_view between);

} // namespace curbstop::proofs
