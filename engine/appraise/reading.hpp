#pragma once

#include "engine/appraise/appraise.hpp"
#include "engine/appraise/bounds.hpp"
#include "engine/appraise/item.hpp"
#include "engine/appraise/quantity.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// A line taken apart, before it is weighed. For this room only.
namespace jarful::appraise {

/// What a ratio is a ratio of.
enum class Whole : std::uint8_t {
    unsaid,
    vegetables,
    water,
    brine, ///< salt / (salt + water)
    vegetables_and_water,
    other ///< "per jar", "per head": nothing that can be weighed
};

struct Ratio {
    Whole of = Whole::unsaid;
    std::optional<Quantity> per; ///< 5 lb, 1 quart; nothing for a percentage
    const larder::Material* material = nullptr;
};

struct Alternative {
    Quantity quantity;
    std::optional<Item> item; ///< nothing: the same thing
    bool either = false;      ///< said with "or": one amount or the other
};

struct Reading {
    Line line;
    std::optional<Quantity> amount;
    std::vector<Quantity> weights; ///< said besides, in parentheses or behind a stroke
    std::vector<Alternative> alternatives;
    std::optional<Ratio> ratio;
    Item item;
    bool juice = false;     ///< "juice of 2 lemons"
    bool each = false;      ///< "1 tsp each caraway and dill"
    bool cover = false;     ///< "water to cover"
    bool brine = false;     ///< speaks of brine
    bool left_over = false; ///< a number in the line was not read
    bool open = false;      ///< at least so much: "plus more", "as needed"
    bool spare = false;     ///< only if the juice does not cover
    std::string doubt;      ///< why the line is not understood, where that can be said
    bool pure = false;      ///< only an amount and an item: no verb, no sentence
    bool as_others = false; ///< a vegetable of no amount: from none to as much as the others
    Bounds bounds;          ///< of a line that is not understood

    /// Whether nothing bounds what a line that is not understood may bring.
    [[nodiscard]] bool endless() const {
        return bounds.vegetables >= appraise::endless || bounds.salt >= appraise::endless ||
               bounds.water >= appraise::endless;
    }
    /// "(2.5 % of the weight)" beside grams or spoons of salt: the amount, and what it is of.
    struct RateBeside {
        std::string amount, of;
    };
    std::optional<RateBeside> rate_beside;
};

/// Takes a cleaned line without its bullet apart. @param tongue of the lines around it.
[[nodiscard]] Reading take_apart(std::string_view line, Tongue tongue);

/// Where "per", "for each" and their like stand outside parentheses, and how many tokens they take.
/// With `opening`, a "for" or "to" may stand at the very beginning: "For 5 kg of cabbage use …".
struct PerWord {
    std::size_t at = 0;
    std::size_t tokens = 0;
};
[[nodiscard]] std::optional<PerWord> per_word(std::span<const Token> tokens, Numbers numbers,
                                              bool opening = false);

/// The ratio behind a per word: "5 pounds cabbage", "quart of water". Empty if nothing can be read.
[[nodiscard]] std::optional<Ratio> ratio_of(std::span<const Token> tokens, Numbers numbers,
                                            Tongue tongue);

/// What a percentage or a "per kg" is taken of, from the words of the line.
[[nodiscard]] Whole whole_of(std::span<const Token> tokens);

/// Gives a line another material where its amount asks for one: a brine of so many percent, heads
/// of dill, the juice of a lemon, an unknown vegetable by the pound.
/// @param words what is left for the name; @param all of the line
void change_material(Reading& reading, std::span<const Token> words, std::span<const Token> all);

/// Says what is doubtful about a line of salt, vegetables or water: a unit that is not known, half
/// or twice of it. Makes a salt the curing or reduced one that is named anywhere in its line.
/// @param words what is left of the line without its amount
void settle_doubts(Reading& reading, std::span<const Token> all, std::span<const Token> words,
                   std::span<const std::vector<Token>> asides);

/// Whether a weight is likely that of the vegetable as bought: "2 lb head of cabbage".
[[nodiscard]] bool as_bought(const Reading& reading);

/// Weighs a reading: fills line.grams, line.notes. @param salt the pinned grain, or nullptr.
void weigh(Reading& reading, const larder::Material* salt);

/// Whether a material that is neither water nor acid is poured: whey, milk, the brine of a ferment.
[[nodiscard]] bool is_liquid(const larder::Material& material);

/// A quantity of a material in g; empty if it cannot be told.
[[nodiscard]] std::optional<units::Interval> grams_of(const Quantity& quantity, const Item& item,
                                                      const larder::Material* salt);

} // namespace jarful::appraise
