#pragma once

#include "engine/larder/larder.hpp"
#include "engine/units/dimension.hpp"
#include "engine/units/interval.hpp"

#include <optional>
#include <string>
#include <variant>
#include <vector>

/// The answer to "what do I put on the scale?", as plain data. Masses in g, volumes in mL,
/// percentages written 2.2 for 2.2 %.
namespace jarful::plan {

enum class Verdict : std::uint8_t { inside, below, above, undecided };
/// "inside", "below", "above", "undecided".
[[nodiscard]] std::string_view describe(Verdict verdict);

/// What becomes of a quantity.
enum class Fate : std::uint8_t {
    in_jar,
    optional,  ///< in the jar if the cook likes
    discarded, ///< weighed, used, and poured off
    on_top,    ///< a `cap`
    later,     ///< a `measure`: weighed when the time comes
    stock      ///< part of a brine made beforehand
};
/// "in the jar", "optional", "poured off", "on top", "weighed later", "for the brine".
[[nodiscard]] std::string_view describe(Fate fate);
/// The JSON word: "in_jar", "optional", "discarded", "on_top", "later", "stock".
[[nodiscard]] std::string_view key(Fate fate);

struct Portion {
    std::string scale;
    double reading_g = 0;
};

/// One quantity on one scale.
struct Item {
    std::string name;
    std::string label;
    std::string word; ///< given, share, weigh, cap, measure, brine
    std::optional<larder::Role> role;
    std::string material; ///< as resolved; empty if none
    Fate fate = Fate::in_jar;
    double exact_g = 0;   ///< what the recipe comes to
    double reading_g = 0; ///< what to wait for; of all portions together
    double step_g = 1;
    std::string scale;
    units::Interval truth;         ///< what may really have been weighed
    std::vector<Portion> portions; ///< one, or several where it is more than the scale carries
    bool entered = false;          ///< set from outside
    bool too_small = false;        ///< the scale cannot show it: the reading would be nothing
    /// For a recipe that says a volume: the volume, and what so much of the material may weigh.
    std::optional<double> written_ml;
    std::optional<units::Interval> spread_g;
    /// About how much by the spoon, for what the scale cannot show; mL.
    std::optional<double> spoon_ml;
};

/// Whole pieces.
struct Count {
    std::string name;
    std::string label;
    std::string material;
    std::optional<larder::Role> role;
    Fate fate = Fate::in_jar;
    int count = 0;
    double exact = 0;
    bool each_jar = false;
};

/// One end of a range with the row it rests on.
struct RangeEnd {
    double percent = 0;
    std::string source; ///< document and section in one line
    std::string status; ///< "published", "common practice, no published figure", …
    std::string row;    ///< id of the row
};

/// Salt by one basis.
struct BasisFigure {
    larder::Basis basis = larder::Basis::of_vegetables;
    double percent = 0; ///< from the exact amounts
    units::Interval bounds;
};

/// A row of the same basis that bears on a figure near the edge of its range.
struct NearbyRow {
    std::string text;
    std::string source;
};

/// The judgement of the jar's salt on the basis that its range is stated on.
struct SaltJudgement {
    BasisFigure figure;
    std::optional<RangeEnd> low, high;
    std::string why; ///< which row rules and why
    Verdict verdict = Verdict::undecided;
    std::string reason;  ///< a sentence
    std::string decides; ///< what would settle an `undecided`; empty otherwise
    std::vector<NearbyRow> nearby;
    /// The same without optional lines or with the cap dissolved, where that was judged too.
    struct Variant {
        std::string text; ///< "without apple"
        units::Interval bounds;
        Verdict verdict = Verdict::undecided;
    };
    std::vector<Variant> variants;
    /// For salt written in spoons: what the spoons alone would come to.
    std::optional<units::Interval> by_the_spoon;
};

/// A `hold` line.
struct HoldCheck {
    std::string text; ///< as written
    std::string unit; ///< of the figures below: "%", "g", "mL", … or empty
    std::string why;
    units::Interval value;
    std::optional<double> at_least, at_most;
    Verdict verdict = Verdict::undecided;
    std::string reason;
    std::string decides;
};

/// A piece of a text with values: literal words, or an amount that is printed to suit the reader.
struct TextPiece {
    std::string words;
    enum class Sort : std::uint8_t { words, reading, portions, value } sort = Sort::words;
    double value = 0; ///< base units
    units::Dimension dimension;
    double step_g = 0;            ///< of a reading
    std::vector<double> portions; ///< that add up to a reading
    bool percent = false;         ///< a plain number that was written in percent
    bool temperature_point = false;
};
using RichText = std::vector<TextPiece>;

/// A line of the method, in the order written.
struct MethodLine {
    enum class Sort : std::uint8_t { step, rest, tend, ready, keep } sort = Sort::step;
    RichText text;                 ///< of a step; the remark of another line, which may be empty
    std::string task;              ///< of `tend`; "cold" or "cool" of `keep`
    std::optional<double> seconds; ///< of `rest`; how often, of `tend`
    std::optional<int> from_day, to_day, on_day;
    std::optional<double> from_kelvin, to_kelvin;
    int count = 0;      ///< of `keep`
    std::string period; ///< of `keep`: day, week, month, year
};

/// What to mix if the juice does not cover.
struct TopUp {
    double percent = 0; ///< grams of salt per 100 g of water
    std::string material;
    bool stated = false; ///< in the recipe; otherwise the published brine is offered
    std::string source;  ///< of an offered one
    double water_g = 0;  ///< a glass
    double salt_g = 0;   ///< reading for it
    std::optional<double> before_percent, after_percent; ///< whole jar, salt of everything
};

/// A brine made beforehand.
struct Stock {
    std::string name;
    std::string label;
    double strength_percent = 0; ///< as stated
    bool of_water = true;
    double made_g = 0, made_ml = 0;
    double poured_g = 0;
    double left_g = 0; ///< negative: not enough is made
    Item salt, water;
};

/// The room that the batch takes.
struct Room {
    double fill_ml = 0;
    units::Interval fill_bounds;
    std::optional<double> headspace_percent;
    std::optional<double> headspace_cm;
    std::optional<double> brimful_ml; ///< a vessel of so much, where the headspace is a percentage
};

struct Warning {
    std::string id;
    std::string title;
    std::string text;
    std::string source;
};

struct WeighOut {
    std::string title;
    std::optional<int> version;
    std::string kind, kind_title, method;
    std::string kitchen;
    bool kitchen_built_in = false;
    std::vector<std::string> left_out; ///< optional lines that the cook leaves out
    std::vector<Item> givens;
    std::vector<Item> items;
    std::vector<Count> counts;
    std::vector<Stock> stocks;
    std::optional<SaltJudgement> salt;
    std::string no_salt_reason; ///< why the salt is not judged, if it is not
    std::vector<BasisFigure> other_bases;
    std::vector<HoldCheck> checks;
    std::optional<Room> room;
    std::optional<TopUp> top_up;
    std::vector<MethodLine> method_lines;
    std::vector<Warning> cautions;
    std::vector<std::string> assumptions; ///< what was taken for granted, in sentences
    std::vector<std::string> sources;     ///< `source`, `by` and `note` lines of the recipe
    /// The worst verdict of salt and holds: inside only if all are.
    Verdict verdict = Verdict::inside;
};

} // namespace jarful::plan
