// The declarations of a file and of every module it uses, by name. Knows which modules use which, nothing of what a
// declaration says inside.
#pragma once

#include <deque>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "meaning/build.h"
#include "meaning/text.h"
#include "syntax/tree.h"
#include "text/diagnostic.h"

namespace curbstop::meaning {

/// Syntax node kinds, told apart from the model's own node kinds.
using Syntax = syntax::NodeKind;

/// Modules one file may use, directly or not: far more than a club has, few enough to load in a moment.
inline constexpr std::size_t max_modules = 256;

/// Declarations of one sort, by name and in the order in which they were read.
class Table {
  public:
    /// The earlier declaration of that name, if there is one; the new one is then not added.
    std::optional<syntax::Node> add(std::string_view name, syntax::Node node);
    std::optional<syntax::Node> find(std::string_view name) const;
    const std::vector<syntax::Node>& in_order() const { return in_order_; }
    /// The name nearest to `written`, for "did you mean".
    std::optional<std::string_view> nearest(std::string_view written) const;

  private:
    std::unordered_map<std::string_view, std::size_t> by_name_;
    std::vector<std::string_view> names_;
    std::vector<syntax::Node> in_order_;
};

struct Declarations {
    std::deque<syntax::Tree> trees; ///< the root's is the first; a deque never moves what nodes point into
    Table fluids, pipes, groups, kinds, systems, lineups, procedures, fragments;
    std::vector<syntax::Node> seasons;
};

/// The name of a declaration: its `name` child.
std::string_view declared_name(syntax::Node declaration);
/// The doc comment of a declaration, lines joined, `##` gone.
std::string doc_of(syntax::Node declaration);
/// The label of a declaration or its name.
Text label_of(syntax::Node declaration);
/// What a string says, in all languages that it is given in.
Text text_of(syntax::Node string);
/// A name as a text of its file.
Text text_of_name(syntax::Node name);
/// The language of the texts of a file.
Language language_of(const syntax::Tree& tree);

/// Reads `root` and all that it uses. Missing modules, circles and names taken twice are reported; what could be read
/// is returned all the same.
Declarations read_declarations(text::SourceSet& sources, text::SourceId root, const ModuleFinder& find_module,
                               text::DiagnosticSink& sink);

} // namespace curbstop::meaning
