#pragma once

#include "engine/language/tree.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

/// The words of the language in tables: what a line may begin with, and what else has a meaning.
namespace jarful::language {

/// The first word of a line.
enum class Word1 : std::uint8_t {
    language,
    recipe,
    kitchen,
    house,
    kind,
    by,
    source,
    note,
    material,
    based,
    without,
    given,
    total,
    share,
    weigh,
    count,
    let,
    measure,
    brine,
    fill,
    headspace,
    topup,
    cap,
    hold,
    step,
    rest,
    tend,
    ready,
    keep,
    scale,
    jar,
    crock,
    spoons,
    units,
    room,
    range,
    batch,
    begun,
    left_out,
    vessel,
    planned,
    weighed,
    noted,
    corrected
};

/// In which sorts of file a statement may stand: sums of 1 for a recipe, 2 for a kitchen, 4 for a
/// batch, 8 for a house; `cooking` is a recipe or a kitchen.
enum class Home : std::uint8_t {
    recipe = 1,
    kitchen = 2,
    cooking = 3,
    batch = 4,
    recipe_batch = 5,
    kitchen_batch = 6,
    house = 8,
    not_batch = 11,
    all = 15
};
[[nodiscard]] bool belongs(Home home, FileKind kind);

struct StatementWord {
    std::string_view word;
    Word1 id;
    Home home;
    std::string_view form; ///< how such a line reads, for advice
};

[[nodiscard]] std::span<const StatementWord> statement_words();
[[nodiscard]] const StatementWord* find_statement_word(std::string_view word);

/// Words of the language without the units.
[[nodiscard]] bool is_language_word(std::string_view word);
/// `all_salt` and its like: reserved, but values.
[[nodiscard]] bool is_standing_name(std::string_view word);
[[nodiscard]] std::optional<Function> find_function(std::string_view word);
[[nodiscard]] std::string_view function_name(Function function);
[[nodiscard]] std::optional<Period> find_period(std::string_view word);

[[nodiscard]] std::span<const std::string_view> function_names();
[[nodiscard]] std::span<const std::string_view> role_words();
[[nodiscard]] std::span<const std::string_view> task_words();
/// The tasks, and what else can be done with a batch: `ready`, `move`, `end`.
[[nodiscard]] std::span<const std::string_view> deed_words();
[[nodiscard]] std::span<const std::string_view> period_words();
/// Words that end the name of a material.
[[nodiscard]] std::span<const std::string_view> tail_words();
[[nodiscard]] bool contains(std::span<const std::string_view> words, std::string_view word);

/// The nearest of the statement words to a misspelt one.
[[nodiscard]] std::optional<std::string_view> nearest_statement_word(std::string_view misspelt);

} // namespace jarful::language
