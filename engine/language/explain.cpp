#include "engine/language/explain.hpp"

#include "engine/language/characters.hpp"
#include "engine/units/together.hpp"

#include <algorithm>
#include <string_view>
#include <vector>

namespace jarful::language {

namespace {

constexpr int page_columns = 80;
constexpr int quote_columns = 76; ///< of a quoted line, without its margin
constexpr std::string_view margin = "    ";
constexpr std::string_view overline = "\xE2\x80\xBE"; // U+203E, under the quoted line

constexpr std::string_view strong = "\x1b[1m";
constexpr std::string_view accent = "\x1b[35m";
constexpr std::string_view plain = "\x1b[0m";

/// One character of a quoted line as it is shown.
struct Cell {
    std::string text;
    int columns = 1;
    bool marked = false;
};

Cell cell_of(const Decoded& d, std::string_view bytes) {
    if (!d.valid) return {"\xEF\xBF\xBD", 1, false};
    if (d.value == '\t') return {" ", 1, false};
    if (is_control(d.value) || turns_direction(d.value)) {
        // Shown by its name, so that nothing invisible stays so.
        std::string name = "<" + code_point_name(d.value) + ">";
        const int columns = static_cast<int>(name.size());
        return {std::move(name), columns, false};
    }
    return {std::string(bytes), columns_of(d.value), false};
}

int total_columns(const std::vector<Cell>& cells, std::size_t from, std::size_t to) {
    int sum = 0;
    for (std::size_t i = from; i < to; ++i)
        sum += cells[i].columns;
    return sum;
}

/// The cells to show: all, or as many around the marked ones as fit.
struct Window {
    std::size_t from = 0;
    std::size_t to = 0;
};

Window choose_window(const std::vector<Cell>& cells, std::size_t mark_from, std::size_t mark_to) {
    if (total_columns(cells, 0, cells.size()) <= quote_columns) return {0, cells.size()};
    constexpr int room = quote_columns - 2; // for an ellipsis on either side
    // A mark that is itself too long is shown from its beginning.
    Window w{mark_from, mark_from};
    int used = 0;
    while (w.to < mark_to && used + cells[w.to].columns <= room - 10)
        used += cells[w.to++].columns;
    bool grew = true;
    while (grew) {
        grew = false;
        if (w.from > 0 && used + cells[w.from - 1].columns <= room) {
            used += cells[--w.from].columns;
            grew = true;
        }
        if (w.to < cells.size() && used + cells[w.to].columns <= room) {
            used += cells[w.to++].columns;
            grew = true;
        }
    }
    return w;
}

void quote_line(std::string& out, const Source& source, Place place, ExplainStyle style) {
    const std::string_view line = source.line_at(place.begin);
    const auto line_begin = static_cast<std::uint32_t>(line.data() - source.text().data());
    std::vector<Cell> cells;
    const std::uint32_t end = std::max(place.end, place.begin + 1);
    std::size_t mark_from = 0;
    bool marked = false;
    for (std::size_t at = 0; at < line.size();) {
        const Decoded d = decode(line.substr(at));
        const auto offset = static_cast<std::uint32_t>(line_begin + at);
        Cell cell = cell_of(d, line.substr(at, d.length));
        cell.marked = offset + d.length > place.begin && offset < end;
        if (cell.marked && !marked) mark_from = cells.size();
        marked = marked || cell.marked;
        cells.push_back(std::move(cell));
        at += d.length;
    }
    if (!marked) { // behind the end of the line: one blank is underlined there
        mark_from = cells.size();
        cells.push_back({" ", 1, true});
    }
    std::size_t mark_to = mark_from;
    while (mark_to < cells.size() && cells[mark_to].marked)
        ++mark_to;
    std::size_t first = 0; // the line's own margin is replaced by ours
    while (first < mark_from && cells[first].text == " ")
        ++first;
    cells.erase(cells.begin(), cells.begin() + static_cast<std::ptrdiff_t>(first));
    const Window w = choose_window(cells, mark_from - first, mark_to - first);

    std::string shown(margin);
    std::string under(margin);
    std::size_t kept = 0; // of the underline, up to its last mark
    if (w.from > 0) {
        shown += "…";
        under += ' ';
    }
    for (std::size_t i = w.from; i < w.to; ++i) {
        shown += cells[i].text;
        for (int c = 0; c < cells[i].columns; ++c) {
            if (cells[i].marked) {
                under += overline;
                kept = under.size();
            } else {
                under += ' ';
            }
        }
    }
    if (w.to < cells.size()) shown += "…";
    while (!shown.empty() && shown.back() == ' ')
        shown.pop_back();
    under.resize(kept == 0 ? 0 : kept);
    out += shown + "\n";
    if (under.empty()) return;
    if (style.colour) {
        out += margin;
        out += accent;
        out += std::string_view(under).substr(margin.size());
        out += plain;
    } else {
        out += under;
    }
    out += '\n';
}

/// A file's name, or words that quote what was typed: no control character of theirs may reach the
/// terminal.
std::string shown(std::string_view text, std::string_view line_break) {
    std::string out;
    for (std::size_t at = 0; at < text.size();) {
        const Decoded d = decode(text.substr(at));
        if (d.value == '\n')
            out += line_break;
        else
            out += cell_of(d, text.substr(at, d.length)).text;
        at += d.length;
    }
    return out;
}

int columns_of_text(std::string_view text) {
    int sum = 0;
    for (std::size_t at = 0; at < text.size();) {
        const Decoded d = decode(text.substr(at));
        sum += d.valid ? columns_of(d.value) : 1;
        at += d.length;
    }
    return sum;
}

/// Breaks at blanks; a text in quotes may be broken too.
void wrap(std::string& out, std::string_view sentences, std::string_view tag = {}) {
    int column = 0;
    const auto put = [&](std::string_view raw, int gap) {
        const std::string word = shown(raw, " ");
        const int wide = columns_of_text(word);
        if (column != 0 && column + gap + wide > page_columns) {
            out += '\n';
            column = 0;
        } else if (column != 0) {
            out.append(static_cast<std::size_t>(gap), ' ');
            column += gap;
        }
        out += word;
        column += wide;
    };
    std::size_t at = 0;
    while (at < sentences.size()) {
        std::size_t blank = std::min(sentences.find(' ', at), sentences.size());
        if (blank < sentences.size()) { // a number and its unit are one word
            const std::size_t end = std::min(sentences.find(' ', blank + 1), sentences.size());
            if (units::stay_together(sentences.substr(at, blank - at),
                                     sentences.substr(blank + 1, end - blank - 1)))
                blank = end;
        }
        if (blank > at) put(sentences.substr(at, blank - at), 1);
        at = blank + 1;
    }
    if (!tag.empty()) put(tag, 4);
    out += '\n';
}

std::string shown_name(const std::string& name) {
    if (name.empty()) return "the text";
    if (name == "-") return "standard input";
    return shown(name, "?");
}

/// What was typed on the command line, called by a description and no path: its one line needs no
/// number.
bool typed(const Source& source) {
    return source.name().starts_with("the ") && source.text().find('\n') == std::string_view::npos;
}

/// The message goes on after "line 9:", so it begins small unless it begins with a quotation.
std::string continued(std::string message) {
    if (message.size() > 1 && message[0] >= 'A' && message[0] <= 'Z' &&
        !(message[1] >= 'A' && message[1] <= 'Z'))
        message[0] = static_cast<char>(message[0] - 'A' + 'a');
    return message;
}

} // namespace

std::string explain(const Source& source, const Diagnostic& d, ExplainStyle style) {
    std::string out;
    const std::string& file = d.place ? source.name_at(d.place->begin) : source.name();
    std::string head = "In " + shown_name(file);
    if (d.place && !typed(source))
        head += ", line " + std::to_string(source.locate(d.place->begin).line);
    head += ": " + continued(d.message);
    if (style.colour) out += strong;
    wrap(out, head);
    if (style.colour) out.insert(out.size() - 1, plain);
    if (d.place) {
        out += '\n';
        quote_line(out, source, *d.place, style);
    }
    for (const Related& r : d.related) {
        const std::uint32_t line = source.locate(r.place.begin).line;
        const std::string& other = source.name_at(r.place.begin);
        const bool here = other == file;
        const bool same = here && d.place && source.locate(d.place->begin).line == line;
        wrap(out, (same ? std::string("And in this line, ")
                        : "And in " + (here ? "" : shown_name(other) + ", ") + "line " +
                              std::to_string(line) + ", ") +
                      r.text + ":");
        quote_line(out, source, r.place, style);
    }
    wrap(out, d.advice, "[" + d.code + "]");
    return out;
}

std::string explain_all(const Source& source, std::span<const Diagnostic> diagnostics,
                        ExplainStyle style) {
    std::string out;
    for (const Diagnostic& d : diagnostics.first(std::min(diagnostics.size(), most_explained)))
        out += explain(source, d, style) + "\n";
    if (diagnostics.size() <= most_explained) return out;
    const std::size_t more = diagnostics.size() - most_explained;
    wrap(out, "In " + shown_name(source.name()) + " there " +
                  (more == 1 ? "is 1 more" : "are " + std::to_string(more) + " more") +
                  " like these. Mend those above, and check again.");
    return out + "\n";
}

} // namespace jarful::language
