// Numbers that wait, each once; the greatest comes out first. A bit for each, and above each word of bits a bit that
// says whether there is any: putting in and taking out touch as many words as there are storeys, three for 262,144
// numbers. Must not know: what is numbered.
#pragma once

#include <bit>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace curbstop::proofs {

class GreatestFirst {
  public:
    GreatestFirst() = default;
    /// Of numbers below `limit`.
    explicit GreatestFirst(std::size_t limit) {
        do {
            limit = (limit + bits - 1) / bits;
            storeys_.emplace_back(limit, 0);
        } while (limit > 1);
    }

    bool empty() const { return storeys_.empty() || storeys_.back().empty() || storeys_.back().front() == 0; }
    void insert(std::uint32_t number) {
        for (std::vector<std::uint64_t>& storey : storeys_) {
            std::uint64_t& word = storey[number / bits];
            const bool known = word != 0;
            word |= std::uint64_t{1} << number % bits;
            if (known) {
                return; // the storeys above know
            }
            number /= bits;
        }
    }
    /// Not of an empty one.
    std::uint32_t take() {
        std::uint32_t number = 0;
        for (std::size_t i = storeys_.size(); i-- > 0;) {
            number = number * bits + static_cast<std::uint32_t>(std::bit_width(storeys_[i][number]) - 1);
        }
        std::uint32_t at = number;
        for (std::vector<std::uint64_t>& storey : storeys_) {
            std::uint64_t& word = storey[at / bits];
            word &= ~(std::uint64_t{1} << at % bits);
            if (word != 0) {
                break; // the storeys above stay
            }
            at /= bits;
        }
        return number;
    }

  private:
    static constexpr std::uint32_t bits = 64;
    std::vector<std::vector<std::uint64_t>> storeys_; ///< the numbers themselves first
};

} // namespace curbstop::proofs
