#include "engine/language/tidy.hpp"

#include "engine/language/characters.hpp"
#include "engine/language/parse.hpp"
#include "engine/language/tidy_statement.hpp"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>
#include <vector>

namespace jarful::language {

namespace {

/// Where a text on a line of its own begins: in the column behind the first word.
constexpr std::size_t text_indent = 7;
constexpr std::size_t comment_gap = 3;
/// Comments behind longer lines stand where they can.
constexpr std::size_t comment_limit = 72;

std::size_t width_of(std::string_view text) {
    std::size_t width = 0;
    while (!text.empty()) {
        const Decoded d = decode(text);
        width += static_cast<std::size_t>(std::max(0, columns_of(d.value)));
        text.remove_prefix(d.length);
    }
    return width;
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t'))
        text.remove_prefix(1);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t'))
        text.remove_suffix(1);
    return text;
}

/// The remark behind what a line says; empty if there is none.
std::string_view comment_of(std::string_view line) {
    bool inside = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (inside && line[i] == '\\') {
            ++i;
        } else if (line[i] == '"') {
            inside = !inside;
        } else if (line[i] == '#' && !inside) {
            return trimmed(line.substr(i));
        }
    }
    return {};
}

/// What a file is made of, from top to bottom.
struct Item {
    enum class Sort : std::uint8_t { blank, comment, statement };
    Sort sort = Sort::blank;
    std::string_view comment;               ///< of a comment's line
    Cells cells;                            ///< of a statement
    std::vector<std::string_view> comments; ///< behind each of its lines; empty where none is
};

struct Row {
    std::string text;
    std::size_t width = 0;
    std::string_view comment;
};

std::vector<Item> items_of(const Document& document) {
    const std::string_view text = document.source.text();
    std::vector<Item> out;
    std::size_t next = 0; // of the statements
    for (std::size_t at = 0; at < text.size();) {
        std::size_t end = std::min(text.find('\n', at), text.size());
        const std::string_view line = text.substr(at, end - at);
        const std::string_view words = trimmed(line);
        Item item;
        if (words.empty()) {
            item.sort = Item::Sort::blank;
        } else if (words.front() == '#') {
            item.sort = Item::Sort::comment;
            item.comment = words;
        } else {
            const Line& statement = document.lines[next++];
            item.sort = Item::Sort::statement;
            item.cells = cells_of(document.source, document.expressions, statement);
            item.comments.push_back(comment_of(line));
            while (end < statement.place.end) {
                at = end + 1;
                end = std::min(text.find('\n', at), text.size());
                item.comments.push_back(comment_of(text.substr(at, end - at)));
            }
        }
        out.push_back(std::move(item));
        at = end + 1;
    }
    return out;
}

/// Lines that stand below one another and share their columns.
class Group {
  public:
    void add(const Cells& cells) { lines_.push_back(&cells); }
    [[nodiscard]] bool takes(const Cells& cells) const {
        return lines_.empty() || lines_.front()->family == cells.family;
    }
    [[nodiscard]] bool empty() const { return lines_.empty(); }
    void clear() { lines_.clear(); }

    /// The rows of each of the lines.
    [[nodiscard]] std::vector<std::vector<Row>> lay_out() {
        measure();
        std::vector<std::vector<Row>> out;
        for (const Cells* cells : lines_)
            out.push_back(rows_of(*cells));
        return out;
    }

  private:
    void measure() {
        std::array<std::size_t, most_columns> widths{};
        std::array<bool, most_columns> used{};
        const Family family = lines_.front()->family;
        for (const Cells* line : lines_) {
            const std::vector<Cell>& cells = line->cells;
            for (std::size_t i = 0; i < cells.size() && !cells[i].breaks;) {
                const Cell& head = cells[i];
                std::size_t width = width_of(head.text);
                for (++i; i < cells.size() && cells[i].joined && !cells[i].breaks; ++i)
                    if (cells[i].counts) width += 1 + width_of(cells[i].text);
                const auto column = static_cast<std::size_t>(head.column);
                used[column] = true;
                const auto limit = column_of(family, head.column).limit;
                // The last cell of a line pushes nothing, so that it moves nobody either.
                const bool last = i == cells.size() || cells[i].breaks;
                if (head.counts && !last && width <= static_cast<std::size_t>(limit))
                    widths[column] = std::max(widths[column], width);
            }
        }
        std::size_t end = 0;
        for (std::size_t c = 0; c < widths.size(); ++c) {
            if (!used[c]) continue;
            start_[c] = end + static_cast<std::size_t>(column_of(family, static_cast<int>(c)).gap);
            end = start_[c] + widths[c];
        }
    }

    [[nodiscard]] std::vector<Row> rows_of(const Cells& line) const {
        std::vector<Row> rows(1);
        std::size_t anchor = text_indent; // where the text begins that may go on
        bool first = true;
        for (const Cell& cell : line.cells) {
            if (cell.breaks) rows.emplace_back();
            Row& row = rows.back();
            std::size_t at = 0;
            if (cell.breaks) {
                at = cell.goes_on ? anchor : text_indent;
            } else if (!first) {
                const auto gap = static_cast<std::size_t>(column_of(line.family, cell.column).gap);
                at = row.width + (cell.joined ? 1 : gap);
                if (!cell.joined && rows.size() == 1)
                    at = std::max(at, start_[static_cast<std::size_t>(cell.column)]);
            }
            if (!cell.goes_on) anchor = at;
            row.text.append(at - row.width, ' ');
            row.text += cell.text;
            row.width = at + width_of(cell.text);
            first = false;
        }
        for (Row& row : rows) {
            row.text.erase(row.text.find_last_not_of(' ') + 1);
            row.width = width_of(row.text);
        }
        return rows;
    }

    std::vector<const Cells*> lines_;
    std::array<std::size_t, most_columns> start_{};
};

class Layout {
  public:
    explicit Layout(const Document& document)
        : items_(items_of(document)) {}

    std::string run() {
        for (std::size_t at = 0; at < items_.size();) {
            if (items_[at].sort == Item::Sort::blank) {
                blank_ = true;
                ++at;
            } else {
                at = block(at);
            }
        }
        return std::move(out_);
    }

  private:
    /// Statements of one family and the comments between them; ends at a blank line.
    std::size_t block(std::size_t begin) {
        Group group;
        std::size_t end = begin;
        for (; end < items_.size() && items_[end].sort != Item::Sort::blank; ++end) {
            if (items_[end].sort != Item::Sort::statement) continue;
            if (!group.takes(items_[end].cells)) break;
            group.add(items_[end].cells);
        }
        auto rows = group.empty() ? std::vector<std::vector<Row>>{} : group.lay_out();
        const std::size_t comments = place_comments(begin, end, rows);
        std::size_t line = 0;
        for (std::size_t i = begin; i < end; ++i) {
            if (items_[i].sort == Item::Sort::comment) {
                write(items_[i].comment);
                continue;
            }
            for (Row& row : rows[line++]) {
                if (!row.comment.empty()) {
                    const std::size_t at = std::max(comments, row.width + comment_gap);
                    row.text.append(at - row.width, ' ');
                    row.text += row.comment;
                }
                write(row.text);
            }
        }
        return end;
    }

    /// Gives the rows their comments; where those begin.
    std::size_t place_comments(std::size_t begin, std::size_t end,
                               std::vector<std::vector<Row>>& rows) const {
        std::size_t column = 0;
        std::size_t line = 0;
        for (std::size_t i = begin; i < end; ++i) {
            if (items_[i].sort != Item::Sort::statement) continue;
            std::vector<Row>& mine = rows[line++];
            for (std::size_t r = 0; r < std::min(mine.size(), items_[i].comments.size()); ++r) {
                mine[r].comment = items_[i].comments[r];
                if (!mine[r].comment.empty() && mine[r].width <= comment_limit)
                    column = std::max(column, mine[r].width + comment_gap);
            }
        }
        return column;
    }

    void write(std::string_view line) {
        if (blank_ && !out_.empty()) out_ += '\n';
        blank_ = false;
        out_ += line;
        out_ += '\n';
    }

    std::vector<Item> items_;
    std::string out_;
    bool blank_ = false;
};

} // namespace

bool is_batch_record(const Source& source) {
    std::string_view text = source.text();
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        const std::string_view line = trimmed(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
        if (line.empty() || line.front() == '#') continue;
        const std::string_view word = line.substr(0, word_length(line));
        if (word != "language") return word == "batch";
    }
    return false;
}

std::optional<std::string> tidy(Source source, Findings& findings) {
    if (is_batch_record(source)) {
        findings.fault("tidy-batch", std::nullopt,
                       "This is the record of a batch, and a record is never rewritten.",
                       "Leave it as it is; only lines are added to it.");
        return std::nullopt;
    }
    std::string name = source.name();
    const Document document = parse(std::move(source), findings);
    if (findings.has_faults()) return std::nullopt;
    std::string text = Layout(document).run();

    // The form has to say what the file said, or nobody gets it.
    Findings again;
    auto printed = read_source(std::move(name), text, again);
    if (!printed || !same_meaning(document, parse(std::move(*printed), again)) ||
        again.has_faults()) {
        findings.fault("not-tidied", std::nullopt,
                       "In its tidy form this file would be too large, too deeply nested, or would "
                       "not say the same.",
                       "Break its longest expressions up with \"let\" lines.");
        return std::nullopt;
    }
    return text;
}

std::string tidy_line(const Document& document, const Line& line) {
    std::string out;
    for (const Cell& cell : cells_of(document.source, document.expressions, line).cells) {
        if (cell.text.empty()) continue;
        if (cell.goes_on && out.ends_with('"') && cell.text.starts_with('"')) {
            out.back() = ' '; // one text, though it stands on two lines
            out += std::string_view(cell.text).substr(1);
            continue;
        }
        if (!out.empty()) out += ' ';
        out += cell.text;
    }
    // The first word is padded, as every line's is.
    const std::size_t end = std::min(out.find(' '), out.size());
    out.erase(end, std::min(out.find_first_not_of(' ', end), out.size()) - end);
    if (end < out.size()) out.insert(end, 1, ' ');
    return out;
}

} // namespace jarful::language
