#pragma once

#include "engine/larder/larder.hpp"
#include "engine/plan/weigh_out.hpp"
#include "engine/units/interval.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// A recipe from elsewhere: its lines read, weighed with all their doubt, and judged.
///
/// Never an exception for any bytes. Masses in g, percentages written 2.2 for 2.2 %.
namespace jarful::appraise {

/// The largest text that is read, in bytes; what is longer is refused by the caller.
inline constexpr std::size_t max_bytes = 4 * 1024 * 1024;

/// What a line is taken for.
enum class LineSort : std::uint8_t {
    ingredient,
    heading,
    method, ///< what to do
    remark, ///< a yield, a time, a serving suggestion, equipment: nothing that goes in the jar
    unknown ///< not understood
};
/// "ingredient", "heading", "method", "remark", "unknown".
[[nodiscard]] std::string_view describe(LineSort sort);

/// An amount as it was written: 2 1/3 tbsp, 2 to 3 heads.
struct Amount {
    double low = 0;
    double high = 0;
    std::string unit; ///< "tbsp", "g", "head", "%"; "piece" for a plain count
};

/// So much for so much: "per 5 pounds of cabbage".
struct Per {
    Amount amount;
    std::string of;                       ///< "vegetables", "water", or "" where it is not said
    std::optional<units::Interval> grams; ///< what it is per, if it can be told
};

/// A line of the recipe.
struct Line {
    std::size_t number = 0; ///< from 1; 0 for salt read from the method
    std::string text;       ///< as written, without the bullet
    LineSort sort = LineSort::unknown;
    bool understood = false;
    std::optional<Amount> amount;
    std::string item; ///< what is left of the line without amount and preparation
    const larder::Material* material = nullptr;
    std::optional<larder::Role> role;
    std::optional<units::Interval> grams; ///< in the jar; empty if it cannot be told
    std::optional<Per> per;
    bool optional = false;
    bool left_out =
        false; ///< read, but no part of the jar: a soaking bath, a garnish, a top-up brine
    bool could_matter = false;      ///< not understood, and could be salt, vegetable or water
    std::vector<std::string> notes; ///< what was assumed, in sentences
};

/// What the cook knows better than the recipe.
struct Pin {
    std::string name; ///< as given: "cabbage"
    double grams = 0;
};

/// A line of the list as the cook has it: "4=water 2 qt".
struct LineAnswer {
    std::size_t number = 0; ///< from 1
    std::string text;       ///< what is to be read in its place
};

struct Request {
    std::string kind;   ///< a name of larder::find_kind; empty: to be inferred
    std::string method; ///< of the kind
    std::string salt;   ///< the salt that a spoon of unsaid grain is of; a larder name
    std::vector<Pin> pins;
    std::vector<LineAnswer> lines;
};

/// Sets a request's kind, and its method, by words such as "green-beans in-brine". A kind that is
/// not known is left for appraise() to refuse.
void set_kind(Request& request, std::string_view words);

/// A request that does not make sense: an unknown kind, a salt that is none, a pin without a line.
struct Refusal {
    std::string message;
    std::string advice;
};

enum class Verdict : std::uint8_t { inside, below, above, undecided, not_a_ferment };
/// "inside", "below", "above", "undecided", "not a ferment".
[[nodiscard]] std::string_view describe(Verdict verdict);

/// How many of the ways to read an undecided list come to which verdict. An answer for a cook who
/// cannot weigh any more; never a verdict.
struct Lean {
    unsigned inside = 0, below = 0, above = 0; ///< `lean_draws` together
};
inline constexpr unsigned lean_draws = 4096;
/// The verdict that more than half of the ways come to: "below", "above", or "inside" where none is
/// below; "" if there is none.
[[nodiscard]] std::string_view describe(const Lean& lean);

/// A percentage on one basis, if it can be told.
using Percent = std::optional<units::Interval>;

struct Appraisal {
    std::string title;
    std::vector<Line> lines;

    std::optional<units::Interval> vegetables_g, salt_g, water_g;
    Percent of_vegetables, of_vegetables_and_water, of_brine, of_everything;

    std::string kind, kind_title, method; ///< empty: could not be told
    bool kind_asked = false;              ///< named by the cook, not inferred
    std::string kind_reason;              ///< why it was inferred, or why not
    std::optional<larder::Basis> basis;
    std::optional<units::Interval> percent; ///< on the ruling basis
    std::optional<plan::RangeEnd> low, high;
    std::string why; ///< which row rules
    Verdict verdict = Verdict::undecided;
    std::optional<Lean> lean; ///< of an undecided list whose figures are bounded
    std::string reason;       ///< a sentence or two
    std::string decides;      ///< the one thing that would settle it
    std::optional<units::Interval> right_g_per_kg; ///< salt for each kg of what the basis counts
    std::string right_of;            ///< "vegetables", "vegetables and water together", …
    std::vector<std::string> advice; ///< slips, contradictions, what to do next
    std::vector<plan::Warning> cautions;
    std::vector<std::string> assumptions;
};

/// Reads one recipe and judges it. @param refusal filled, and nothing returned, if the request
/// makes no sense; a text of any bytes is always answered.
[[nodiscard]] std::optional<Appraisal> appraise(std::string_view text, const Request& request,
                                                Refusal& refusal);

/// The salt in g that is inside the range for this very list, whatever its lines weigh between
/// their ends; rounded inward. Empty where no amount is, where a weight cannot be told, or where a
/// line that is not understood may change what the salt is held against.
[[nodiscard]] std::optional<units::Interval> right_for_list(const Appraisal& appraisal);

/// One line by itself, as an ingredient of a list in the language that it shows.
[[nodiscard]] Line read_line(std::string_view text);

/// How a line of a text is read: its words with what they mean, the reading, what it may be at
/// most, the patterns that fit it. Empty if there is no such line.
[[nodiscard]] std::optional<std::string> why(std::string_view text, std::size_t number);

/// A recipe found in a page.
struct Found {
    std::string name;
    std::string text; ///< title, ingredients, method as lines that appraise() reads
};

/// Whether a text looks like a web page.
[[nodiscard]] bool is_page(std::string_view bytes);

/// The recipes of a saved page, from its schema.org/Recipe data, or, where it has none, the visible
/// text of the page as one. `from_data` says which.
struct Page {
    std::vector<Found> recipes;
    bool from_data = false;
    std::vector<std::string> remarks; ///< data that could not be used, in sentences
};
[[nodiscard]] Page read_page(std::string_view bytes);

/// The recipe as a .jarful file in the form of `tidy`: grams as fractions of the vegetable, with
/// what was assumed as comments. What is not known stands as a comment that says what must be
/// filled in; where the verdict is undecided, the salt is one of these, and so is the kind.
/// @param salt_percent above 0 and below 50: the salt to write in place of the list's, in percent
/// of what the range is of
[[nodiscard]] std::string as_recipe(const Appraisal& appraisal,
                                    std::optional<double> salt_percent = std::nullopt);

} // namespace jarful::appraise
