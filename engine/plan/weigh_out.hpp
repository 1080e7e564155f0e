#pragma once

#include "engine/larder/larder.hpp"
#include "engine/units/dimension.hpp"
#include "engine/units/display.hpp"
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
    /// What its scale takes at once by the kitchen's own words of a bowl or of its use, where that
    /// is why it is weighed in several goes; 0 otherwise.
    double room_g = 0;
    bool entered = false; ///< set from outside
    bool solved = false;  ///< worked out backwards
    bool poured = false;  ///< what really went in, as the cook says
    bool moved = false;   ///< not the nearest reading: the nearest that keeps the bounds
    /// What the display shows when so much is in, where all goes into one bowl.
    std::optional<double> display_g;
    bool too_small = false; ///< the scale cannot show it: the reading would be nothing
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
    std::string status; ///< larder::standing() of the row: "published", "our own reading", …
    std::string row;    ///< id of the row
};

/// Salt by one basis.
struct BasisFigure {
    larder::Basis basis = larder::Basis::of_vegetables;
    double percent = 0; ///< of what is weighed or poured, by its readings; inside the bounds
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
    double water_step_g = 0, salt_step_g = 0;            ///< of the scales that show the two
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

/// An answer to a question asked backwards.
struct Answer {
    std::string asked; ///< "salt = 24 g", "jar = tall", "fill = 1.2 L"
    struct Moved {
        std::string name;
        double exact_g = 0;
        double entered_g = 0; ///< rounded to the scale's step, from which the rest is computed
    };
    std::vector<Moved> moved;
    /// Other answers, as the weight of the first that moved; the one taken is the smallest change.
    std::vector<double> others_g;
};

/// Why no reading keeps every bound, and what would do.
struct NoReading {
    std::string limit; ///< what cannot be kept: "the salt", or a `hold` as written
    std::optional<std::string> batch_name;
    std::optional<double> batch_g;                ///< the smallest batch that would do
    std::optional<double> step_g;                 ///< a scale of this step would do
    std::optional<double> brine_percent, brine_g; ///< salt weighed as so much brine would do
};

/// The readings of the one salt line by which the salt is inside its range, and the house's bounds
/// are kept if any of these readings keeps them, everything else being as it is weighed.
struct SaltNeeded {
    std::string name;             ///< of the line
    double low_g = 0;             ///< the least; a number that its scale shows
    std::optional<double> high_g; ///< the most; likewise. Empty where the range has no upper end
    double step_g = 0.1;
};

/// A bowl that everything is weighed into.
struct Bowl {
    double tare_g = 0;
    std::string scale; ///< empty: no scale carries it all
};

/// What of one quantity goes into one jar.
struct JarItem {
    std::string name;
    std::string label;
    std::string material;
    std::optional<larder::Role> role;
    Fate fate = Fate::in_jar;
    std::optional<int> pieces; ///< of a count; the weights below are then not used
    double exact_g = 0;        ///< the jar's share of the reading, before it is rounded
    double reading_g = 0;      ///< those of all jars and what is left over add up to the reading
    double step_g = 1;
    std::string scale;
    units::Interval truth;         ///< each jar's portion is a weighing of its own
    std::vector<Portion> portions; ///< one, or several where it is more than the scale carries
    bool too_small = false;        ///< the scale cannot show it
    bool later = false;            ///< a `measure` that is not entered: what it likely comes to
};

/// One jar of the batch.
struct JarShare {
    std::string name;
    bool crock = false;
    double brimful_ml = 0;
    double usable_ml = 0; ///< less headspace and weights
    double weights_ml = 0;
    double fill_ml = 0;
    double full_percent = 0;                      ///< of brimful, weights included
    std::optional<double> level_cm, headspace_cm; ///< where the vessel's area is known
    bool airy = false;                            ///< under two thirds full
    std::vector<JarItem> items;
    /// Where all was salted and mixed in one bowl: so much of the mixture goes in, pieces not
    /// counted. `items` are then what is in it, to know and not to weigh, and there is no `salt` of
    /// its own: the bowl was judged.
    std::optional<JarItem> mixture;
    std::optional<SaltJudgement> salt; ///< of what is in this jar
};

/// How the kitchen's own jars were chosen, or how those fare that the cook named. Chosen are the
/// fewest that hold the batch, without one that is under two thirds full where there is such a
/// choice; then those with the least room left empty, then the fewest different ones.
struct JarChoice {
    bool by_name = false; ///< the cook chose: nothing is passed over or could be better
    double volume_ml = 0; ///< that the batch fills
    bool covered = false; ///< with water poured up to the headspace
    std::optional<double> headspace_percent, headspace_cm;
    double empty_ml = 0; ///< room under the headspaces that stays empty
    double unplaced_ml = 0, unplaced_g = 0;
    std::string why;                     ///< something is left over; empty if nothing is
    std::vector<JarItem> left_over;      ///< empty if nothing is
    std::optional<JarItem> left_mixture; ///< what of a mixture is left over, as in JarShare
    /// One more vessel of so much would have taken the rest; under a headspace in cm as wide as the
    /// one named.
    std::optional<double> rest_brimful_ml;
    std::string rest_as_wide_as;
    struct PassedOver {
        std::string name;
        std::string why; ///< the rest of a sentence after the name
    };
    std::vector<PassedOver> passed_over;
    /// Fewer vessels, or emptier ones, that would hold it all, one of them under two thirds full:
    /// passed over for that.
    std::vector<std::string> more_air;
    bool best = true; ///< no other choice is better
};

struct WeighOut {
    std::string title;
    std::optional<int> version;
    std::string kind, kind_title, method;
    std::string kitchen;
    bool kitchen_built_in = false;
    units::Shown shown;                ///< the kitchen's: what is printed of it
    std::vector<std::string> left_out; ///< optional lines that the cook leaves out
    std::vector<Item> givens;
    std::vector<Item> items;
    std::vector<Count> counts;
    std::vector<Stock> stocks;
    std::vector<std::string> chosen_jars; ///< names, as asked for: `jar=tall,tall`
    double usable_ml = 0;                 ///< of these together
    std::optional<Answer> answer;
    std::optional<NoReading> no_reading;
    std::optional<Bowl> bowl;
    std::optional<SaltJudgement> salt;
    std::string no_salt_reason; ///< why the salt is not judged, if it is not
    /// Where the salt is not inside and one line of salt would bring it there.
    std::optional<SaltNeeded> salt_needed;
    std::vector<BasisFigure> other_bases;
    std::vector<HoldCheck> checks;
    double in_jar_g = 0; ///< everything that goes in, as exact amounts
    std::optional<Room> room;
    std::vector<JarShare> jars;          ///< that the batch goes into, named or chosen
    std::optional<JarChoice> jar_choice; ///< of the jars, if there are any
    std::optional<TopUp> top_up;
    std::vector<MethodLine> method_lines;
    std::vector<Warning> cautions;
    std::vector<std::string> assumptions; ///< taken for granted, of the jars too, in sentences
    std::vector<std::string> sources;     ///< `source`, `by` and `note` lines of the recipe
    /// The worst verdict of salt and holds: inside only if all are; empty if nothing is judged.
    std::optional<Verdict> verdict;
};

} // namespace jarful::plan
