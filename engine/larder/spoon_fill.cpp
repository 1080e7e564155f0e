#include "engine/larder/spoon_fill.hpp"

#include <array>

namespace jarful::larder {

namespace {

struct Word {
    std::string_view word;
    SpoonFill fill;
};

constexpr std::array<Word, 12> words{{
    {"heaping", SpoonFill::heaped},
    {"heaped", SpoonFill::heaped},
    {"heap", SpoonFill::heaped},
    {"rounded", SpoonFill::rounded},
    {"generous", SpoonFill::generous},
    {"overflowing", SpoonFill::generous},
    {"scant", SpoonFill::scant},
    {"scanty", SpoonFill::scant},
    {"level", SpoonFill::level},
    {"leveled", SpoonFill::level},
    {"levelled", SpoonFill::level},
    {"flat", SpoonFill::level},
}};

} // namespace

units::Interval spoon_fill(SpoonFill fill) {
    switch (fill) {
    case SpoonFill::heaped:
        return {1.2, 2.2};
    case SpoonFill::rounded:
        return {1.1, 1.7};
    case SpoonFill::generous:
        return {1.0, 1.5};
    case SpoonFill::scant:
        return {0.75, 1.0};
    case SpoonFill::level:
        break;
    }
    return units::Interval{1.0};
}

std::optional<units::Interval> spoon_fill(std::string_view folded) {
    for (const Word& word : words)
        if (word.word == folded) return spoon_fill(word.fill);
    return std::nullopt;
}

} // namespace jarful::larder
