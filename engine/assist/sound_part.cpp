#include "engine/assist/session.hpp"
#include "engine/language/characters.hpp"
#include "engine/language/words.hpp"
#include "engine/plan/plan.hpp"

#include <algorithm>
#include <array>
#include <set>

/// What can be said of a recipe while one of its lines is being written.
namespace jarful::assist {

namespace {

/// More than that no recipe has, and this is done with every key that is pressed.
constexpr std::size_t most_lines = 1000;
constexpr int most_rounds = 64;

using language::Diagnostic;
using language::Document;
using language::Line;
using language::Place;
using language::Severity;

/// Lines that make amounts. What judges them is left out where one of them is missing: it would
/// judge another jar.
bool makes_amounts(const Line& line) {
    const language::Statement& s = line.statement;
    return std::holds_alternative<language::LanguageLine>(s) ||
           std::holds_alternative<language::RecipeHeader>(s) ||
           std::holds_alternative<language::MaterialLine>(s) ||
           std::holds_alternative<language::Quantity>(s) ||
           std::holds_alternative<language::BrineLine>(s);
}

bool touches(const Line& line, Place place) {
    return place.begin <= line.place.end && line.place.begin <= std::max(place.begin, place.end);
}

/// From the beginning of the row that an offset lies in on, without the blanks before it.
std::string_view row_at(std::string_view text, std::size_t at) {
    at = std::min(at, text.size());
    const std::size_t before = at == 0 ? std::string_view::npos : text.rfind('\n', at - 1);
    std::string_view row = text.substr(before == std::string_view::npos ? 0 : before + 1);
    row.remove_prefix(std::min(row.find_first_not_of(" \t"), row.size()));
    return row;
}

/// The beginning of the statement that an offset lies in: a row that begins with a text goes on
/// with the one above it.
std::string_view statement_at(std::string_view text, std::size_t at) {
    std::string_view row = row_at(text, at);
    while (row.starts_with('"')) {
        const auto begin = static_cast<std::size_t>(row.data() - text.data());
        const std::size_t before = text.substr(0, begin).rfind('\n');
        if (before == std::string_view::npos) break;
        row = row_at(text, before);
    }
    return row;
}

std::string_view first_word(std::string_view row) {
    return row.substr(0, language::word_length(row));
}

/// Whether a statement changes no amount and no bound, however it goes on: remarks, and what is to
/// be done when all is weighed.
bool changes_nothing(std::string_view statement) {
    constexpr std::array<std::string_view, 8> words{"by",   "source", "note",  "step",
                                                    "rest", "tend",   "ready", "keep"};
    return statement.empty() || statement.front() == '\n' || statement.front() == '#' ||
           language::contains(words, first_word(statement));
}

/// Whether a material is described there, or is meant to be: it may be one that overrides the
/// larder's.
bool is_material(std::string_view statement) {
    const std::string_view word = first_word(statement);
    return word == "material" || (language::find_statement_word(word) == nullptr &&
                                  language::nearest_statement_word(word) == "material");
}

/// Whether every row that was not understood changes nothing.
bool rest_changes_nothing(const Document& document) {
    const std::string_view text = document.source.text();
    std::vector<Place> understood;
    for (const Line& line : document.lines)
        understood.push_back(line.place);
    std::sort(understood.begin(), understood.end(),
              [](Place a, Place b) { return a.begin < b.begin; });
    auto next = understood.begin();
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        while (next != understood.end() && next->end < at)
            ++next;
        const bool known = next != understood.end() && next->begin <= end;
        if (!known && !changes_nothing(statement_at(text, at))) return false;
        at = end + 1;
    }
    return true;
}

/// Where something stands that depends on lines which it does not name: on all that is in the jar,
/// or, as `cover` does, on the jars that are chosen for it.
std::vector<Place> totals_in(const language::Expressions& pool) {
    std::vector<Place> out;
    for (const language::Node& node : pool.nodes) {
        const bool total = node.kind == language::NodeKind::name &&
                           language::is_standing_name(pool.names[node.index]);
        const bool cover =
            node.kind == language::NodeKind::call && node.function == language::Function::cover;
        if (total || cover) out.push_back(node.place);
    }
    return out;
}

/// Takes out the lines that any of the places touches; how many.
std::size_t drop_at(Document& part, const std::vector<Place>& places) {
    std::vector<bool> gone(part.lines.size(), false);
    for (const Place place : places) {
        // Lines stand in the order of their places.
        auto line = std::lower_bound(
            part.lines.begin(), part.lines.end(), place.begin,
            [](const Line& l, std::uint32_t begin) { return l.place.end < begin; });
        for (; line != part.lines.end() && touches(*line, place); ++line)
            gone[static_cast<std::size_t>(line - part.lines.begin())] = true;
    }
    std::vector<Line> kept;
    for (std::size_t i = 0; i < part.lines.size(); ++i)
        if (!gone[i]) kept.push_back(std::move(part.lines[i]));
    const std::size_t dropped = part.lines.size() - kept.size();
    part.lines = std::move(kept);
    return dropped;
}

/// The places that faults point at; empty if one of them points at none.
std::optional<std::vector<Place>> places_of(const std::vector<Diagnostic>& findings) {
    std::vector<Place> out;
    for (const Diagnostic& found : findings) {
        if (found.severity != Severity::fault) continue;
        if (!found.place) return std::nullopt;
        out.push_back(*found.place);
        for (const language::Related& other : found.related)
            out.push_back(other.place);
    }
    return out;
}

/// The recipe without lines that are at fault and change no amount; empty if others are at fault.
std::optional<Document> with_all_amounts(Document part, const kitchen::Kitchen& kitchen,
                                         std::vector<Place> faulty) {
    if (!rest_changes_nothing(part)) return std::nullopt;
    const std::string_view text = part.source.text();
    // Each round finds what the one before could not get to.
    for (int round = 0; round < most_rounds; ++round) {
        for (const Place place : faulty)
            if (!changes_nothing(statement_at(text, place.begin))) return std::nullopt;
        if (drop_at(part, faulty) == 0 && round > 0) return std::nullopt;
        language::Findings now;
        plan::RequestFindings request_findings;
        if (plan::weigh(part, kitchen, {}, now, request_findings)) return part;
        auto next = places_of(now.all());
        if (!next || next->empty()) return std::nullopt;
        faulty = *std::move(next);
    }
    return std::nullopt;
}

/// The lines that make amounts without those at fault, with all that depend on them.
std::optional<Document> amounts_alone(Document part, const kitchen::Kitchen& kitchen,
                                      const std::vector<Place>& faulty) {
    part.lines.erase(std::remove_if(part.lines.begin(), part.lines.end(),
                                    [](const Line& line) { return !makes_amounts(line); }),
                     part.lines.end());
    // With what is inherited they stand in another order, which makes no amount another one.
    std::stable_sort(part.lines.begin(), part.lines.end(),
                     [](const Line& a, const Line& b) { return a.place.begin < b.place.begin; });
    drop_at(part, totals_in(part.expressions));
    drop_at(part, faulty);
    // Whoever names a line that is gone is at fault next, and goes as well.
    for (int round = 0; round < most_rounds; ++round) {
        language::Findings now;
        plan::RequestFindings request_findings;
        if (plan::weigh(part, kitchen, {}, now, request_findings)) return part;
        const auto next = places_of(now.all());
        if (!next || drop_at(part, *next) == 0) return std::nullopt;
    }
    return std::nullopt;
}

/// The names whose numbers rest on no reading that may be moved, on no number of jars and on no
/// other share: givens, and what is counted or worked out from them alone.
std::set<std::string, std::less<>> firm_names(const Document& part) {
    using language::QuantityWord;
    struct Left {
        std::string name;
        Place place;
        bool counted;
    };
    std::set<std::string, std::less<>> firm;
    std::set<std::string, std::less<>> open; // of the recipe, and not firm (yet)
    std::vector<Left> left;
    for (const Line& line : part.lines) {
        if (const auto* b = std::get_if<language::BrineLine>(&line.statement))
            open.insert(b->name.value);
        const auto* q = std::get_if<language::Quantity>(&line.statement);
        if (q == nullptr) continue;
        const bool counted = q->word == QuantityWord::count;
        if (q->word == QuantityWord::given) {
            firm.insert(q->name.value);
            continue;
        }
        open.insert(q->name.value);
        if (counted || q->word == QuantityWord::let || q->word == QuantityWord::total)
            left.push_back({q->name.value, line.place, counted});
    }
    const language::Expressions& pool = part.expressions;
    const auto rests_on_open = [&](Place place) {
        return std::any_of(pool.nodes.begin(), pool.nodes.end(), [&](const language::Node& node) {
            return node.kind == language::NodeKind::name && node.place.begin >= place.begin &&
                   node.place.begin < place.end && open.find(pool.names[node.index]) != open.end();
        });
    };
    for (bool more = true; more;) {
        more = false;
        for (auto one = left.begin(); one != left.end();) {
            if (rests_on_open(one->place)) {
                ++one;
                continue;
            }
            firm.insert(one->name);
            // How many pieces there are in all is said by the jars, too.
            if (!one->counted) open.erase(one->name);
            one = left.erase(one);
            more = true;
        }
    }
    return firm;
}

} // namespace

std::optional<SoundPart> sound_part(const Document& document, const kitchen::Kitchen& kitchen,
                                    const std::vector<Diagnostic>& findings) {
    if (document.kind != language::FileKind::recipe || language::has_base(document))
        return std::nullopt;
    const std::string_view text = document.source.text();
    for (const Diagnostic& found : findings)
        if (found.severity == Severity::fault && found.place &&
            is_material(statement_at(text, found.place->begin)))
            return std::nullopt;
    const auto faulty = places_of(findings);
    if (!faulty || document.lines.size() > most_lines) return std::nullopt;
    if (auto part = with_all_amounts(document, kitchen, *faulty))
        return SoundPart{*std::move(part), true, {}};
    auto part = amounts_alone(document, kitchen, *faulty);
    if (!part) return std::nullopt;
    auto firm = firm_names(*part);
    return SoundPart{*std::move(part), false, std::move(firm)};
}

} // namespace jarful::assist
