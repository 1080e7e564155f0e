#include "engine/units/scan.hpp"

#include <fast_float/fast_float.h>

#include <algorithm>
#include <array>
#include <limits>

namespace jarful::units {

namespace scan {

namespace {

bool continuation(std::string_view text, std::size_t at) {
    return at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U;
}

bool ascii_word(char32_t c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

/// Beyond ASCII everything is taken for a letter but the blocks of signs.
bool word_character(char32_t c) {
    if (c < 0x80) {
        return ascii_word(c);
    }
    if (c < 0xC0) {
        return c == 0xAA || c == 0xB0 || c == 0xB5 || c == 0xBA; // ª ° µ º
    }
    if (c == 0xD7 || c == 0xF7 || c == 0xFFFD) { // × ÷
        return false;
    }
    const bool punctuation = c >= 0x2000 && c <= 0x206F;
    const bool fraction = (c >= 0x2150 && c <= 0x215F) || c == 0x2189;
    const bool arrow_or_sign = c >= 0x2190 && c <= 0x2BFF;
    return !punctuation && !fraction && !arrow_or_sign;
}

bool blank(char32_t c) {
    return c == ' ' || c == '\t' || c == 0xA0 || c == 0x2009 || c == 0x202F;
}

} // namespace

CodePoint code_point(std::string_view text, std::size_t at) {
    if (at >= text.size()) {
        return {};
    }
    const auto first = static_cast<unsigned char>(text[at]);
    if (first < 0x80) {
        return {first, 1};
    }
    const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : first >= 0xC2 ? 2 : 1;
    char32_t value = first & (0x7FU >> length);
    for (std::size_t i = 1; i < length; ++i) {
        if (!continuation(text, at + i)) {
            return {0xFFFD, 1};
        }
        value = (value << 6U) | (static_cast<unsigned char>(text[at + i]) & 0x3FU);
    }
    return length == 1 ? CodePoint{0xFFFD, 1} : CodePoint{value, length};
}

std::size_t skip_blanks(std::string_view text, std::size_t at) {
    while (at < text.size() && (text[at] == ' ' || text[at] == '\t'))
        ++at;
    if (at == text.size() || static_cast<unsigned char>(text[at]) < 0x80) return at;
    while (true) {
        const CodePoint c = code_point(text, at);
        if (c.length == 0 || !blank(c.value)) {
            return at;
        }
        at += c.length;
    }
}

bool digit_at(std::string_view text, std::size_t at) {
    return at < text.size() && text[at] >= '0' && text[at] <= '9';
}

std::size_t skip_digits(std::string_view text, std::size_t at) {
    while (digit_at(text, at)) {
        ++at;
    }
    return at;
}

std::size_t skip_word(std::string_view text, std::size_t at) {
    if (at < text.size() && text[at] == '%') {
        return at + 1;
    }
    while (at < text.size() && static_cast<unsigned char>(text[at]) < 0x80) {
        if (!ascii_word(static_cast<unsigned char>(text[at]))) return at;
        ++at;
    }
    while (true) {
        const CodePoint c = code_point(text, at);
        if (c.length == 0 || !word_character(c.value)) {
            return at;
        }
        at += c.length;
    }
}

std::size_t dash_at(std::string_view text, std::size_t at) {
    if (at >= text.size()) return 0;
    if (static_cast<unsigned char>(text[at]) < 0x80) return text[at] == '-' ? 1 : 0;
    const CodePoint c = code_point(text, at);
    const bool dash =
        c.value == '-' || (c.value >= 0x2010 && c.value <= 0x2015) || c.value == 0x2212;
    return dash ? c.length : 0;
}

} // namespace scan

namespace {

using scan::digit_at;
using Kind = ReadFault::Kind;

struct Vulgar {
    char32_t sign;
    int over;
    int under;
};
// Unicode: Latin-1 Supplement and Number Forms, all vulgar fractions.
constexpr std::array vulgar_fractions{
    Vulgar{0xBC, 1, 4},   Vulgar{0xBD, 1, 2},    Vulgar{0xBE, 3, 4},   Vulgar{0x2150, 1, 7},
    Vulgar{0x2151, 1, 9}, Vulgar{0x2152, 1, 10}, Vulgar{0x2153, 1, 3}, Vulgar{0x2154, 2, 3},
    Vulgar{0x2155, 1, 5}, Vulgar{0x2156, 2, 5},  Vulgar{0x2157, 3, 5}, Vulgar{0x2158, 4, 5},
    Vulgar{0x2159, 1, 6}, Vulgar{0x215A, 5, 6},  Vulgar{0x215B, 1, 8}, Vulgar{0x215C, 3, 8},
    Vulgar{0x215D, 5, 8}, Vulgar{0x215E, 7, 8},  Vulgar{0x2189, 0, 3},
};

/// A fraction and where it ends; end 0 if there is none.
struct Fraction {
    double over = 0;
    double under = 1;
    std::size_t end = 0;
};

Fraction vulgar_at(std::string_view text, std::size_t at) {
    if (at >= text.size() || static_cast<unsigned char>(text[at]) < 0x80) return {};
    const scan::CodePoint c = scan::code_point(text, at);
    for (const Vulgar& v : vulgar_fractions) {
        if (v.sign == c.value) {
            return {static_cast<double>(v.over), static_cast<double>(v.under), at + c.length};
        }
    }
    return {};
}

double convert(std::string_view digits) {
    double value = 0;
    const auto result = fast_float::from_chars(digits.data(), digits.data() + digits.size(), value,
                                               fast_float::chars_format::fixed);
    return result.ec == std::errc() || result.ec == std::errc::result_out_of_range
               ? value
               : std::numeric_limits<double>::infinity();
}

/// `1/2`, `1⁄2`: two whole numbers without blanks, and nothing after that makes it another number.
Fraction slashed_at(std::string_view text, std::size_t at) {
    const std::size_t slash = scan::skip_digits(text, at);
    const scan::CodePoint c = scan::code_point(text, slash);
    if (slash == at || (c.value != '/' && c.value != 0x2044)) {
        return {};
    }
    const std::size_t under = slash + c.length;
    const std::size_t end = scan::skip_digits(text, under);
    if (end == under || (end < text.size() && text[end] == '.' && digit_at(text, end + 1))) {
        return {};
    }
    return {convert(text.substr(at, slash - at)), convert(text.substr(under, end - under)), end};
}

Fraction fraction_at(std::string_view text, std::size_t at) {
    const Fraction f = vulgar_at(text, at);
    return f.end != 0 ? f : slashed_at(text, at);
}

/// Where the number that begins at `at` ends, as far as it must be known to quote it.
std::size_t rough_end(std::string_view text, std::size_t at) {
    if (const Fraction f = fraction_at(text, at); f.end != 0) {
        return f.end;
    }
    std::size_t end = scan::skip_digits(text, at);
    if (end < text.size() && text[end] == '.' && digit_at(text, end + 1)) {
        end = scan::skip_digits(text, end + 1);
    }
    return end;
}

std::string quoted(std::string_view text) {
    return "`" + std::string(text) + "`";
}

class NumberReader {
  public:
    NumberReader(std::string_view text, ReadFault* fault)
        : text_(text)
        , fault_(fault) {}

    std::optional<NumberText> read() {
        const std::size_t whole_end = scan::skip_digits(text_, 0);
        if (whole_end == 0) {
            const Fraction f = vulgar_at(text_, 0);
            return f.end != 0 ? finish(f.over / f.under, f.end, false, true) : no_digits();
        }
        if (whole_end < text_.size() && text_[whole_end] == '.') {
            if (digit_at(text_, whole_end + 1)) {
                const std::size_t end = scan::skip_digits(text_, whole_end + 1);
                return finish(convert(text_.substr(0, end)), end, false, false);
            }
            if (text_.substr(whole_end, 2) != "..") {
                const std::string digits(text_.substr(0, whole_end));
                return refuse(Kind::bare_point, 0, whole_end + 1,
                              "A number does not end with a point.",
                              "Write " + digits + " or " + digits + ".0.");
            }
        }
        if (const Fraction f = slashed_at(text_, 0); f.end != 0) {
            if (f.under == 0) {
                return zero_below(0, f.end);
            }
            return finish(f.over / f.under, f.end, false, true);
        }
        return whole_or_mixed(whole_end);
    }

  private:
    std::string_view text_;
    ReadFault* fault_;

    std::nullopt_t refuse(Kind kind, std::size_t begin, std::size_t end, std::string message,
                          std::string advice) {
        scan::report(fault_, kind, begin, end, std::move(message), std::move(advice));
        return std::nullopt;
    }

    std::nullopt_t zero_below(std::size_t begin, std::size_t end) {
        return refuse(Kind::zero_denominator, begin, end,
                      quoted(text_.substr(begin, end - begin)) + " divides by nothing.",
                      "Write a number above 0 below the stroke.");
    }

    std::nullopt_t no_digits() {
        if (text_.substr(0, 1) == "." && digit_at(text_, 1)) {
            const std::size_t end = scan::skip_digits(text_, 1);
            return refuse(Kind::bare_point, 0, end, "A number does not begin with a point.",
                          "Write 0" + std::string(text_.substr(0, end)) + ".");
        }
        const std::size_t end =
            std::max(scan::skip_word(text_, 0), scan::code_point(text_, 0).length);
        if (end == 0) {
            return refuse(Kind::not_a_number, 0, 0, "A number is missing here.", "");
        }
        if (scan::dash_at(text_, 0) != 0) {
            return refuse(Kind::not_a_number, 0, end,
                          "An amount has no sign; there is no less than nothing of it.",
                          "Write the number without the minus sign.");
        }
        return refuse(Kind::not_a_number, 0, end,
                      quoted(text_.substr(0, end)) + " stands where a number should begin.", "");
    }

    std::optional<NumberText> whole_or_mixed(std::size_t whole_end) {
        const double whole = convert(text_.substr(0, whole_end));
        const std::size_t next = scan::skip_blanks(text_, whole_end);
        Fraction f = vulgar_at(text_, next);
        if (f.end == 0 && next != whole_end) {
            f = slashed_at(text_, next);
            if (f.end != 0 && f.under == 0) {
                return zero_below(next, f.end);
            }
            if (f.over >= f.under) {
                f = {}; // `1 3/2` is not how anyone writes 2 1/2
            }
        }
        if (f.end != 0) {
            return finish((whole * f.under + f.over) / f.under, f.end, false, true);
        }
        return finish(whole, whole_end, true, false);
    }

    /// Refuses what the number runs into, and sizes that are absurd.
    std::optional<NumberText> finish(double value, std::size_t end, bool whole, bool fraction) {
        if (end < text_.size() && text_[end] == ',' && digit_at(text_, end + 1)) {
            return comma(end);
        }
        if (const std::size_t dash = scan::dash_at(text_, end);
            dash != 0 && scan::number_at(text_, end + dash)) {
            return joined(end, end + dash, whole);
        }
        if (!(value <= max_number)) {
            return refuse(Kind::too_large, 0, end,
                          "The number is larger than any a recipe can hold (1 followed by 15 "
                          "zeros).",
                          "");
        }
        const std::string_view digits = text_.substr(0, end);
        if (value < std::numeric_limits<double>::min() && !fraction &&
            digits.find_first_of("123456789") != std::string_view::npos) {
            return refuse(Kind::too_large, 0, end,
                          "The number is so small that it would be read as 0.", "");
        }
        return NumberText{value, end, whole, fraction};
    }

    std::nullopt_t comma(std::size_t at) {
        const std::size_t end = scan::skip_digits(text_, at + 1);
        const std::string before(text_.substr(0, at));
        const std::string after(text_.substr(at + 1, end - at - 1));
        std::string advice;
        if (before.find('.') != std::string::npos) {
            advice = "Write the number with one point and no comma.";
        } else if (after.size() == 3) {
            advice = "Write " + before + after + " for thousands, or " + before + "." + after +
                     " with a point for the decimals.";
        } else {
            advice = "Write " + before + "." + after + ".";
        }
        return refuse(Kind::decimal_comma, 0, end, "A comma has no place in a number.",
                      advice + " Between two values, put a blank after the comma.");
    }

    std::nullopt_t joined(std::size_t end, std::size_t second, bool whole) {
        const std::size_t second_end = rough_end(text_, second);
        const std::string before(text_.substr(0, end));
        const std::string after(text_.substr(second, second_end - second));
        const Fraction f = fraction_at(text_, second);
        if (whole && f.end != 0 && f.over < f.under) {
            return refuse(Kind::hyphen_mixed, 0, second_end,
                          quoted(text_.substr(0, second_end)) +
                              " could be a mixed number or a subtraction.",
                          "Write " + before + " " + after + ", or " + before + " - " + after +
                              " with blanks to subtract.");
        }
        return refuse(Kind::hyphen_range, 0, second_end,
                      quoted(text_.substr(0, second_end)) + " could be a range or a subtraction.",
                      "Write " + before + ".." + after + " for a range, or " + before + " - " +
                          after + " with blanks to subtract.");
    }
};

} // namespace

bool scan::number_at(std::string_view text, std::size_t at) {
    return digit_at(text, at) || vulgar_at(text, at).end != 0;
}

std::optional<NumberText> read_number(std::string_view text, ReadFault* fault) {
    return NumberReader(text, fault).read();
}

} // namespace jarful::units
