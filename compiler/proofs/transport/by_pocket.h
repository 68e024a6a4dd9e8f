// A few values, each of a pocket, kept in the pockets' order. Must not know: what the values are.
#pragma once

#include <algorithm>
#include <utility>
#include <vector>

#include "proofs/transport/pockets.h"

namespace curbstop::proofs {

template <typename Value>
class ByPocket {
  public:
    using Entry = std::pair<PocketIndex, Value>;

    /// Null where there is none.
    const Value* find(PocketIndex pocket) const {
        const auto at = std::ranges::lower_bound(entries_, pocket, {}, &Entry::first);
        return at == entries_.end() || at->first != pocket ? nullptr : &at->second;
    }
    /// That of the pocket, `otherwise` where there was none.
    Value& at(PocketIndex pocket, const Value& otherwise) {
        const auto at = std::ranges::lower_bound(entries_, pocket, {}, &Entry::first);
        return (at == entries_.end() || at->first != pocket ? entries_.emplace(at, pocket, otherwise) : at)->second;
    }
    void clear() { entries_.clear(); }
    auto begin() { return entries_.begin(); }
    auto end() { return entries_.end(); }
    auto begin() const { return entries_.begin(); }
    auto end() const { return entries_.end(); }

  private:
    std::vector<Entry> entries_;
};

} // namespace curbstop::proofs
