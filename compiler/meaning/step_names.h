// The names that steps may have, and the texts that name a step: `{step NAME}`, written as its number.
// Must not know: what else stands in a text or a step, output.
#pragma once

#include <map>
#include <string_view>
#include <vector>

#include "meaning/context.h"

namespace curbstop::meaning {

class StepNames {
  public:
    /// A step that is being written out, the `number`th of its procedure.
    void declare(syntax::Node name, std::size_t number);
    /// Keeps in mind which steps `text` names, which was made of `string`.
    void note_uses(const Text& text, syntax::Node string, const Scope& scope);
    /// Once all steps are known: complains of names that no step has or several have, and writes the numbers.
    void write_numbers(Procedure& procedure, Context& context) const;

  private:
    struct Declared {
        std::vector<std::size_t> numbers;
        std::vector<text::Span> spans;
    };
    struct Use {
        std::string name;
        text::Span span{};
        std::vector<text::Label> trail; // of the scope
    };
    std::map<std::string, Declared, std::less<>> declared_;
    std::vector<Use> uses_;
};

} // namespace curbstop::meaning
