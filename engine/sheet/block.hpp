#pragma once

#include <array>
#include <cstddef>

/// Many values of one quantity at a time.
namespace jarful::sheet {

/// 256 values that go through a formula together, so that walking it costs little for each. Every
/// operation is that of a double on each of them, to the last bit.
class Block {
  public:
    static constexpr std::size_t size = 256;

    /// Zeroes.
    Block() = default;
    /// One value, 256 times.
    Block(double x) { v_.fill(x); } // NOLINT: a constant is a block

    [[nodiscard]] double operator[](std::size_t i) const { return v_[i]; }
    [[nodiscard]] double& operator[](std::size_t i) { return v_[i]; }

  private:
    std::array<double, size> v_{};
};

template <class Function>
[[nodiscard]] Block each(const Block& a, Function&& function) {
    Block r;
    for (std::size_t i = 0; i < Block::size; ++i)
        r[i] = function(a[i]);
    return r;
}

template <class Function>
[[nodiscard]] Block each(const Block& a, const Block& b, Function&& function) {
    Block r;
    for (std::size_t i = 0; i < Block::size; ++i)
        r[i] = function(a[i], b[i]);
    return r;
}

[[nodiscard]] inline Block operator-(const Block& a) {
    return each(a, [](double x) { return -x; });
}
[[nodiscard]] inline Block operator+(const Block& a, const Block& b) {
    return each(a, b, [](double x, double y) { return x + y; });
}
[[nodiscard]] inline Block operator-(const Block& a, const Block& b) {
    return each(a, b, [](double x, double y) { return x - y; });
}
[[nodiscard]] inline Block operator*(const Block& a, const Block& b) {
    return each(a, b, [](double x, double y) { return x * y; });
}
[[nodiscard]] inline Block operator/(const Block& a, const Block& b) {
    return each(a, b, [](double x, double y) { return x / y; });
}

} // namespace jarful::sheet
