#include "engine/larder/spoon_fill.hpp"

#include <array>

namespace jarful::larder {

namespace {

struct Fill {
    std::string_view word;
    double low, high;
};

constexpr std::array<Fill, 38> fills{{
    {"heaping", 1.2, 2.2},     {"heaped", 1.2, 2.2},       {"heap", 1.2, 2.2},
    {"gehauft", 1.2, 2.2},     {"gehaufter", 1.2, 2.2},    {"gehaufte", 1.2, 2.2},
    {"gehauften", 1.2, 2.2},   {"gehauftes", 1.2, 2.2},    {"haufen", 1.2, 2.2},
    {"bombee", 1.2, 2.2},      {"bombees", 1.2, 2.2},      {"rounded", 1.1, 1.7},
    {"gut", 1.1, 1.7},         {"gute", 1.1, 1.7},         {"guter", 1.1, 1.7},
    {"generous", 1.0, 1.5},    {"overflowing", 1.0, 1.5},  {"scant", 0.75, 1.0},
    {"scanty", 0.75, 1.0},     {"knapp", 0.75, 1.0},       {"knapper", 0.75, 1.0},
    {"knappe", 0.75, 1.0},     {"knappen", 0.75, 1.0},     {"petite", 0.75, 1.0},
    {"petit", 0.75, 1.0},      {"level", 1.0, 1.0},        {"leveled", 1.0, 1.0},
    {"levelled", 1.0, 1.0},    {"gestrichen", 1.0, 1.0},   {"gestrichener", 1.0, 1.0},
    {"gestrichene", 1.0, 1.0}, {"gestrichenen", 1.0, 1.0}, {"gestrichenes", 1.0, 1.0},
    {"gestr", 1.0, 1.0},       {"rase", 1.0, 1.0},         {"rases", 1.0, 1.0},
    {"ras", 1.0, 1.0},         {"flat", 1.0, 1.0},
}};

} // namespace

std::optional<units::Interval> spoon_fill(std::string_view folded) {
    for (const Fill& fill : fills) {
        if (fill.word == folded) return units::Interval{fill.low, fill.high};
    }
    return std::nullopt;
}

} // namespace jarful::larder
