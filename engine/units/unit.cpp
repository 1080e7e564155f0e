#include "engine/units/unit.hpp"

#include "engine/units/nearest.hpp"
#include "engine/units/scan.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <limits>

namespace jarful::units {

namespace {

/// A number as a quotient of two: 0.01 has no exact double, 1/100 does.
struct Ratio {
    double over = 1;
    double under = 1;
};

/// The factor of a unit as a quotient that is exact where it can be.
Ratio ratio_of(const Unit& u) {
    if (u.dimension == dim::temperature && u.factor != 1) {
        return {5, 9};
    }
    if (u.factor < 1) {
        return {1, std::round(1 / u.factor)}; // mg, mm, %
    }
    return {u.factor, 1};
}

Ratio ratio_of(const CompoundUnit& compound, Spoons spoons) {
    if (const auto id = compound.single()) return ratio_of(unit(resolve_measure(*id, spoons)));
    Ratio product;
    for (std::size_t i = 0; i < compound.size; ++i) {
        const auto& f = compound.factors[i];
        const Ratio r = ratio_of(unit(resolve_measure(f.id, spoons)));
        for (int n = std::abs(f.exponent); n > 0; --n) {
            product.over *= f.exponent > 0 ? r.over : r.under;
            product.under *= f.exponent > 0 ? r.under : r.over;
        }
    }
    return product;
}

char lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

std::string lower(std::string_view text) {
    std::string result(text);
    std::transform(result.begin(), result.end(), result.begin(), [](char c) { return lower(c); });
    return result;
}

/// Short forms that are too short to be compared, or that mean something else to a machine.
struct Hint {
    std::string_view written;
    std::string_view meant;
};
constexpr std::array hints{
    Hint{"T", "tbsp"},  Hint{"Tb", "tbsp"},  Hint{"tb", "tbsp"},    Hint{"Tbl", "tbsp"},
    Hint{"t", "tsp"},   Hint{"c", "cup"},    Hint{"C", "°C"},       Hint{"F", "°F"},
    Hint{"°", "°C"},    Hint{"gm", "g"},     Hint{"gms", "g"},      Hint{"gr", "g"},
    Hint{"fl", "floz"}, Hint{"pc", "piece"}, Hint{"pcs", "pieces"},
};

/// One unit, prefix included, at the start of `text`.
struct Word {
    UnitId id = 0;
    std::size_t length = 0; ///< 0 if there is none
};

Word unit_word(std::string_view text) {
    const std::size_t end = scan::skip_word(text, 0);
    if (end == 0) {
        return {};
    }
    const std::string_view word = text.substr(0, end);
    if (const auto id = find_unit(word)) {
        return {*id, end};
    }
    const std::size_t second = scan::skip_blanks(text, end);
    const std::size_t second_end = scan::skip_word(text, second);
    if (second == end || second_end == second || !is_unit_word(word)) {
        return {};
    }
    const auto id =
        find_unit(std::string(word) + " " + std::string(text.substr(second, second_end - second)));
    return id ? Word{*id, second_end} : Word{};
}

/// A whole number from 1 to max_exponent after `^`; length 0 if there is none.
struct Exponent {
    int value = 1;
    std::size_t length = 0;
};

Exponent exponent_at(std::string_view text, std::size_t at) {
    if (at >= text.size() || text[at] != '^') {
        return {};
    }
    const std::size_t end = scan::skip_digits(text, at + 1);
    const bool decimals = end < text.size() && text[end] == '.' && scan::digit_at(text, end + 1);
    if (end == at + 1 || end > at + 3 || decimals || scan::skip_word(text, end) != end) {
        return {};
    }
    int value = 0;
    for (std::size_t i = at + 1; i < end; ++i) {
        value = value * 10 + (text[i] - '0');
    }
    return value >= 1 && value <= max_exponent ? Exponent{value, end - at} : Exponent{};
}

} // namespace

std::optional<std::string_view> nearest_unit(std::string_view misspelt) {
    for (const Hint& h : hints) {
        if (h.written == misspelt) {
            return h.meant;
        }
    }
    const std::string wanted = lower(misspelt);
    const int reach = wanted.size() < 3 ? 0 : wanted.size() < 6 ? 1 : 2;
    std::optional<std::string_view> best;
    int best_rank = std::numeric_limits<int>::max();
    for (const Spelling& s : unit_spellings()) {
        const std::string known = lower(s.text);
        const int slips = edit_distance(wanted, known, reach);
        if (slips > reach || static_cast<std::size_t>(slips) >= known.size()) {
            continue;
        }
        // Of equals a symbol first, then the usual lower case, then the shorter.
        const int rank = 100 * slips + (s.text != unit(s.id).symbol ? 50 : 0) +
                         (known != s.text ? 25 : 0) + static_cast<int>(known.size());
        if (rank < best_rank) {
            best_rank = rank;
            best = s.text;
        }
    }
    return best;
}

CompoundUnit CompoundUnit::of(UnitId id) {
    CompoundUnit result;
    result.factors[0] = {id, 1};
    result.size = 1;
    return result;
}

std::optional<Dimension> CompoundUnit::dimension() const {
    if (const auto id = single()) return units::unit(*id).dimension;
    Dimension result;
    for (std::size_t i = 0; i < size; ++i) {
        const auto part = power(units::unit(factors[i].id).dimension, factors[i].exponent);
        const auto product = part ? multiply(result, *part) : std::nullopt;
        if (!product) {
            return std::nullopt;
        }
        result = *product;
    }
    return result;
}

double CompoundUnit::factor(Spoons spoons) const {
    const Ratio r = ratio_of(*this, spoons);
    return r.over / r.under;
}

double CompoundUnit::to_base(double value, Spoons spoons) const {
    const Ratio r = ratio_of(*this, spoons);
    return value * r.over / r.under;
}

double CompoundUnit::from_base(double base, Spoons spoons) const {
    const Ratio r = ratio_of(*this, spoons);
    return base * r.under / r.over;
}

std::optional<UnitId> CompoundUnit::bare_measure() const {
    for (std::size_t i = 0; i < size; ++i) {
        if (units::unit(factors[i].id).bare_measure) {
            return factors[i].id;
        }
    }
    return std::nullopt;
}

std::optional<UnitId> CompoundUnit::single() const {
    if (size == 1 && factors[0].exponent == 1) {
        return factors[0].id;
    }
    return std::nullopt;
}

bool CompoundUnit::percent() const {
    const auto id = single();
    return id && units::unit(*id).percent;
}

std::string CompoundUnit::text() const {
    const Factor* const end = factors + size;
    const Factor* const first =
        std::find_if(factors, end, [](const Factor& f) { return f.exponent > 0; });
    std::string result;
    const auto append = [&](const Factor& f) {
        result += units::unit(f.id).symbol;
        if (const int size_of = std::abs(f.exponent); size_of != 1) {
            result += "^" + std::to_string(size_of);
        }
    };
    if (first != end) {
        append(*first);
    } else if (size > 0) {
        result = "1";
    }
    for (const Factor* f = factors; f != end; ++f) {
        if (f != first) {
            result += f->exponent > 0 ? '*' : '/';
            append(*f);
        }
    }
    return result;
}

std::optional<UnitText> read_unit_prefix(std::string_view text) {
    UnitText result;
    CompoundUnit& compound = result.unit;
    std::size_t at = 0; // where the next unit would begin
    int sign = 1;
    while (compound.size < CompoundUnit::capacity) {
        const Word word = unit_word(text.substr(at));
        if (word.length == 0) {
            break;
        }
        std::size_t end = at + word.length;
        const Exponent exponent = exponent_at(text, end);
        CompoundUnit longer = compound;
        longer.factors[longer.size++] = {word.id, static_cast<std::int8_t>(sign * exponent.value)};
        if (!longer.dimension()) {
            break;
        }
        compound = longer;
        end += exponent.length;
        result.length = end;
        if (end >= text.size() || (text[end] != '/' && text[end] != '*')) {
            break;
        }
        sign = text[end] == '/' ? -1 : 1;
        at = end + 1;
    }
    if (compound.size == 0) {
        return std::nullopt;
    }
    return result;
}

std::optional<CompoundUnit> read_unit(std::string_view text) {
    const auto result = read_unit_prefix(text);
    if (!result || result->length != text.size()) {
        return std::nullopt;
    }
    return result->unit;
}

double to_kelvin(UnitId id, double value) {
    const Unit& u = unit(id);
    const Ratio r = ratio_of(u);
    // One rounding at the end instead of one a step, where the platform has the wider type.
    if (u.dimension == dim::temperature && u.factor != 1) {
        return static_cast<double>((static_cast<long double>(value) + 459.67L) * 5 / 9);
    }
    if (u.dimension == dim::temperature) {
        return static_cast<double>(static_cast<long double>(value) + 273.15L);
    }
    return value * r.over / r.under;
}

double from_kelvin(UnitId id, double kelvin) {
    const Unit& u = unit(id);
    if (u.dimension != dim::temperature) {
        const Ratio r = ratio_of(u);
        return kelvin * r.under / r.over;
    }
    const long double wide = kelvin;
    const long double value = u.factor != 1 ? wide * 9 / 5 - 459.67L : wide - 273.15L;
    // The offset is larger than the value, and what the double of 292.15 lacks would show in 19.
    return static_cast<double>(std::round(value * 1e9L) / 1e9L);
}

} // namespace jarful::units
