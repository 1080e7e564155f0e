#include "engine/appraise/text.hpp"

#include <algorithm>
#include <cstdint>
#include <utility>

namespace jarful::appraise {

namespace {

/// A character and how many bytes it takes; 0xFFFD for one that is broken.
struct Character {
    std::uint32_t code = 0xfffd;
    std::size_t bytes = 1;
};

Character character(std::string_view text) {
    const auto lead = static_cast<unsigned char>(text[0]);
    if (lead < 0x80) return {lead, 1};
    std::size_t length = 0;
    std::uint32_t code = 0;
    if (lead >= 0xc2 && lead < 0xe0) {
        length = 2;
        code = lead & 0x1fU;
    } else if (lead >= 0xe0 && lead < 0xf0) {
        length = 3;
        code = lead & 0x0fU;
    } else if (lead >= 0xf0 && lead < 0xf5) {
        length = 4;
        code = lead & 0x07U;
    } else {
        return {};
    }
    if (text.size() < length) return {};
    for (std::size_t i = 1; i < length; ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        if ((byte & 0xc0U) != 0x80) return {};
        code = (code << 6U) | (byte & 0x3fU);
    }
    return {code, length};
}

std::string_view fraction(std::uint32_t code) {
    static constexpr std::pair<std::uint32_t, std::string_view> table[] = {
        {0xbc, "1/4"},    {0xbd, "1/2"},   {0xbe, "3/4"},   {0x2150, "1/7"}, {0x2151, "1/9"},
        {0x2152, "1/10"}, {0x2153, "1/3"}, {0x2154, "2/3"}, {0x2155, "1/5"}, {0x2156, "2/5"},
        {0x2157, "3/5"},  {0x2158, "4/5"}, {0x2159, "1/6"}, {0x215a, "5/6"}, {0x215b, "1/8"},
        {0x215c, "3/8"},  {0x215d, "5/8"}, {0x215e, "7/8"}};
    for (const auto& [c, words] : table) {
        if (c == code) return words;
    }
    return {};
}

bool digit(char c) {
    return c >= '0' && c <= '9';
}

bool letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           static_cast<unsigned char>(c) >= 0x80;
}

/// Whether a narrow blank stands between one to three digits, or groups of three, and three more.
bool groups_digits(const std::string& before, std::string_view behind) {
    std::size_t run = 0;
    while (run < before.size() && run < 16 && digit(before[before.size() - 1 - run]))
        ++run;
    const bool group = behind.size() >= 3 && digit(behind[0]) && digit(behind[1]) &&
                       digit(behind[2]) && !(behind.size() > 3 && digit(behind[3]));
    return group && run > 0 && run < 13;
}

bool turns_direction(std::uint32_t code) {
    return (code >= 0x202a && code <= 0x202e) || (code >= 0x2066 && code <= 0x2069) ||
           code == 0x200e || code == 0x200f || code == 0x61c;
}

/// Nothing to see, or a stroke through the character before it.
bool not_seen(std::uint32_t code) {
    return turns_direction(code) || code == 0xad || (code >= 0x200b && code <= 0x200d) ||
           (code >= 0x2060 && code <= 0x206f) || (code >= 0xfe00 && code <= 0xfe0f) ||
           code == 0xfeff || code == 0x34f || code == 0x180e || code == 0x115f || code == 0x1160 ||
           code == 0x3164 || code == 0xffa0 || (code >= 0x334 && code <= 0x338) ||
           (code >= 0xe0000 && code <= 0xe0fff);
}

/// What is not seen and changes nothing: beside a blank or the end of a line, behind a picture, and
/// a hyphen between letters that only shows where a line is broken.
bool harmless(std::uint32_t code, const std::string& before, std::string_view behind) {
    if (turns_direction(code) || (code >= 0x334 && code <= 0x338)) return false;
    const auto blank = [](char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; };
    if (before.empty() || blank(before.back()) || behind.empty() || blank(behind.front()))
        return true;
    return code == 0xad && letter(before.back()) && letter(behind.front());
}

bool narrow_blank(std::uint32_t code) {
    return code == 0x2007 || code == 0x2008 || code == 0x2009 || code == 0x202f;
}

} // namespace

std::string made_visible(std::string_view line) {
    std::string out;
    for (const char c : line) {
        if (c == unseen)
            out += "\xef\xbf\xbd"; // the replacement character
        else
            out += c;
    }
    return out;
}

std::string clean(std::string_view bytes) {
    std::string out;
    out.reserve(bytes.size() + 16);
    while (!bytes.empty()) {
        const Character c = character(bytes);
        const std::string_view raw = bytes.substr(0, c.bytes);
        bytes.remove_prefix(c.bytes);
        const auto in = [&](std::uint32_t a, std::uint32_t b) {
            return c.code >= a && c.code <= b;
        };
        if (const auto words = fraction(c.code); !words.empty()) {
            if (!out.empty() && digit(out.back())) out += ' ';
            out += words;
        } else if (c.code == '\n' || c.code == '\r' || in(0x21, 0x7e)) {
            out += raw;
        } else if (narrow_blank(c.code) && groups_digits(out, bytes)) {
            // the thousands of one number
        } else if (c.code < 0x80 || c.code == 0xa0 || in(0x2000, 0x200a) || c.code == 0x202f ||
                   c.code == 0x3000) {
            out += ' ';
        } else if (in(0x2010, 0x2015) || c.code == 0x2212) {
            out += '-';
        } else if (c.code == 0x2018 || c.code == 0x2019 || c.code == 0xb4) {
            out += '\'';
        } else if (in(0x201c, 0x201f)) {
            out += '"';
        } else if (c.code == 0x2044 || c.code == 0x2215) {
            out += '/';
        } else if (c.code == 0xd7) {
            out += " x ";
        } else if (c.code == 0x2248 || c.code == 0x223c) {
            out += '~';
        } else if (c.code == 0xba) { // the ordinal sign, typed for a degree
            out += "\xc2\xb0";
        } else if (c.code == 0x2028 || c.code == 0x2029) {
            out += '\n';
        } else if (not_seen(c.code)) {
            if (!harmless(c.code, out, bytes)) out += unseen;
        } else if (in(0x80, 0x9f) || in(0x2022, 0x2043) || in(0x2190, 0x2bff) ||
                   in(0xe000, 0xf8ff) || in(0xfff0, 0xffff) || in(0x1f000, 0x1ffff) ||
                   c.code == 0xb7) {
            out += ' ';
        } else {
            out += raw;
        }
    }
    return out;
}

std::string without_columns(std::string_view line) {
    std::string out;
    std::size_t columns = 0;
    for (std::size_t i = 0; i < line.size();) {
        std::size_t end = i;
        std::size_t dots = 0;
        while (end < line.size() && (line[end] == ' ' || line[end] == '.')) {
            dots += line[end] == '.' ? 1 : 0;
            ++end;
        }
        const bool apart = (dots >= 3 || (dots == 0 && end - i >= 3)) && i > 0 &&
                           end < line.size() && digit(line[end]);
        if (!apart) {
            const std::size_t next = std::max(end, i + 1);
            out += line.substr(i, next - i);
            i = next;
            continue;
        }
        // "2 heads of dill     1/2 tsp pepper" are two things, each with its amount in front.
        const bool amount_in_front = digit(trimmed(line).front());
        out += amount_in_front ? "; " : columns == 0 ? ": " : " ";
        ++columns;
        i = end;
    }
    return out;
}

std::vector<std::string_view> lines_of(std::string_view text) {
    std::vector<std::string_view> out;
    std::size_t begin = 0;
    for (std::size_t i = 0; i <= text.size(); ++i) {
        if (i < text.size() && text[i] != '\n' && text[i] != '\r') continue;
        out.push_back(text.substr(begin, i - begin));
        if (i + 1 < text.size() && text[i] == '\r' && text[i + 1] == '\n') ++i;
        begin = i + 1;
    }
    return out;
}

std::string lower(std::string_view text) {
    std::string out(text);
    std::transform(out.begin(), out.end(), out.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
    return out;
}

std::string_view beginning(std::string_view text, std::size_t most) {
    if (text.size() <= most) return text;
    // Bytes 10xxxxxx go on with a character.
    while (most > 0 && (static_cast<unsigned char>(text[most]) & 0xC0U) == 0x80U)
        --most;
    return text.substr(0, most);
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t'))
        text.remove_prefix(1);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t'))
        text.remove_suffix(1);
    return text;
}

} // namespace jarful::appraise
