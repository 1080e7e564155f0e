#pragma once

#include <cstdint>
#include <optional>
#include <string>

/// Dimensions as exact integer exponents: the reason why grams cannot be added to litres.
namespace jarful::units {

/// The exponents of the five base dimensions. A plain number, a ratio and a percentage have none.
/// Volume is length cubed, so that a jar's volume over its area is a height.
struct Dimension {
    std::int8_t mass = 0;
    std::int8_t length = 0;
    std::int8_t time = 0;
    std::int8_t temperature = 0;
    std::int8_t count = 0;

    friend constexpr bool operator==(const Dimension&, const Dimension&) = default;

    [[nodiscard]] constexpr bool plain() const { return *this == Dimension{}; }
};

namespace dim {
inline constexpr Dimension plain{};
inline constexpr Dimension mass{.mass = 1};
inline constexpr Dimension length{.length = 1};
inline constexpr Dimension area{.length = 2};
inline constexpr Dimension volume{.length = 3};
inline constexpr Dimension time{.time = 1};
inline constexpr Dimension temperature{.temperature = 1};
inline constexpr Dimension count{.count = 1};
inline constexpr Dimension density{.mass = 1, .length = -3};
} // namespace dim

/// Largest exponent a dimension may reach; beyond it an expression is refused as absurd.
inline constexpr int max_exponent = 12;

/// Product of two dimensions; empty if an exponent leaves ±max_exponent.
[[nodiscard]] std::optional<Dimension> multiply(Dimension a, Dimension b);
/// Quotient of two dimensions; empty if an exponent leaves ±max_exponent.
[[nodiscard]] std::optional<Dimension> divide(Dimension a, Dimension b);
/// `a` raised to a whole power; empty if an exponent leaves ±max_exponent.
[[nodiscard]] std::optional<Dimension> power(Dimension a, int exponent);
/// Square root; empty if an exponent is odd.
[[nodiscard]] std::optional<Dimension> square_root(Dimension a);

/// In a cook's words: "a weight", "a volume", "a weight for each volume (a density)", "a plain
/// number". Never empty.
[[nodiscard]] std::string describe(Dimension d);

} // namespace jarful::units
