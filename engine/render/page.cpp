#include "engine/render/page.hpp"

#include "engine/render/obeyed.hpp"
#include "engine/units/together.hpp"

#include <algorithm>
#include <cstdint>

namespace jarful::render {

namespace {

bool turns_direction(std::uint32_t c) {
    return c == 0x061c || c == 0x200e || c == 0x200f || (c >= 0x202a && c <= 0x202e) ||
           (c >= 0x2066 && c <= 0x2069);
}

int width_of(std::uint32_t c) {
    if (c < 0x300) return c == 0xad ? 0 : 1;
    const auto in = [c](std::uint32_t a, std::uint32_t b) { return c >= a && c <= b; };
    if (in(0x300, 0x36f) || in(0x200b, 0x200d) || in(0x20d0, 0x20ff) || in(0xfe00, 0xfe0f) ||
        c == 0xad) {
        return 0;
    }
    if (in(0x1100, 0x115f) || in(0x2e80, 0xa4cf) || in(0xac00, 0xd7a3) || in(0xf900, 0xfaff) ||
        in(0xfe30, 0xfe6f) || in(0xff00, 0xff60) || in(0xffe0, 0xffe6) || in(0x1f300, 0x1faff) ||
        in(0x20000, 0x3fffd)) {
        return 2;
    }
    return 1;
}

/// The longest start of a text that fits, at least one character.
std::size_t fitting(std::string_view text, int width) {
    std::size_t at = 0;
    int used = 0;
    while (at < text.size()) {
        const Character c = first_character(text.substr(at));
        const int w = width_of(c.code);
        if (at > 0 && used + w > width) break;
        used += w;
        at += c.bytes;
    }
    return at;
}

std::string padded(std::string_view text, int width, bool right) {
    const int room = std::max(0, width - columns(text));
    const std::string blanks(static_cast<std::size_t>(room), ' ');
    return right ? blanks + std::string(text) : std::string(text) + blanks;
}

void trim_right(std::string& line) {
    while (!line.empty() && line.back() == ' ')
        line.pop_back();
}

} // namespace

Character first_character(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char lead = byte(0);
    if (lead < 0x80) return {lead, 1, true};
    std::size_t length = 0;
    std::uint32_t code = 0;
    std::uint32_t least = 0;
    if (lead >= 0xc2 && lead < 0xe0) {
        length = 2;
        code = lead & 0x1fU;
        least = 0x80;
    } else if (lead >= 0xe0 && lead < 0xf0) {
        length = 3;
        code = lead & 0x0fU;
        least = 0x800;
    } else if (lead >= 0xf0 && lead < 0xf5) {
        length = 4;
        code = lead & 0x07U;
        least = 0x10000;
    } else {
        return {};
    }
    if (text.size() < length) return {};
    for (std::size_t i = 1; i < length; ++i) {
        if ((byte(i) & 0xc0U) != 0x80) return {};
        code = (code << 6U) | (byte(i) & 0x3fU);
    }
    const bool surrogate = code >= 0xd800 && code < 0xe000;
    if (code < least || code > 0x10ffff || surrogate) return {};
    return {code, length, true};
}

bool is_obeyed(std::uint32_t code) {
    return code < 0x20 || (code >= 0x7f && code < 0xa0) || turns_direction(code) ||
           code == 0x2028 || code == 0x2029 || code == 0xfeff;
}

std::string visible(std::string_view text) {
    static constexpr char digits[] = "0123456789ABCDEF";
    std::string out;
    out.reserve(text.size());
    while (!text.empty()) {
        // Nearly everything: a run of ordinary letters at once.
        const auto plain =
            std::find_if_not(text.begin(), text.end(), [](char x) { return x >= ' ' && x < 0x7f; });
        out.append(text.begin(), plain);
        text.remove_prefix(static_cast<std::size_t>(plain - text.begin()));
        if (text.empty()) break;
        const Character c = first_character(text);
        if (!c.sound) {
            out += "\xef\xbf\xbd"; // the replacement character
        } else if (c.code == '\t') {
            out += ' ';
        } else if (c.code < 0x20) { // its picture, from U+2400 on
            out += "\xe2\x90";
            out += static_cast<char>(0x80 + c.code);
        } else if (c.code == 0x7f) {
            out += "\xe2\x90\xa1";
        } else if (is_obeyed(c.code)) {
            out += "<U+";
            for (int shift = 12; shift >= 0; shift -= 4) {
                out += digits[(c.code >> static_cast<unsigned>(shift)) & 0xfU];
            }
            out += '>';
        } else {
            out += text.substr(0, c.bytes);
        }
        text.remove_prefix(c.bytes);
    }
    return out;
}

int columns(std::string_view text) {
    int total = 0;
    while (!text.empty()) {
        if (static_cast<unsigned char>(text.front()) < 0x80) {
            ++total;
            text.remove_prefix(1);
            continue;
        }
        const Character c = first_character(text);
        total += width_of(c.code);
        text.remove_prefix(c.bytes);
    }
    return total;
}

std::vector<std::string> wrap(std::string_view text, int width) {
    const std::string shown = visible(text);
    width = std::max(width, 1);
    const bool close = shown.empty() || shown.front() == ' ' || shown.back() == ' ' ||
                       shown.find("  ") != std::string::npos;
    if (!close && columns(shown) <= width) return {shown};
    std::string_view rest = shown;
    std::vector<std::string> lines;
    std::string line;
    int used = 0; // columns of the line so far
    while (true) {
        const std::size_t start = rest.find_first_not_of(' ');
        if (start == std::string_view::npos) break;
        rest.remove_prefix(start);
        std::string_view word = rest.substr(0, rest.find(' '));
        rest.remove_prefix(word.size());
        // A number and its unit are one word, as long as they fit in a line.
        if (rest.size() > 1 && rest[0] == ' ' && rest[1] != ' ') {
            const std::string_view next = rest.substr(1, rest.find(' ', 1) - 1);
            const std::string_view both(word.data(), word.size() + 1 + next.size());
            if (units::stay_together(word, next) && columns(both) <= width) {
                word = both;
                rest.remove_prefix(next.size() + 1);
            }
        }
        const int more = columns(word);
        if (!line.empty() && used + 1 + more <= width) {
            line += ' ';
            line += word;
            used += 1 + more;
            continue;
        }
        if (!line.empty()) lines.push_back(std::move(line));
        while (columns(word) > width) {
            const std::size_t part = fitting(word, width);
            lines.emplace_back(word.substr(0, part));
            word.remove_prefix(part);
        }
        line = word;
        used = columns(word);
    }
    if (!line.empty() || lines.empty()) lines.push_back(std::move(line));
    return lines;
}

Page::Page(const TextStyle& style)
    : colour_(style.colour)
    , width_(std::max(style.width, 60))
    , brief_(style.brief) {
}

std::string Page::strong(std::string_view text, bool bold, bool dim) const {
    if (!colour_ || text.empty() || (!bold && !dim)) return std::string(text);
    return (bold ? "\x1b[1m" : "\x1b[2m") + std::string(text) + "\x1b[0m";
}

void Page::gap() {
    if (!out_.empty() && !out_.ends_with("\n\n")) out_ += '\n';
}

void Page::heading(std::string_view text) {
    gap();
    for (const std::string& line : wrap(text, width_)) {
        out_ += strong(line, true) + '\n';
    }
}

void Page::raw(std::string_view text, bool bold) {
    std::string line(text);
    trim_right(line);
    out_ += strong(line, bold) + '\n';
}

void Page::paragraph(std::string_view text, int first, int rest, bool bold) {
    // The first line may start further right than the others: its margin is kept by a filler that
    // is no blank while the text is wrapped.
    const int shift = std::max(0, first - rest);
    const std::string filler(static_cast<std::size_t>(shift), '_');
    const auto lines = wrap(filler + std::string(text), width_ - std::max(rest, first - shift));
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const std::size_t cut = i == 0 ? filler.size() : 0;
        const int indent = i == 0 ? first : rest;
        const std::string_view words = std::string_view(lines[i]).substr(cut);
        out_ += std::string(static_cast<std::size_t>(indent), ' ') + strong(words, bold) + '\n';
    }
}

void Page::item(std::string_view mark, std::string_view text, int indent, int hang) {
    const auto lines = wrap(text, width_ - hang);
    const int gap_width = std::max(hang - indent, columns(mark) + 1);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        std::string line(static_cast<std::size_t>(indent), ' ');
        line += i == 0 ? padded(mark, gap_width, false)
                       : std::string(static_cast<std::size_t>(hang - indent), ' ');
        line += lines[i];
        trim_right(line);
        out_ += line + '\n';
    }
}

void Page::titled(std::string_view title, std::string_view text, int indent) {
    const std::string margin(static_cast<std::size_t>(indent), ' ');
    const auto lines = wrap(std::string(title) + ". " + std::string(text), width_ - indent);
    const std::string shown = visible(title) + ".";
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (i == 0 && lines[i].starts_with(shown)) {
            out_ += margin + strong(shown, true) + lines[i].substr(shown.size()) + '\n';
        } else {
            out_ += margin + lines[i] + '\n';
        }
    }
}

void Page::next(std::string_view words) {
    gap();
    paragraph("Next: " + std::string(words), 0, 6, true);
}

bool Page::has_room_for(const Page& part, int below) const {
    const auto lines = [](const std::string& text) {
        return static_cast<int>(std::count(text.begin(), text.end(), '\n'));
    };
    return !brief_ || lines(out_) + lines(part.out_) + below <= screen_lines;
}

void Page::append(const Page& part) {
    out_ += part.out_;
}

void Page::part(std::string_view name, const Page& part, int below) {
    if (part.out_.empty()) return;
    if (has_room_for(part, below + 1)) {
        gap();
        append(part);
    } else {
        left_out_ += (left_out_.empty() ? "" : ", ") + std::string(name);
    }
}

void Page::more(std::string_view full, std::string_view words) {
    std::string all = left_out_;
    if (!full.empty()) all += (all.empty() ? "" : ", ") + std::string(full);
    if (!brief_ || (all.empty() && words.empty())) return;
    std::string line = all.empty() ? "" : "--full (" + all + ")";
    if (!words.empty()) line += (line.empty() ? "" : " · ") + std::string(words);
    paragraph("More: " + line, 0, 6);
}

void Page::row(const std::vector<Cell>& cells, int indent) {
    std::vector<std::vector<std::string>> columns_of_lines;
    std::size_t height = 1;
    for (const Cell& cell : cells) {
        if (cell.keep) {
            columns_of_lines.push_back({cell.text});
        } else {
            columns_of_lines.push_back(wrap(cell.text, cell.width));
        }
        height = std::max(height, columns_of_lines.back().size());
    }
    for (std::size_t y = 0; y < height; ++y) {
        std::string line(static_cast<std::size_t>(indent), ' ');
        for (std::size_t x = 0; x < cells.size(); ++x) {
            const Cell& cell = cells[x];
            const auto& lines = columns_of_lines[x];
            const std::string_view words = y < lines.size() ? lines[y] : std::string_view();
            const std::string whole = padded(words, cell.width, cell.right);
            const std::size_t at = cell.right ? whole.size() - words.size() : 0;
            line += whole.substr(0, at) + strong(words, cell.bold, cell.dim) +
                    whole.substr(at + words.size());
            if (x + 1 < cells.size()) line += "  ";
        }
        trim_right(line);
        out_ += line + '\n';
    }
}

} // namespace jarful::render
