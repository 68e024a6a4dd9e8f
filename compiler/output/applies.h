// Under which options of a system a thing on the sheet applies, in a form that the sheet's script can work out once it
// knows some of them. What is read aloud of the same condition is in words.h.
// Must not know: HTML, words.
#pragma once

#include "meaning/system.h"

#include <string>

namespace curbstop::output {

/// A condition on options, three-valued: what no option decides (a remedy, a position) may always come to apply.
class Applies {
  public:
    /// Always.
    Applies() = default;
    /// No option decides it.
    [[nodiscard]] static Applies open() { return Applies("?"); }
    [[nodiscard]] static Applies under(const meaning::System& system, meaning::ExpressionId condition);

    [[nodiscard]] bool always() const { return postfix_.empty(); }
    /// Postfix notation, words with blanks between: the index of an option, `yes`, `no`, `?`, `not`, `and`, `or`. Empty
    /// where it always applies. No label enters.
    [[nodiscard]] const std::string& postfix() const { return postfix_; }

    [[nodiscard]] static Applies both(const Applies& a, const Applies& b);
    [[nodiscard]] static Applies either(const Applies& a, const Applies& b);

    bool operator==(const Applies&) const = default;

  private:
    explicit Applies(std::string postfix)
        : postfix_(std::move(postfix)) {}

    std::string postfix_;
};

} // namespace curbstop::output
