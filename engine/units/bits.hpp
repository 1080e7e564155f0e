#pragma once

#include <cstdint>

namespace jarful::units {

/// The bits of a double, and the double of such bits. What `std::bit_cast` does, which a C++
/// library of 2022 may lack while its compiler has the means.
[[nodiscard]] constexpr std::uint64_t bits_of(double value) {
    return __builtin_bit_cast(std::uint64_t, value);
}
[[nodiscard]] constexpr double double_of(std::uint64_t bits) {
    return __builtin_bit_cast(double, bits);
}

} // namespace jarful::units
