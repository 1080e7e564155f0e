#pragma once

#include "engine/appraise/measures.hpp"
#include "engine/appraise/tokens.hpp"
#include "engine/units/interval.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

/// Amounts in free text. For this room only.
namespace jarful::appraise {

enum class Size : std::uint8_t { unsaid, small, medium, large };

/// A number with its measure: "3 heaping tbsp", "1 lb 4 oz", "2 x 400 g", "2 medium heads".
struct Quantity {
    units::Interval count;            ///< as written
    const Measure* measure = nullptr; ///< nothing for plain pieces: "3 carrots"
    units::Interval fill{1.0};        ///< how full the spoon is: heaping, scant, packed
    bool about = false;
    bool packed = false;
    Size size = Size::unsaid;
    bool each = false;     ///< each of several weighs so much
    bool together = false; ///< all of several weigh so much
    bool unclear = false;  ///< the number could be read two ways
    bool open = false;     ///< "plus more"

    /// In g or mL, for a measure that has a factor.
    [[nodiscard]] units::Interval base() const;
    [[nodiscard]] bool is(Measure::Sort sort) const {
        return measure != nullptr && measure->sort == sort;
    }
    [[nodiscard]] bool weighed() const { return is(Measure::Sort::mass); }
};

struct FoundQuantity {
    Quantity quantity;
    std::size_t tokens = 0;
};

/// What a bare decimal mark means here.
struct Numbers {
    bool comma = false; ///< a comma before the decimals
    bool told = true;   ///< false where the line does not show its language
};

/// Number words count too ("two", "a", "half a"), those only where `words` says so.
[[nodiscard]] std::optional<FoundQuantity>
quantity_at(std::span<const Token> tokens, std::size_t at, Numbers numbers, bool words = true);

/// Words that say how sure an amount is ("about"); how many tokens such words take.
[[nodiscard]] std::size_t about_at(std::span<const Token> tokens, std::size_t at);

/// How full a spoon or cup is by the word before or behind it: heaped, scant, level.
[[nodiscard]] std::optional<units::Interval> fill_of(const Token& token);

/// How full a cup is that is packed: ours, wide on purpose.
inline constexpr units::Interval packed_fill{1.0, 1.6};

/// Whether a quantity is a mass or a volume, of whatever sort; a mass or a volume that has a rule.
[[nodiscard]] bool measured(const Quantity& quantity);
[[nodiscard]] bool sized(const Quantity& quantity);

} // namespace jarful::appraise
