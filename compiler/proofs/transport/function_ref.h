// Something to call that belongs to the caller: a parameter that a lambda can be passed for, without asking for memory.
// Only for parameters; it must not be kept.
// Must not know: what is called.
#pragma once

#include <concepts>
#include <functional>
#include <memory>
#include <type_traits>
#include <utility>

namespace curbstop::proofs {

template <typename Signature>
class FunctionRef;

template <typename Result, typename... Arguments>
class FunctionRef<Result(Arguments...)> {
  public:
    template <typename Function>
    requires(!std::same_as<std::remove_cvref_t<Function>, FunctionRef> &&
             std::is_invocable_r_v<Result, const std::remove_reference_t<Function>&, Arguments...>)
        FunctionRef(const Function& function) // NOLINT(google-explicit-constructor): as std::function is
        : function_(std::addressof(function))
        , call_([](const void* known, Arguments... arguments) -> Result {
            return std::invoke(*static_cast<const Function*>(known), std::forward<Arguments>(arguments)...);
        }) {}

    Result operator()(Arguments... arguments) const { return call_(function_, std::forward<Arguments>(arguments)...); }

  private:
    const void* function_;
    Result (*call_)(const void*, Arguments...);
};

} // namespace curbstop::proofs
