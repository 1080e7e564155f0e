#pragma once

#include "engine/language/source.hpp"
#include "engine/units/amount.hpp"
#include "engine/units/display.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

/// What a `.jarful` file says, as plain data. Every piece keeps its place in the text.
/// The reference is docs/language.md.
namespace jarful::language {

// ---- Expressions: one pool for a file, nodes refer to each other by index. ----

using NodeId = std::uint32_t;
inline constexpr NodeId no_node = 0xffff'ffff;

enum class NodeKind : std::uint8_t {
    amount,        ///< index: into amounts
    unit,          ///< a bare unit after `per` or `/`; index: into units
    name,          ///< index: into names
    negate,        ///< a
    power,         ///< a ^ b; b is a whole amount, one negated, or something in parentheses
    multiply,      ///< a * b
    divide,        ///< a / b
    of,            ///< a of b
    per,           ///< a per b
    add,           ///< a + b
    subtract,      ///< a - b
    less,          ///< a < b
    less_equal,    ///< a <= b
    greater,       ///< a > b
    greater_equal, ///< a >= b
    both,          ///< a and b
    either,        ///< a or b
    negation,      ///< not a
    choose,        ///< if a then b else c
    call           ///< function; arguments [a, a + b) of `arguments`
};

enum class Function : std::uint8_t { min, max, abs, sqrt, round, floor, ceil, cover };

struct Node {
    NodeKind kind = NodeKind::amount;
    Function function = Function::min;
    bool parenthesised = false; ///< written in parentheses, which is what lifts an ambiguity
    Place place;                ///< of the whole subexpression, parentheses included
    Place sign;                 ///< of the operator, the function's name, or empty
    std::uint32_t index = 0;
    NodeId a = no_node, b = no_node, c = no_node;
};

struct Expressions {
    std::vector<Node> nodes;
    std::vector<units::Amount> amounts;
    std::vector<units::CompoundUnit> units;
    std::vector<std::string> names; ///< NFC
    std::vector<NodeId> arguments;

    [[nodiscard]] const Node& operator[](NodeId id) const { return nodes[id]; }
};

// ---- Pieces of statements. ----

/// A word with its place. For a name the value is NFC.
struct Word {
    std::string value;
    Place place;
};

/// A text, escapes resolved, joined if it went on over several lines.
struct Text {
    std::string value;
    Place place;
};

/// A literal amount with its place.
struct Literal {
    units::Amount amount;
    Place place;
};

struct Whole {
    int value = 0;
    Place place;
};

/// A text with values in it: pieces in order.
struct Template {
    struct Piece {
        std::string text;       ///< literal text, when value is no_node
        NodeId value = no_node; ///< an expression to print
        Place place;
    };
    std::vector<Piece> pieces;
    Place place;
};

struct Tail {
    bool optional = false;
    bool discarded = false;
    Place fate;                   ///< of `optional` or `discarded`
    std::optional<Literal> keeps; ///< share of the salt that stays, when discarded
    std::optional<Word> material; ///< words joined by one blank
    std::optional<Word> role;     ///< one of the role words; checked by the grammar
    std::optional<Text> label;
};

// ---- Statements. ----

struct LanguageLine {
    Whole version;
};
struct RecipeHeader {
    Text title;
    std::optional<Whole> version;
};
struct KitchenHeader {
    Text name;
};
struct HouseHeader {
    Text name;
};
struct KindLine {
    Word kind;
    std::optional<Word> method;
};

/// `by`, `source`, `note`.
struct RemarkLine {
    enum class Sort : std::uint8_t { by, source, note };
    Sort sort = Sort::note;
    Text text;
};

/// `based on "base-brine"`: inherit.hpp puts the lines of that recipe in its place.
struct BasedOnLine {
    Text base;
};
/// `without dill`: an inherited line that this recipe does not have.
struct WithoutLine {
    Word name;
};

struct MaterialLine {
    Text name;
    Word role;
    std::optional<Literal> density, salt, water, piece;
    std::optional<Text> source;
};

enum class QuantityWord : std::uint8_t { given, total, share, weigh, count, let, measure, cap };

struct Quantity {
    QuantityWord word = QuantityWord::let;
    Word name;
    NodeId value = no_node;       ///< no_node for `measure`
    bool each_jar = false;        ///< `count … each jar`
    std::optional<Literal> about; ///< of `measure`
    std::optional<Word> about_of; ///< of `measure`: what `about` is a share of
    std::optional<Word> replaces; ///< of `measure`
    Tail tail;
};

struct BrineLine {
    Word name;
    NodeId strength = no_node;
    bool of_water = true; ///< strength is salt / water; otherwise salt / (salt + water)
    NodeId make = no_node;
    std::optional<Word> material;
    std::optional<Text> label;
};

struct FillLine {
    NodeId value = no_node;
};
struct HeadspaceLine {
    NodeId value = no_node;
};
struct TopUpLine {
    NodeId value = no_node;
    std::optional<Word> material;
};

struct HoldLine {
    NodeId value = no_node;
    NodeId at_least = no_node; ///< no_node if unbounded below
    NodeId at_most = no_node;
    std::optional<Text> why;
    Place value_place; ///< the held expression as written
};

struct StepLine {
    Template text;
};
struct RestLine {
    Literal time;
    std::optional<Template> text;
};

struct TendLine {
    Word task;
    std::optional<Literal> every;
    std::optional<Whole> from_day, to_day, on_day;
    std::optional<Template> text;
};

struct ReadyLine {
    Whole from_day;
    std::optional<Whole> to_day;
    std::optional<Literal> from_temperature, to_temperature;
    std::optional<Template> text;
};

enum class Period : std::uint8_t { day, week, month, year };

struct KeepLine {
    Word where; ///< "cold" or "cool"
    Whole count;
    Period period = Period::month;
    std::optional<Template> text;
};

struct ScaleLine {
    Word name;
    Literal step, capacity;
    std::optional<Literal> tolerance;
    std::optional<Literal> bowl; ///< the empty bowl that stands on it
    std::optional<Literal> use;  ///< so much of the capacity, as a percentage
};

struct VesselLine {
    bool crock = false;
    Word name;
    Literal brimful;
    std::optional<Literal> across, section, weights;
    std::optional<Whole> have;
};

/// `range kraut between 2.1 % and 2.6 % "ours goes soft below"`, of a house file.
struct RangeLine {
    Word kind;
    std::optional<Word> method;
    std::optional<Word> basis; ///< "of_vegetables", "of_vegetables_and_water", "of_brine", …
    std::optional<Literal> low, high; ///< one of them at least
    std::optional<Text> reason;
};

struct SpoonsLine {
    units::Spoons spoons = units::Spoons::us;
};
/// `units us`: what a kitchen shows weights, volumes and temperatures in.
struct UnitsLine {
    units::Shown::System system = units::Shown::System::metric;
};
struct RoomLine {
    Literal temperature;
};

/// A calendar day, one that there is.
struct Day {
    int year = 0, month = 0, day = 0;
    Place place;
};

struct BatchHeader {
    Text title;
    Text recipe;                  ///< the recipe's path, from the batch's folder
    std::optional<Text> revision; ///< the id that git gives the recipe's content
};
struct BegunLine {
    Day day;
};
struct LeftOutLine {
    Word name;
};
struct InVesselLine {
    Word name;
};
struct PlannedLine {
    Word name;
    Literal amount;
};
struct WeighedLine {
    Word name;
    Literal amount;
    Day day;
};
struct NotedLine {
    Day day;
    std::optional<Literal> ph, temperature, filled;
    std::vector<Word> did; ///< a task, "ready", "move" or "end"
    std::optional<Text> text;
};

/// One thing that was noted or weighed, put right.
struct CorrectedLine {
    enum class What : std::uint8_t { weighed, ph, temperature, filled, deed, text };
    Day day; ///< on which it was corrected
    Day of;  ///< of the entry
    What what = What::text;
    std::optional<Word> name; ///< of what was weighed
    std::optional<Literal> before, after;
    std::optional<Word> deed_before, deed_after;
    std::optional<Text> text_before, text_after;
    bool nothing = false; ///< the entry is taken back
    std::optional<Text> why;
};

using Statement =
    std::variant<LanguageLine, RecipeHeader, KitchenHeader, HouseHeader, KindLine, RemarkLine,
                 BasedOnLine, WithoutLine, MaterialLine, Quantity, BrineLine, FillLine,
                 HeadspaceLine, TopUpLine, HoldLine, StepLine, RestLine, TendLine, ReadyLine,
                 KeepLine, ScaleLine, VesselLine, SpoonsLine, UnitsLine, RoomLine, RangeLine,
                 BatchHeader, BegunLine, LeftOutLine, InVesselLine, PlannedLine, WeighedLine,
                 NotedLine, CorrectedLine>;

/// One logical line that holds a statement.
struct Line {
    Place place;   ///< from the first word to the last, comment left out
    Place keyword; ///< the first word
    Statement statement;
};

enum class FileKind : std::uint8_t { unknown, recipe, kitchen, house, batch };

/// A whole file. Comments and blank lines are found again from the source's text.
struct Document {
    Source source;
    FileKind kind = FileKind::unknown;
    Expressions expressions;
    std::vector<Line> lines; ///< in the order written
};

} // namespace jarful::language
