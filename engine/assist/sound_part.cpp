#include "engine/assist/session.hpp"
#include "engine/language/characters.hpp"
#include "engine/language/words.hpp"
#include "engine/plan/plan.hpp"

#include <algorithm>

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

/// Lines that make amounts; what judges them is left out, since a number that depends on all lines
/// (a reading moved to keep a bound, a verdict) must not be shown while one is missing.
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

/// The first word of the line that a place lies in.
std::string_view first_word(std::string_view text, Place place) {
    const std::size_t at = std::min<std::size_t>(place.begin, text.size());
    const std::size_t before = at == 0 ? std::string_view::npos : text.rfind('\n', at - 1);
    std::string_view line = text.substr(before == std::string_view::npos ? 0 : before + 1);
    const std::size_t blanks = std::min(line.find_first_not_of(" \t"), line.size());
    line.remove_prefix(blanks);
    return line.substr(0, language::word_length(line));
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

} // namespace

std::optional<Document> sound_part(const Document& document, const kitchen::Kitchen& kitchen,
                                   const std::vector<Diagnostic>& findings) {
    if (document.kind != language::FileKind::recipe || language::has_base(document))
        return std::nullopt;
    // A material that cannot be read may be one that overrides the larder's.
    for (const Diagnostic& found : findings)
        if (found.severity == Severity::fault && found.place &&
            first_word(document.source.text(), *found.place) == "material")
            return std::nullopt;
    const auto faulty = places_of(findings);
    if (!faulty || document.lines.size() > most_lines) return std::nullopt;
    Document part = document;
    part.lines.erase(std::remove_if(part.lines.begin(), part.lines.end(),
                                    [](const Line& line) { return !makes_amounts(line); }),
                     part.lines.end());
    // With what is inherited they stand in another order, which makes no amount another one.
    std::stable_sort(part.lines.begin(), part.lines.end(),
                     [](const Line& a, const Line& b) { return a.place.begin < b.place.begin; });
    drop_at(part, totals_in(part.expressions));
    drop_at(part, *faulty);
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

} // namespace jarful::assist
