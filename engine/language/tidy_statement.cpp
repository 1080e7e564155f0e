#include "engine/language/tidy_statement.hpp"

#include "engine/language/tidy_expression.hpp"
#include "engine/language/words.hpp"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

namespace jarful::language {

namespace {

/// The first word of a line is filled up to this, so that what follows it stands in one column
/// through the whole file; longer words stick out.
constexpr std::size_t word_width = 6;

/// A quoted text as it stands in the source, line by line.
struct Quoted {
    std::string text; ///< with its quotation marks
    bool breaks = false;
};

/// Writes the cells of one statement.
class Writer {
  public:
    Writer(const Source& source, const Expressions& pool, const Line& line)
        : source_(source)
        , pool_(pool)
        , line_(line) {
        first_word(std::string(source.at(line.keyword)));
    }

    Cells take() { return std::move(out_); }

    void operator()(const LanguageLine& s) { word(std::to_string(s.version.value)); }

    void operator()(const RecipeHeader& s) {
        text(s.title.place);
        if (s.version) word("version " + std::to_string(s.version->value));
    }

    void operator()(const KitchenHeader& s) { text(s.name.place); }

    void operator()(const HouseHeader& s) { text(s.name.place); }

    void operator()(const RangeLine& s) {
        out_.family = Family::range;
        word(s.kind.value + (s.method ? " " + s.method->value : ""));
        if (s.basis) {
            std::string basis = s.basis->value;
            std::replace(basis.begin(), basis.end(), '_', ' ');
            cell(1, basis);
        }
        std::string words = s.low && s.high
                                ? "between " + amount(*s.low) + " and " + amount(*s.high)
                            : s.low ? "at least " + amount(*s.low)
                                    : "at most " + amount(*s.high);
        cell(2, std::move(words));
        if (s.reason) text(s.reason->place, 3);
    }

    void operator()(const KindLine& s) {
        word(s.kind.value);
        if (s.method) word(s.method->value);
    }

    // A record is never rewritten: its lines stand as they were written.
    void operator()(const BatchHeader&) { as_written(); }
    void operator()(const BegunLine&) { as_written(); }
    void operator()(const LeftOutLine&) { as_written(); }
    void operator()(const InVesselLine&) { as_written(); }
    void operator()(const PlannedLine&) { as_written(); }
    void operator()(const WeighedLine&) { as_written(); }
    void operator()(const NotedLine&) { as_written(); }
    void operator()(const CorrectedLine&) { as_written(); }

    void operator()(const RemarkLine& s) { text(s.text.place); }

    void operator()(const BasedOnLine& s) {
        word("on");
        text(s.base.place);
    }

    void operator()(const WithoutLine& s) { word(s.name.value); }

    void operator()(const MaterialLine& s) {
        out_.family = Family::material;
        text(s.name.place);
        out_.cells.back().counts = true;
        cell(1, "is " + s.role.value);
        property(2, "density", s.density);
        property(3, "salt", s.salt);
        property(4, "water", s.water);
        property(5, "piece", s.piece);
        if (s.source) {
            cell(6, "source");
            out_.cells.back().counts = false;
            text(s.source->place);
        }
    }

    void operator()(const Quantity& s) {
        out_.family = Family::quantity;
        word(s.name.value);
        if (s.word == QuantityWord::measure) {
            std::string about = "about " + amount(*s.about);
            if (s.about_of) about += " of " + s.about_of->value;
            if (s.replaces) about += " replaces " + s.replaces->value;
            cell(1, std::move(about));
        } else {
            cell(1, "= " + expression(s.value) + (s.each_jar ? " each jar" : ""));
        }
        tail(s.tail);
    }

    void operator()(const BrineLine& s) {
        out_.family = Family::quantity;
        word(s.name.value);
        cell(1, "= " + expression(s.strength, Standing::beside) +
                    (s.of_water ? " of water" : " of brine") + ", make " + expression(s.make));
        if (s.material) cell(2, "as " + s.material->value);
        if (s.label) label(s.material.has_value(), s.label->place);
    }

    void operator()(const FillLine& s) {
        out_.family = Family::vessel;
        word(expression(s.value));
    }

    void operator()(const HeadspaceLine& s) {
        out_.family = Family::vessel;
        word(expression(s.value));
    }

    void operator()(const TopUpLine& s) {
        out_.family = Family::vessel;
        word(expression(s.value));
        if (s.material) cell(1, "as " + s.material->value);
    }

    void operator()(const HoldLine& s) {
        out_.family = Family::hold;
        std::string words = expression(s.value, Standing::beside);
        if (s.at_least != no_node && s.at_most != no_node) {
            words += " between " + expression(s.at_least, Standing::beside) + " and " +
                     expression(s.at_most, Standing::beside);
        } else if (s.at_least != no_node) {
            words += " at least " + expression(s.at_least, Standing::beside);
        } else {
            words += " at most " + expression(s.at_most, Standing::beside);
        }
        word(words);
        if (s.why) text(s.why->place, 1);
    }

    void operator()(const StepLine& s) {
        out_.family = Family::doing;
        text(s.text);
    }

    void operator()(const RestLine& s) {
        out_.family = Family::doing;
        word(amount(s.time));
        if (s.text) text(*s.text, 1);
    }

    void operator()(const TendLine& s) {
        out_.family = Family::doing;
        word(s.task.value);
        if (s.every) word("every " + amount(*s.every));
        if (s.from_day) word("from day " + std::to_string(s.from_day->value));
        if (s.to_day) word("to day " + std::to_string(s.to_day->value));
        if (s.on_day) word("on day " + std::to_string(s.on_day->value));
        if (s.text) text(*s.text, 1);
    }

    void operator()(const ReadyLine& s) {
        out_.family = Family::doing;
        word("day " + std::to_string(s.from_day.value));
        if (s.to_day) word("to day " + std::to_string(s.to_day->value));
        if (s.from_temperature) word("at " + amount(*s.from_temperature));
        if (s.to_temperature) word("to " + amount(*s.to_temperature));
        if (s.text) text(*s.text, 1);
    }

    void operator()(const KeepLine& s) {
        static constexpr std::array<std::string_view, 4> periods{"day", "week", "month", "year"};
        out_.family = Family::doing;
        word(s.where.value + " for " + std::to_string(s.count.value) + " " +
             std::string(periods[static_cast<std::size_t>(s.period)]) +
             (s.count.value == 1 ? "" : "s"));
        if (s.text) text(*s.text, 1);
    }

    void operator()(const ScaleLine& s) {
        out_.family = Family::scale;
        word(s.name.value);
        cell(1, "reads " + amount(s.step));
        cell(2, "up to " + amount(s.capacity));
        if (s.tolerance) cell(3, "within " + amount(*s.tolerance));
        if (s.bowl) cell(4, "bowl " + amount(*s.bowl));
        if (s.use) cell(5, "use " + amount(*s.use));
    }

    void operator()(const VesselLine& s) {
        out_.family = Family::jar;
        word(s.name.value);
        cell(1, "holds " + amount(s.brimful));
        cell(2, "brimful");
        if (s.across) cell(3, "across " + amount(*s.across));
        if (s.section) cell(3, "section " + amount(*s.section));
        if (s.weights) cell(4, "weights " + amount(*s.weights));
        if (s.have) cell(5, "have " + std::to_string(s.have->value));
    }

    void operator()(const SpoonsLine& s) {
        word(s.spoons == units::Spoons::us       ? "us"
             : s.spoons == units::Spoons::metric ? "metric"
                                                 : "imperial");
    }

    void operator()(const UnitsLine& s) {
        word(s.system == units::Shown::System::us ? "us" : "metric");
    }

    void operator()(const RoomLine& s) { word(amount(s.temperature)); }

  private:
    void first_word(std::string keyword) {
        keyword.resize(std::max(keyword.size(), word_width), ' ');
        out_.cells.push_back({std::move(keyword)});
    }

    /// Goes on with the first cell, or stands behind a text.
    void as_written() {
        const std::string_view line = source_.at({line_.keyword.end, line_.place.end});
        const std::size_t first = line.find_first_not_of(" \t");
        if (first != std::string_view::npos) word(std::string(line.substr(first)));
    }

    void word(const std::string& words) {
        Cell& last = out_.cells.back();
        if (out_.cells.size() == 1 && !last.breaks) {
            last.text += ' ' + words;
        } else {
            out_.cells.push_back({.text = words, .joined = true});
        }
    }

    void cell(int column, std::string words) {
        out_.cells.push_back({.text = std::move(words), .column = column});
    }

    void property(int column, const char* name, const std::optional<Literal>& value) {
        if (value) cell(column, std::string(name) + " " + amount(*value));
    }

    void tail(const Tail& t) {
        std::vector<std::string> parts;
        if (t.optional) parts.emplace_back("optional");
        if (t.discarded)
            parts.push_back(t.keeps ? "discarded keeps " + amount(*t.keeps) : "discarded");
        if (t.material) parts.push_back("as " + t.material->value);
        if (t.role) parts.push_back("counts as " + t.role->value);
        std::string words;
        for (const std::string& part : parts)
            words += (words.empty() ? "" : "   ") + part;
        if (!words.empty()) cell(2, words);
        if (t.label) label(!words.empty(), t.label->place);
    }

    /// Behind the words of the tail; at their place where there are none, without moving them.
    void label(bool behind_words, Place place) { text(place, behind_words ? 3 : 2); }

    /// A text without values in it. Without a column it stands one blank behind the words.
    void text(Place place, std::optional<int> column = std::nullopt) {
        put(quoted_lines(place, {}), column);
    }

    void text(const Template& t, std::optional<int> column = std::nullopt) {
        put(quoted_lines(t.place, t.pieces), column);
    }

    void put(std::vector<Quoted> lines, std::optional<int> column) {
        for (std::size_t i = 0; i < lines.size(); ++i) {
            Quoted& q = lines[i];
            if (i == 0 && !column && !q.breaks && out_.cells.size() == 1) {
                // The text of a step: in the first cell, and no measure for its neighbours.
                out_.cells.push_back({.text = std::move(q.text), .counts = false, .joined = true});
            } else {
                out_.cells.push_back({.text = std::move(q.text),
                                      .column = column.value_or(0),
                                      .counts = false,
                                      .breaks = q.breaks,
                                      .goes_on = i > 0,
                                      .joined = !column});
            }
        }
    }

    /// Each quoted piece of a text, with the values in it written anew.
    [[nodiscard]] std::vector<Quoted> quoted_lines(Place place,
                                                   const std::vector<Template::Piece>& pieces) {
        std::vector<Quoted> out;
        const std::string_view all = source_.text();
        // Whether the first piece begins a line is seen from what stands before it.
        std::uint32_t before = place.begin;
        while (before > 0 && (all[before - 1] == ' ' || all[before - 1] == '\t'))
            --before;
        bool breaks = before > 0 && all[before - 1] == '\n';
        std::uint32_t at = place.begin;
        while (at < place.end) {
            if (all[at] == '#') { // a remark at the end of the line
                while (at < place.end && all[at] != '\n')
                    ++at;
            } else if (all[at] != '"') {
                breaks = breaks || all[at] == '\n';
                ++at;
            } else {
                const std::uint32_t end = closing(at);
                out.push_back({with_values({at, end}, pieces), breaks});
                breaks = false;
                at = end;
            }
        }
        return out;
    }

    /// Behind the quotation mark that closes the one at `open`.
    [[nodiscard]] std::uint32_t closing(std::uint32_t open) const {
        const std::string_view all = source_.text();
        std::uint32_t at = open + 1;
        while (at < all.size() && all[at] != '"')
            at += all[at] == '\\' ? 2 : 1;
        return at + 1;
    }

    [[nodiscard]] std::string with_values(Place place,
                                          const std::vector<Template::Piece>& pieces) const {
        std::string out;
        std::uint32_t at = place.begin;
        for (const Template::Piece& piece : pieces) {
            if (piece.value == no_node || piece.place.begin < at || piece.place.end > place.end)
                continue;
            out += source_.at({at, piece.place.begin});
            out += '{' + expression(piece.value) + '}';
            at = piece.place.end;
        }
        return out += source_.at({at, place.end});
    }

    [[nodiscard]] std::string expression(NodeId node, Standing standing = Standing::alone) const {
        return tidy_expression(source_, pool_, node, standing);
    }

    [[nodiscard]] std::string amount(const Literal& literal) const {
        return tidy_amount(source_, literal.place);
    }

    const Source& source_;
    const Expressions& pool_;
    const Line& line_;
    Cells out_;
};

} // namespace

const Column& column_of(Family family, int column) {
    using Columns = std::array<Column, most_columns>;
    static constexpr Columns plain{{{0, 0}}};
    static constexpr Columns material{
        {{0, 28}, {1, 20}, {3, 28}, {3, 20}, {3, 20}, {3, 20}, {3, 0}}};
    static constexpr Columns quantity{{{0, 23}, {1, 40}, {3, 30}, {3, 0}}};
    static constexpr Columns vessel{{{0, 40}, {3, 0}}};
    static constexpr Columns hold{{{0, 60}, {3, 0}}};
    static constexpr Columns doing{{{0, 50}, {3, 0}}};
    static constexpr Columns scale{{{0, 23}, {3, 20}, {3, 20}, {3, 20}, {3, 20}, {3, 20}}};
    static constexpr Columns range{{{0, 30}, {3, 28}, {3, 26}, {3, 0}}};
    static constexpr Columns jar{{{0, 23}, {3, 16}, {1, 8}, {3, 20}, {3, 20}, {3, 20}}};
    const auto at = static_cast<std::size_t>(std::clamp(column, 0, most_columns - 1));
    switch (family) {
    case Family::plain:
        break;
    case Family::material:
        return material[at];
    case Family::quantity:
        return quantity[at];
    case Family::vessel:
        return vessel[at];
    case Family::hold:
        return hold[at];
    case Family::doing:
        return doing[at];
    case Family::scale:
        return scale[at];
    case Family::jar:
        return jar[at];
    case Family::range:
        return range[at];
    }
    return plain[at];
}

Cells cells_of(const Source& source, const Expressions& expressions, const Line& line) {
    Writer writer(source, expressions, line);
    std::visit(writer, line.statement);
    return writer.take();
}

} // namespace jarful::language
