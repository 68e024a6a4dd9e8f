// A share (0 to 1) for each liquid of a system, by number. Systems with few liquids, which is nearly all, keep them in
// place: bounds are copied so often that a tenth of a proof went into asking for memory.
// Must not know: which liquid is which, what the shares are of.
#pragma once

#include <algorithm>
#include <array>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <vector>

namespace curbstop::proofs {

class Shares {
  public:
    Shares() = default;
    Shares(std::initializer_list<double> shares) {
        resize(shares.size(), 0);
        std::copy(shares.begin(), shares.end(), begin());
    }

    std::size_t size() const { return size_; }
    double* begin() { return size_ <= near_.size() ? near_.data() : far_.data(); }
    double* end() { return begin() + size_; }
    const double* begin() const { return size_ <= near_.size() ? near_.data() : far_.data(); }
    const double* end() const { return begin() + size_; }
    double& operator[](std::size_t liquid) { return begin()[liquid]; }
    double operator[](std::size_t liquid) const { return begin()[liquid]; }
    double& back() { return end()[-1]; }

    void assign(std::size_t count, double share) {
        size_ = 0;
        resize(count, share);
    }
    /// What is new is given `share`.
    void resize(std::size_t count, double share) {
        if (count <= near_.size()) {
            if (size_ > near_.size()) {
                std::copy_n(far_.begin(), count, near_.begin());
            }
            for (std::size_t i = size_; i < count; ++i) {
                near_[i] = share;
            }
            far_.clear();
        } else {
            if (size_ <= near_.size()) {
                far_.assign(near_.begin(), near_.begin() + static_cast<std::ptrdiff_t>(size_));
            }
            far_.resize(count, share);
        }
        size_ = static_cast<std::uint32_t>(count);
    }

    friend bool operator==(const Shares& a, const Shares& b) {
        return std::equal(a.begin(), a.end(), b.begin(), b.end());
    }
    friend std::partial_ordering operator<=>(const Shares& a, const Shares& b) {
        return std::lexicographical_compare_three_way(a.begin(), a.end(), b.begin(), b.end());
    }

  private:
    std::uint32_t size_ = 0;
    std::array<double, 8> near_{};
    std::vector<double> far_; ///< all of them, where there are more than fit in place
};

} // namespace curbstop::proofs
