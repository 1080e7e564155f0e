#include "engine/appraise/paragraphs.hpp"

#include "engine/appraise/text.hpp"

#include <algorithm>

namespace jarful::appraise {

namespace {

// Ours, by what pasted recipes look like.
constexpr std::size_t least_column = 45;    // bytes of a line that was broken for its length
constexpr std::size_t most_together = 4000; // bytes; more is no paragraph that somebody wrote

bool digit(char c) {
    return c >= '0' && c <= '9';
}

bool letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           static_cast<unsigned char>(c) >= 0x80;
}

/// "3.", "3)", "3/ ", "(3)": a step, and no amount.
bool begins_step(std::string_view line) {
    if (line.starts_with('(')) line.remove_prefix(1);
    const std::size_t digits = std::min(line.find_first_not_of("0123456789"), line.size());
    if (digits == 0 || digits > 2 || digits == line.size()) return false;
    const char mark = line[digits];
    const bool blank = digits + 1 == line.size() || line[digits + 1] == ' ';
    return mark == ')' || ((mark == '.' || mark == '/' || mark == ':') && blank);
}

bool begins_with_mark(std::string_view line) {
    for (const std::string_view bullet : {"•", "◦", "▪", "·"})
        if (line.starts_with(bullet)) return true;
    return !line.empty() && !letter(line.front()) && !digit(line.front()) &&
           std::string_view("\"'(").find(line.front()) == std::string_view::npos;
}

/// As a thing of a list does: with a bullet or an amount.
bool begins_item(std::string_view line) {
    return begins_with_mark(line) || (digit(line.front()) && !begins_step(line));
}

/// Whether a sentence ends in a line: a full stop behind a word of three letters or more, and then
/// nothing or a capital.
bool ends_sentence(std::string_view line) {
    for (std::size_t i = 3; i < line.size(); ++i) {
        if (line[i] != '.' && line[i] != '!' && line[i] != '?') continue;
        if (!letter(line[i - 1]) || !letter(line[i - 2]) || !letter(line[i - 3])) continue;
        if (i + 1 == line.size()) return true;
        if (line[i + 1] == ' ' && i + 2 < line.size() && line[i + 2] >= 'A' && line[i + 2] <= 'Z')
            return true;
    }
    return false;
}

using Lines = std::vector<std::string_view>;

/// Whether the lines from `begin` to `end` are a broken paragraph.
bool is_prose(const Lines& lines, std::size_t begin, std::size_t end) {
    if (end - begin < 2) return false;
    std::size_t longest = 0;
    std::size_t items = 0;
    bool sentence = false;
    for (std::size_t i = begin; i < end; ++i) {
        const std::string_view line = trimmed(lines[i]);
        longest = std::max(longest, line.size());
        items += begins_item(line) ? 1 : 0;
        sentence = sentence || ends_sentence(line);
    }
    if (longest < least_column || 2 * items >= end - begin || !sentence) return false;
    for (std::size_t i = begin; i + 1 < end; ++i) {
        const std::string_view line = trimmed(lines[i]);
        const bool last =
            begins_step(trimmed(lines[i + 1])) || begins_with_mark(trimmed(lines[i + 1]));
        if (!last && line.size() * 10 < longest * 6) return false;
    }
    return true;
}

} // namespace

std::vector<Paragraph> paragraphs_of(std::string& text) {
    const Lines lines = lines_of(text);
    std::vector<Paragraph> out;
    out.reserve(lines.size());
    for (std::size_t begin = 0; begin < lines.size();) {
        std::size_t end = begin;
        while (end < lines.size() && !trimmed(lines[end]).empty())
            ++end;
        const bool prose = is_prose(lines, begin, end);
        for (std::size_t i = begin; i < end; ++i) {
            const std::string_view line = lines[i];
            const std::string_view start = trimmed(line);
            const bool goes_on =
                prose && i > begin && !begins_step(start) && !begins_with_mark(start);
            if (!goes_on || out.back().text.size() + line.size() > most_together) {
                out.push_back({i + 1, line, false});
                continue;
            }
            Paragraph& last = out.back();
            const char* from = last.text.data();
            // What ends the line before becomes blanks, so that the two are one.
            const auto behind = static_cast<std::size_t>(from - text.data()) + last.text.size();
            const auto next = static_cast<std::size_t>(line.data() - text.data());
            std::fill(text.begin() + static_cast<std::ptrdiff_t>(behind),
                      text.begin() + static_cast<std::ptrdiff_t>(next), ' ');
            last.text = {from, static_cast<std::size_t>(line.data() + line.size() - from)};
            last.prose = true;
        }
        if (end < lines.size()) out.push_back({end + 1, lines[end], false});
        begin = end + 1;
    }
    return out;
}

} // namespace jarful::appraise
