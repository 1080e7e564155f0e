#include "engine/units/dimension.hpp"

#include <array>
#include <cstdlib>

namespace jarful::units {

namespace {

constexpr std::array<std::int8_t Dimension::*, 5> exponents{
    &Dimension::mass, &Dimension::length, &Dimension::time, &Dimension::temperature,
    &Dimension::count};

template <typename Combine>
std::optional<Dimension> combine(Combine exponent_of) {
    Dimension result;
    for (auto member : exponents) {
        const std::int64_t e = exponent_of(member);
        if (e < -max_exponent || e > max_exponent) {
            return std::nullopt;
        }
        result.*member = static_cast<std::int8_t>(e);
    }
    return result;
}

/// One base dimension raised to a positive power, in words without an article.
std::string in_words(std::int8_t Dimension::*member, int exponent) {
    std::string word = member == &Dimension::mass          ? "weight"
                       : member == &Dimension::length      ? "length"
                       : member == &Dimension::time        ? "time"
                       : member == &Dimension::temperature ? "temperature"
                                                           : "piece";
    if (member == &Dimension::length && exponent % 3 == 0) {
        word = "volume";
        exponent /= 3;
    } else if (member == &Dimension::length && exponent == 2) {
        return "area";
    }
    if (exponent == 2) {
        word += " squared";
    } else if (exponent > 2) {
        word += " to the power " + std::to_string(exponent);
    }
    return word;
}

std::string with_article(const std::string& words) {
    const bool vowel = std::string_view("aeiou").find(words.front()) != std::string_view::npos;
    return (vowel ? "an " : "a ") + words;
}

} // namespace

std::optional<Dimension> multiply(Dimension a, Dimension b) {
    return combine([&](auto m) { return std::int64_t{a.*m} + b.*m; });
}

std::optional<Dimension> divide(Dimension a, Dimension b) {
    return combine([&](auto m) { return std::int64_t{a.*m} - b.*m; });
}

std::optional<Dimension> power(Dimension a, int exponent) {
    return combine([&](auto m) { return std::int64_t{a.*m} * exponent; });
}

std::optional<Dimension> square_root(Dimension a) {
    for (auto member : exponents) {
        if (a.*member % 2 != 0) {
            return std::nullopt;
        }
    }
    return combine([&](auto m) { return std::int64_t{a.*m} / 2; });
}

std::string describe(Dimension d) {
    if (d.plain()) {
        return "a plain number";
    }
    if (d == dim::count) {
        return "a count of pieces";
    }
    if (d == dim::density) {
        return "a weight for each volume (a density)";
    }
    std::string over;
    std::string under;
    for (auto member : exponents) {
        const int e = d.*member;
        if (e != 0) {
            std::string& side = e > 0 ? over : under;
            side += (side.empty() ? "" : " times ") + in_words(member, std::abs(e));
        }
    }
    std::string text = over.empty() ? "a number" : with_article(over);
    if (!under.empty()) {
        text += " for each " + under;
    }
    return text;
}

} // namespace jarful::units
