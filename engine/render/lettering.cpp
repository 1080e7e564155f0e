#include "engine/render/lettering.hpp"

#include "engine/render/page.hpp"

#include <array>
#include <cstdint>

namespace jarful::render {

namespace {

/// Advance widths of the letters from U+0020 to U+007E, in thousandths of the size. Each is the
/// greater of two fonts', read from their tables of metrics (hmtx): DejaVu Sans 2.37, the widest
/// that a desktop is set up with, and Liberation Sans 1.07.4.
constexpr std::array<std::uint16_t, 95> plain_widths{
    318, 401, 460, 838, 637, 951, 780, 275, 391, 391, 500, 838, 318, 361,  318, 337, 637, 637, 637,
    637, 637, 637, 637, 637, 637, 637, 337, 337, 838, 838, 838, 557, 1016, 685, 686, 723, 770, 667,
    611, 778, 752, 295, 500, 667, 558, 863, 748, 788, 667, 788, 723, 667,  611, 732, 685, 989, 686,
    667, 686, 391, 337, 391, 838, 557, 500, 613, 635, 550, 635, 616, 353,  635, 634, 278, 278, 580,
    278, 975, 634, 612, 635, 635, 412, 521, 393, 634, 592, 818, 592, 592,  525, 637, 337, 637, 838};
/// The same of their bold faces.
constexpr std::array<std::uint16_t, 95> bold_widths{
    349,  457, 521, 838, 696, 1002, 873, 307,  457, 457, 523, 838, 380, 415,  380, 366,
    696,  696, 696, 696, 696, 696,  696, 696,  696, 696, 400, 400, 838, 838,  838, 611,
    1000, 774, 763, 734, 831, 684,  684, 821,  837, 373, 557, 775, 638, 996,  837, 851,
    733,  851, 770, 721, 683, 812,  774, 1103, 771, 725, 726, 457, 366, 457,  838, 557,
    500,  675, 716, 593, 716, 679,  436, 716,  712, 343, 343, 665, 343, 1042, 712, 687,
    716,  716, 494, 596, 478, 712,  652, 924,  645, 652, 582, 712, 366, 712,  838};

constexpr double thousandths = 1000;

bool between(std::uint32_t code, std::uint32_t first, std::uint32_t last) {
    return code >= first && code <= last;
}

/// What is beyond the table: letters of other alphabets are about as wide as the Latin ones, the
/// widest of which is M; whatever else there is is taken as wide as it is high.
double width_of(const Character& c, std::string_view bytes, bool bold) {
    if (c.sound && between(c.code, 0x20, 0x7e)) {
        const std::size_t at = c.code - 0x20;
        return (bold ? bold_widths[at] : plain_widths[at]) / thousandths;
    }
    if (c.code == 0xa0) return (bold ? bold_widths[0] : plain_widths[0]) / thousandths;
    if (between(c.code, 0x2066, 0x2069)) return 0; // isolates
    const int cells = c.sound ? columns(bytes) : 1;
    if (cells != 1) return cells == 0 ? 0 : 1.05;
    if (between(c.code, 0xc0, 0x58f) || between(c.code, 0x5d0, 0x6ff)) return bold ? 0.85 : 0.8;
    return 1.05;
}

double width_of_first(std::string_view text, std::size_t& bytes, bool bold) {
    const Character c = first_character(text);
    bytes = c.bytes;
    return width_of(c, text.substr(0, c.bytes), bold);
}

/// The longest start of a word that fits, at least one character.
std::size_t start_that_fits(std::string_view word, double room, bool bold) {
    double used = 0;
    std::size_t at = 0;
    while (at < word.size()) {
        std::size_t bytes = 1;
        used += width_of_first(word.substr(at), bytes, bold);
        if (at > 0 && used > room) break;
        at += bytes;
    }
    return at;
}

/// Calls `line` with each line, as a piece of `words`.
template <class Line>
void each_line(std::string_view words, double room, bool bold, Line&& line) {
    const double blank = width_of_words(" ", bold);
    room += 1e-9; // what is added up in another order is as wide
    std::string_view rest = words;
    std::size_t start = 0; // of the line, in `words`
    std::size_t end = 0;
    double used = 0;
    while (true) {
        const std::size_t skip = rest.find_first_not_of(' ');
        if (skip == std::string_view::npos) break;
        rest.remove_prefix(skip);
        std::string_view word = rest.substr(0, rest.find(' '));
        rest.remove_prefix(word.size());
        double width = width_of_words(word, bold);
        if (end > start && used + blank + width > room) {
            line(words.substr(start, end - start));
            start = end;
        }
        auto at = static_cast<std::size_t>(word.data() - words.data());
        if (end > start) {
            used += blank + width;
        } else {
            while (width > room) {
                const std::size_t part = start_that_fits(word, room, bold);
                if (part == word.size()) break;
                line(word.substr(0, part));
                word.remove_prefix(part);
                at += part;
                width = width_of_words(word, bold);
            }
            start = at;
            used = width;
        }
        end = at + word.size();
    }
    if (end > start) line(words.substr(start, end - start));
}

} // namespace

double width_of_words(std::string_view words, bool bold) {
    double width = 0;
    while (!words.empty()) {
        std::size_t bytes = 1;
        width += width_of_first(words, bytes, bold);
        words.remove_prefix(bytes);
    }
    return width;
}

std::vector<std::string> lines_of_words(std::string_view words, double room, bool bold) {
    std::vector<std::string> lines;
    each_line(words, room, bold, [&](std::string_view line) { lines.emplace_back(line); });
    return lines;
}

int line_count(std::string_view words, double room, bool bold) {
    int count = 0;
    each_line(words, room, bold, [&](std::string_view) { ++count; });
    return count;
}

} // namespace jarful::render
