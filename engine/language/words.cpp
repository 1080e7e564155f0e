#include "engine/language/words.hpp"

#include "engine/language/characters.hpp"
#include "engine/language/parse.hpp"
#include "engine/units/nearest.hpp"
#include "engine/units/unit.hpp"

#include <algorithm>
#include <array>

namespace jarful::language {

namespace {

using namespace std::string_view_literals;

constexpr std::array statements{
    StatementWord{"language", Word1::language, Home::all, "language 1"},
    StatementWord{"recipe", Word1::recipe, Home::all, "recipe \"TITLE\" version 1"},
    StatementWord{"kitchen", Word1::kitchen, Home::all, "kitchen \"NAME\""},
    StatementWord{"house", Word1::house, Home::all, "house \"NAME\""},
    StatementWord{"kind", Word1::kind, Home::recipe_batch, "kind kraut"},
    StatementWord{"by", Word1::by, Home::recipe, "by \"TEXT\""},
    StatementWord{"source", Word1::source, Home::recipe, "source \"TEXT\""},
    StatementWord{"note", Word1::note, Home::all, "note \"TEXT\""},
    StatementWord{"material", Word1::material, Home::not_batch,
                  "material \"NAME\" is salt density 1.1..1.3 kg/L"},
    StatementWord{"based", Word1::based, Home::recipe, "based on \"RECIPE\""},
    StatementWord{"without", Word1::without, Home::recipe, "without NAME"},
    StatementWord{"given", Word1::given, Home::recipe, "given NAME = 1.80 kg \"LABEL\""},
    StatementWord{"total", Word1::total, Home::recipe, "total NAME = 5 kg \"LABEL\""},
    StatementWord{"share", Word1::share, Home::recipe, "share NAME = 30 % of TOTAL"},
    StatementWord{"weigh", Word1::weigh, Home::recipe,
                  "weigh NAME = 2.2 % of OTHER as MATERIAL \"LABEL\""},
    StatementWord{"count", Word1::count, Home::recipe, "count NAME = 1 per kg of OTHER"},
    StatementWord{"let", Word1::let, Home::cooking, "let NAME = 0.9 kg/L \"LABEL\""},
    StatementWord{"measure", Word1::measure, Home::recipe,
                  "measure NAME about 700 g..900 g replaces OTHER"},
    StatementWord{"brine", Word1::brine, Home::recipe, "brine NAME = 5 % of water, make 2 L"},
    StatementWord{"fill", Word1::fill, Home::recipe, "fill CABBAGE / 0.9 kg/L"},
    StatementWord{"headspace", Word1::headspace, Home::recipe, "headspace 12 %"},
    StatementWord{"topup", Word1::topup, Home::recipe, "topup 2 %"},
    StatementWord{"cap", Word1::cap, Home::recipe, "cap NAME = 20 g as MATERIAL"},
    StatementWord{"hold", Word1::hold, Home::recipe,
                  "hold salt / cabbage between 2 % and 2.5 % \"WHY\""},
    StatementWord{"step", Word1::step, Home::recipe, "step \"TEXT\""},
    StatementWord{"rest", Word1::rest, Home::recipe, "rest 30 min \"TEXT\""},
    StatementWord{"tend", Word1::tend, Home::recipe_batch,
                  "tend burp every 1 day from day 1 to day 7"},
    StatementWord{"ready", Word1::ready, Home::recipe_batch,
                  "ready day 21 to day 28 at 18 to 21 °C"},
    StatementWord{"keep", Word1::keep, Home::recipe_batch, "keep cold for 6 months"},
    StatementWord{"scale", Word1::scale, Home::kitchen,
                  "scale NAME reads 1 g up to 5 kg within 1 g bowl 350 g use 90 %"},
    StatementWord{"jar", Word1::jar, Home::kitchen,
                  "jar NAME holds 1.5 L brimful across 10 cm have 3"},
    StatementWord{"crock", Word1::crock, Home::kitchen,
                  "crock NAME holds 8 L brimful across 22 cm weights 400 mL have 1"},
    StatementWord{"spoons", Word1::spoons, Home::kitchen, "spoons us"},
    StatementWord{"units", Word1::units, Home::kitchen, "units us"},
    StatementWord{"room", Word1::room, Home::kitchen_batch, "room 19 °C"},
    StatementWord{"range", Word1::range, Home::house,
                  "range kraut between 2.1 % and 2.6 % \"WHY\""},
    StatementWord{"batch", Word1::batch, Home::all, "batch \"TITLE\" of \"RECIPE\""},
    StatementWord{"begun", Word1::begun, Home::batch, "begun 2026-11-25"},
    StatementWord{"left_out", Word1::left_out, Home::batch, "left_out NAME"},
    StatementWord{"vessel", Word1::vessel, Home::batch, "vessel NAME"},
    StatementWord{"planned", Word1::planned, Home::batch, "planned NAME = 43 g"},
    StatementWord{"weighed", Word1::weighed, Home::batch, "weighed NAME = 43 g on 2026-11-25"},
    StatementWord{"noted", Word1::noted, Home::batch,
                  "noted 2026-11-28 pH 4.1 at 19 °C did burp \"TEXT\""},
    StatementWord{"corrected", Word1::corrected, Home::batch,
                  "corrected 2026-11-29 pH 3.1 on 2026-11-28 to 4.1"},
};

constexpr auto statement_names = [] {
    std::array<std::string_view, statements.size()> names{};
    for (std::size_t i = 0; i < names.size(); ++i)
        names[i] = statements[i].word;
    return names;
}();

/// Sorted.
constexpr std::array reserved{
    "about"sv,    "abs"sv,       "across"sv,    "all_produce"sv, "all_salt"sv, "all_water"sv,
    "and"sv,      "as"sv,        "at"sv,        "based"sv,       "batch"sv,    "begun"sv,
    "between"sv,  "brimful"sv,   "brine"sv,     "by"sv,          "cap"sv,      "ceil"sv,
    "count"sv,    "counts"sv,    "cover"sv,     "crock"sv,       "day"sv,      "density"sv,
    "did"sv,      "discarded"sv, "each"sv,      "else"sv,        "every"sv,    "everything"sv,
    "false"sv,    "fill"sv,      "filled"sv,    "floor"sv,       "for"sv,      "from"sv,
    "given"sv,    "have"sv,      "headspace"sv, "hold"sv,        "holds"sv,    "house"sv,
    "if"sv,       "is"sv,        "jar"sv,       "keep"sv,        "keeps"sv,    "kind"sv,
    "kitchen"sv,  "language"sv,  "least"sv,     "left_out"sv,    "let"sv,      "make"sv,
    "material"sv, "max"sv,       "measure"sv,   "min"sv,         "most"sv,     "not"sv,
    "note"sv,     "noted"sv,     "of"sv,        "on"sv,          "optional"sv, "or"sv,
    "per"sv,      "piece"sv,     "planned"sv,   "range"sv,       "reads"sv,    "ready"sv,
    "recipe"sv,   "replaces"sv,  "rest"sv,      "room"sv,        "round"sv,    "scale"sv,
    "section"sv,  "share"sv,     "source"sv,    "spoons"sv,      "sqrt"sv,     "step"sv,
    "tend"sv,     "then"sv,      "to"sv,        "topup"sv,       "total"sv,    "true"sv,
    "up"sv,       "version"sv,   "vessel"sv,    "weigh"sv,       "weighed"sv,  "weights"sv,
    "within"sv,   "without"sv};

/// Where in `reserved` those begin whose first byte is at least the index.
constexpr std::array<std::uint8_t, 257> reserved_from = [] {
    static_assert(reserved.size() < 256 && std::is_sorted(reserved.begin(), reserved.end()));
    std::array<std::uint8_t, 257> from{};
    for (const std::string_view word : reserved)
        for (std::size_t i = static_cast<unsigned char>(word.front()) + 1u; i < from.size(); ++i)
            ++from[i];
    return from;
}();

constexpr std::array functions{"min"sv,   "max"sv,   "abs"sv,  "sqrt"sv,
                               "round"sv, "floor"sv, "ceil"sv, "cover"sv};
constexpr std::array roles{"vegetable"sv, "salt"sv, "water"sv, "aromatic"sv,
                           "seasoning"sv, "acid"sv, "other"sv};
constexpr std::array tasks{"burp"sv,   "skim"sv,  "press"sv, "stir"sv,  "turn"sv,
                           "top_up"sv, "rinse"sv, "look"sv,  "taste"sv, "test"sv};
constexpr std::array deeds{"burp"sv,   "skim"sv,  "press"sv, "stir"sv,  "turn"sv,
                           "top_up"sv, "rinse"sv, "look"sv,  "taste"sv, "test"sv,
                           "ready"sv,  "move"sv,  "end"sv};
constexpr std::array periods{"day"sv,   "days"sv,   "week"sv, "weeks"sv,
                             "month"sv, "months"sv, "year"sv, "years"sv};
constexpr std::array tails{"optional"sv, "discarded"sv, "keeps"sv,    "as"sv,
                           "counts"sv,   "each"sv,      "replaces"sv, "make"sv};

} // namespace

std::span<const StatementWord> statement_words() {
    return statements;
}

bool belongs(Home home, FileKind kind) {
    if (kind == FileKind::unknown) return true;
    const auto bit = kind == FileKind::recipe    ? 1U
                     : kind == FileKind::kitchen ? 2U
                     : kind == FileKind::batch   ? 4U
                                                 : 8U;
    return (static_cast<unsigned>(home) & bit) != 0;
}

const StatementWord* find_statement_word(std::string_view word) {
    if (word.empty()) return nullptr;
    for (const StatementWord& s : statements)
        if (s.word.front() == word.front() && s.word == word) return &s;
    return nullptr;
}

bool is_language_word(std::string_view word) {
    if (word.empty()) return false;
    const auto first = static_cast<unsigned char>(word.front());
    for (std::size_t i = reserved_from[first]; i < reserved_from[first + 1u]; ++i)
        if (reserved[i] == word) return true;
    return false;
}

bool is_standing_name(std::string_view word) {
    return word == "all_produce" || word == "all_salt" || word == "all_water" ||
           word == "everything";
}

std::optional<Function> find_function(std::string_view word) {
    if (word.size() < 3 || word.size() > 5) return std::nullopt;
    for (std::size_t i = 0; i < functions.size(); ++i)
        if (functions[i].front() == word.front() && functions[i] == word)
            return static_cast<Function>(i);
    return std::nullopt;
}

std::string_view function_name(Function function) {
    return functions[static_cast<std::size_t>(function)];
}

std::optional<Period> find_period(std::string_view word) {
    for (std::size_t i = 0; i < periods.size(); ++i)
        if (periods[i] == word) return static_cast<Period>(i / 2);
    return std::nullopt;
}

std::span<const std::string_view> function_names() {
    return functions;
}
std::span<const std::string_view> role_words() {
    return roles;
}
std::span<const std::string_view> task_words() {
    return tasks;
}
std::span<const std::string_view> deed_words() {
    return deeds;
}
std::span<const std::string_view> period_words() {
    return periods;
}
std::span<const std::string_view> tail_words() {
    return tails;
}

bool contains(std::span<const std::string_view> words, std::string_view word) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

std::optional<std::string_view> nearest_statement_word(std::string_view misspelt) {
    return units::nearest(misspelt, statement_names);
}

bool is_reserved(std::string_view word) {
    return is_language_word(word) || units::is_unit_word(word);
}

std::vector<std::string_view> reserved_words() {
    return {reserved.begin(), reserved.end()};
}

std::optional<std::string> normalise_name(std::string_view text) {
    if (text.empty()) return std::nullopt;
    std::string name = to_nfc(text);
    if (name_length(name) != name.size()) return std::nullopt;
    if (name.size() > limits::name_characters && count_characters(name) > limits::name_characters)
        return std::nullopt;
    return name;
}

} // namespace jarful::language
