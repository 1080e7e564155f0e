#include "engine/units/unit.hpp"

#include <algorithm>
#include <array>
#include <deque>
#include <vector>

namespace jarful::units {

namespace {

// Documents named below: NIST Special Publication 811, Guide for the Use of the International
// System of Units (2008); NIST Handbook 44, Appendix C, General Tables of Units of Measurement.
constexpr std::string_view si = "NIST SP 811 (2008), SI units and prefixes";
constexpr std::string_view accepted = "NIST SP 811 (2008), units accepted for use with the SI";
constexpr std::string_view pound = "NIST SP 811 (2008), Appendix B.8; NIST Handbook 44, Appendix C";
constexpr std::string_view us_measure =
    "NIST SP 811 (2008), Appendix B.8; exact figures from 1 gallon = 231 cubic inches, 1 inch = "
    "2.54 cm";
constexpr std::string_view imperial_measure =
    "NIST SP 811 (2008), Appendix B.8 (imperial gallon 4.54609 L, exact); smaller measures by "
    "division";
constexpr std::string_view kitchen_measure = "common practice: metric kitchen measure";
constexpr std::string_view old_spoon = "from memory: old British spoon, by convention";
constexpr std::string_view temperature_source = "NIST SP 811 (2008), Appendix B.8";
constexpr std::string_view by_meaning = "by the meaning of the word";

constexpr Unit plain_unit(std::string_view symbol, Dimension dimension, double factor,
                          std::string_view definition, std::string_view source) {
    return {symbol, dimension, factor, 0, false, Spoons::unstated, false, definition, source};
}

constexpr Unit bare(std::string_view symbol, double us_ml, std::string_view definition) {
    return {symbol, dim::volume, us_ml, 0, false, Spoons::unstated, true, definition, us_measure};
}

constexpr Unit measure(std::string_view symbol, Spoons system, double ml,
                       std::string_view definition, std::string_view source) {
    return {symbol, dim::volume, ml, 0, false, system, false, definition, source};
}

constexpr double us_gallon = 3785.411784;
constexpr double imperial_floz = 28.4130625;

constexpr std::array table{
    plain_unit("g", dim::mass, 1, "a thousandth of a kilogram", si),
    plain_unit("mg", dim::mass, 0.001, "a thousandth of a gram", si),
    plain_unit("kg", dim::mass, 1000, "1000 g", si),
    plain_unit("oz", dim::mass, 28.349523125, "1/16 lb = 28.349523125 g, exact", pound),
    plain_unit("lb", dim::mass, 453.59237, "453.59237 g, exact", pound),

    plain_unit("mL", dim::volume, 1, "1 cubic centimetre", accepted),
    plain_unit("cL", dim::volume, 10, "10 mL", accepted),
    plain_unit("dL", dim::volume, 100, "100 mL", accepted),
    plain_unit("L", dim::volume, 1000, "1000 cubic centimetres", accepted),

    bare("tsp", 4.92892159375, "as the kitchen's spoons say; US: 1/768 gallon = 4.92892159375 mL"),
    bare("tbsp", 14.78676478125,
         "as the kitchen's spoons say; US: 1/256 gallon = 14.78676478125 mL"),
    bare("cup", 236.5882365, "as the kitchen's spoons say; US: 1/16 gallon = 236.5882365 mL"),
    bare("floz", 29.5735295625, "as the kitchen's spoons say; US: 1/128 gallon = 29.5735295625 mL"),
    bare("pint", 473.176473, "as the kitchen's spoons say; US: 1/8 gallon = 473.176473 mL"),
    bare("quart", 946.352946, "as the kitchen's spoons say; US: 1/4 gallon = 946.352946 mL"),
    bare("gallon", us_gallon, "as the kitchen's spoons say; US: 231 cubic inches = 3785.411784 mL"),

    measure("us tsp", Spoons::us, 4.92892159375, "1/768 US gallon = 4.92892159375 mL, exact",
            us_measure),
    measure("us tbsp", Spoons::us, 14.78676478125, "1/256 US gallon = 14.78676478125 mL, exact",
            us_measure),
    measure("us cup", Spoons::us, 236.5882365, "1/16 US gallon = 236.5882365 mL, exact",
            us_measure),
    measure("us floz", Spoons::us, 29.5735295625, "1/128 US gallon = 29.5735295625 mL, exact",
            us_measure),
    measure("us pint", Spoons::us, 473.176473, "1/8 US gallon (liquid) = 473.176473 mL, exact",
            us_measure),
    measure("us quart", Spoons::us, 946.352946, "1/4 US gallon (liquid) = 946.352946 mL, exact",
            us_measure),
    measure("us gallon", Spoons::us, us_gallon, "231 cubic inches = 3785.411784 mL, exact",
            us_measure),

    measure("metric tsp", Spoons::metric, 5, "5 mL", kitchen_measure),
    measure("metric tbsp", Spoons::metric, 15, "15 mL (in Australia 20 mL)", kitchen_measure),
    measure("metric cup", Spoons::metric, 250, "250 mL", kitchen_measure),

    measure("imperial tsp", Spoons::imperial, imperial_floz * 5 / 24,
            "5/24 imperial fluid ounce, about 5.919 mL", old_spoon),
    measure("imperial tbsp", Spoons::imperial, 17.7581640625,
            "5/8 imperial fluid ounce = 17.7581640625 mL", old_spoon),
    measure("imperial floz", Spoons::imperial, imperial_floz,
            "1/160 imperial gallon = 28.4130625 mL, exact", imperial_measure),
    measure("imperial pint", Spoons::imperial, 568.26125,
            "1/8 imperial gallon = 568.26125 mL, exact", imperial_measure),
    measure("imperial quart", Spoons::imperial, 1136.5225,
            "1/4 imperial gallon = 1136.5225 mL, exact", imperial_measure),
    measure("imperial gallon", Spoons::imperial, 4546.09, "4546.09 mL, exact", imperial_measure),

    plain_unit("mm", dim::length, 0.1, "a tenth of a centimetre", si),
    plain_unit("cm", dim::length, 1, "a hundredth of a metre", si),
    plain_unit("m", dim::length, 100, "100 cm", si),
    plain_unit("in", dim::length, 2.54, "2.54 cm, exact", "NIST SP 811 (2008), Appendix B.8"),

    plain_unit("min", dim::time, 60, "60 seconds", accepted),
    plain_unit("h", dim::time, 3600, "60 minutes", accepted),
    plain_unit("day", dim::time, 86400, "24 hours", accepted),
    plain_unit("week", dim::time, 604800, "7 days", by_meaning),

    Unit{"°C", dim::temperature, 1, 273.15, false, Spoons::unstated, false,
         "a point t °C is t + 273.15 K; a difference of 1 °C is 1 K", temperature_source},
    Unit{"°F", dim::temperature, 5.0 / 9, 459.67 * 5 / 9, false, Spoons::unstated, false,
         "a point t °F is (t + 459.67) × 5/9 K; a difference of 1 °F is 5/9 K", temperature_source},

    plain_unit("piece", dim::count, 1, "one whole thing", by_meaning),
    Unit{"%", dim::plain, 0.01, 0, true, Spoons::unstated, false, "a hundredth", by_meaning},
};

static_assert(table.size() < 256);

constexpr UnitId id_of(std::string_view symbol) {
    for (std::size_t i = 0; i < table.size(); ++i) {
        if (table[i].symbol == symbol) {
            return static_cast<UnitId>(i);
        }
    }
    return 255;
}

/// Spellings besides the symbol itself. Case is free where people vary it and nothing else is
/// meant.
struct Spelt {
    std::string_view symbol;
    std::string_view others; ///< separated by blanks
};
constexpr std::array spelt{
    Spelt{"g", "gram grams gramme grammes"},
    Spelt{"mg", "milligram milligrams milligramme milligrammes"},
    Spelt{"kg", "Kg KG kilo kilos kilogram kilograms kilogramme kilogrammes"},
    Spelt{"oz", "Oz OZ ounce ounces"},
    Spelt{"lb", "Lb LB lbs Lbs LBS pound pounds"},
    Spelt{"mL", "ml millilitre millilitres milliliter milliliters"},
    Spelt{"cL", "cl centilitre centilitres centiliter centiliters"},
    Spelt{"dL", "dl decilitre decilitres deciliter deciliters"},
    Spelt{"L", "l litre litres liter liters"},
    Spelt{"tsp", "Tsp TSP tsps teaspoon teaspoons"},
    Spelt{"tbsp", "Tbsp TBSP tbsps tbs Tbs tablespoon tablespoons"},
    Spelt{"cup", "Cup cups Cups"},
    Spelt{"floz", "fl_oz"},
    Spelt{"pint", "pints pt"},
    Spelt{"quart", "quarts qt qts"},
    Spelt{"gallon", "gallons gal"},
    Spelt{"mm", "millimetre millimetres millimeter millimeters"},
    Spelt{"cm", "centimetre centimetres centimeter centimeters"},
    Spelt{"m", "metre metres meter meters"},
    Spelt{"in", "inch inches"},
    Spelt{"min", "mins minute minutes"},
    Spelt{"h", "hr hrs hour hours"},
    Spelt{"day", "days"},
    Spelt{"week", "weeks"},
    // The degree sign, the ordinal sign and the ring above look alike and are typed alike.
    Spelt{"°C", "℃ ºC ˚C degC"},
    Spelt{"°F", "℉ ºF ˚F degF"},
    Spelt{"piece", "pieces"},
    Spelt{"%", "percent"},
};

static_assert(std::all_of(spelt.begin(), spelt.end(),
                          [](const Spelt& s) { return id_of(s.symbol) < table.size(); }));

struct Prefix {
    Spoons system;
    std::string_view symbol;
    std::array<std::string_view, 2> words;
};
constexpr std::array prefixes{
    Prefix{Spoons::us, "us ", {"us ", "US "}},
    Prefix{Spoons::metric, "metric ", {"metric ", "Metric "}},
    Prefix{Spoons::imperial, "imperial ", {"imperial ", "Imperial "}},
};

template <typename Use>
constexpr void for_each_word(std::string_view words, Use use) {
    while (!words.empty()) {
        const std::size_t end = std::min(words.find(' '), words.size());
        use(words.substr(0, end));
        words.remove_prefix(std::min(end + 1, words.size()));
    }
}

constexpr bool before(const Spelling& a, const Spelling& b) {
    return a.text < b.text;
}

constexpr std::size_t count_singles() {
    std::size_t count = table.size();
    for (const Spelt& s : spelt)
        for_each_word(s.others, [&](std::string_view) { ++count; });
    return count;
}

/// Every spelling of one word, sorted by the compiler: nothing is built when the program starts.
constexpr std::array<Spelling, count_singles()> singles = [] {
    std::array<Spelling, count_singles()> all{};
    std::size_t next = 0;
    for (std::size_t i = 0; i < table.size(); ++i)
        all[next++] = {table[i].symbol, static_cast<UnitId>(i)};
    for (const Spelt& s : spelt)
        for_each_word(s.others, [&](std::string_view word) {
            all[next++] = {word, id_of(s.symbol)};
        });
    std::sort(all.begin(), all.end(), before);
    return all;
}();

/// Where in `singles` those begin whose first byte is at least the index: most words of a recipe
/// are no unit, and are known as such by their first letter.
constexpr std::array<std::uint8_t, 257> singles_from = [] {
    static_assert(singles.size() < 256);
    std::array<std::uint8_t, 257> from{};
    for (const Spelling& s : singles)
        for (std::size_t i = static_cast<unsigned char>(s.text.front()) + 1u; i < from.size(); ++i)
            ++from[i];
    return from;
}();

std::optional<UnitId> find_single(std::string_view spelling) {
    if (spelling.empty()) return std::nullopt;
    const auto first = static_cast<unsigned char>(spelling.front());
    for (std::size_t i = singles_from[first]; i < singles_from[first + 1u]; ++i)
        if (singles[i].text == spelling) return singles[i].id;
    return std::nullopt;
}

/// Every spelling, prefixed ones too: for lists and suggestions.
struct Spellings {
    std::deque<std::string> joined; // keeps the texts of prefixed spellings in place
    std::vector<Spelling> sorted;

    Spellings() {
        sorted.assign(singles.begin(), singles.end());
        for (const Spelling& s : singles) {
            if (table[s.id].bare_measure) {
                add_prefixed(s);
            }
        }
        std::sort(sorted.begin(), sorted.end(), before);
        sorted.erase(
            std::unique(sorted.begin(), sorted.end(),
                        [](const Spelling& a, const Spelling& b) { return a.text == b.text; }),
            sorted.end());
    }

  private:
    void add_prefixed(const Spelling& s) {
        for (const Prefix& p : prefixes) {
            const UnitId id = resolve_measure(s.id, p.system);
            if (id == s.id) {
                continue;
            }
            for (std::string_view word : p.words) {
                joined.push_back(std::string(word) + std::string(s.text));
                sorted.push_back({joined.back(), id});
            }
        }
    }
};

const Spellings& spellings() {
    static const Spellings all;
    return all;
}

} // namespace

std::span<const Unit> unit_table() {
    return table;
}

const Unit& unit(UnitId id) {
    return table[id < table.size() ? id : 0];
}

std::span<const Spelling> unit_spellings() {
    return spellings().sorted;
}

std::optional<UnitId> find_unit(std::string_view spelling) {
    if (spelling.empty()) return std::nullopt;
    if (const auto single = find_single(spelling)) return single;
    for (const Prefix& p : prefixes) {
        for (std::string_view word : p.words) {
            if (spelling.front() != word.front() || !spelling.starts_with(word)) continue;
            const auto bare = find_single(spelling.substr(word.size()));
            if (!bare || !table[*bare].bare_measure) continue;
            const UnitId id = resolve_measure(*bare, p.system);
            if (id != *bare) return id;
        }
    }
    return std::nullopt;
}

bool is_unit_word(std::string_view word) {
    if (word.empty()) return false;
    for (const Prefix& p : prefixes) {
        for (std::string_view w : p.words) {
            if (w.front() == word.front() && w.substr(0, w.size() - 1) == word) {
                return true;
            }
        }
    }
    return find_unit(word).has_value();
}

UnitId resolve_measure(UnitId id, Spoons spoons) {
    const Unit& u = unit(id);
    if (!u.bare_measure || spoons == Spoons::unstated) {
        return id;
    }
    for (const Prefix& p : prefixes) {
        if (p.system != spoons) {
            continue;
        }
        for (std::size_t i = 0; i < table.size(); ++i) {
            const std::string_view symbol = table[i].symbol;
            if (table[i].system == spoons && symbol.substr(p.symbol.size()) == u.symbol) {
                return static_cast<UnitId>(i);
            }
        }
    }
    return id;
}

} // namespace jarful::units
