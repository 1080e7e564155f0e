#include "engine/language/characters.hpp"

#include <utf8proc.h>

#include <array>
#include <cstdlib>
#include <cstring>

namespace jarful::language {

namespace {

constexpr bool ascii(char c) {
    return static_cast<unsigned char>(c) < 0x80;
}

constexpr bool ascii_name_character(char c) {
    return is_ascii_letter(c) || is_digit(c) || c == '_';
}

/// Of ASCII, those that go on with a name.
constexpr std::array<bool, 256> goes_on = [] {
    std::array<bool, 256> out{};
    for (std::size_t c = 0; c < 0x80; ++c)
        out[c] = ascii_name_character(static_cast<char>(c));
    return out;
}();

/// A word of the machine at a time, since nearly every text is.
bool all_ascii(std::string_view text) {
    constexpr std::uint64_t high_bits = 0x8080808080808080;
    std::size_t at = 0;
    for (; at + sizeof(std::uint64_t) <= text.size(); at += sizeof(std::uint64_t)) {
        std::uint64_t word = 0;
        std::memcpy(&word, text.data() + at, sizeof word);
        if ((word & high_bits) != 0) return false;
    }
    for (; at < text.size(); ++at)
        if (!ascii(text[at])) return false;
    return true;
}

std::size_t run_length(std::string_view text, bool hyphens) {
    if (text.empty() || (ascii(text[0]) && !is_ascii_letter(text[0]))) return 0;
    std::size_t at = 0;
    while (at < text.size()) {
        while (at < text.size() && goes_on[static_cast<unsigned char>(text[at])])
            ++at;
        if (at == text.size()) break;
        if (ascii(text[at])) {
            if (!hyphens || text[at] != '-') break;
            ++at;
            continue;
        }
        const Decoded d = decode(text.substr(at));
        if (!d.valid || !(at == 0 ? is_letter(d.value) : is_name_character(d.value))) break;
        at += d.length;
    }
    return at;
}

} // namespace

Decoded decode(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char lead = byte(0);
    if (lead < 0x80) return {lead, 1, true};
    const std::uint8_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
    if (lead < 0xC2 || lead > 0xF4 || text.size() < length) return {};
    char32_t value = lead & (0xFFU >> (length + 1));
    for (std::uint8_t i = 1; i < length; ++i) {
        if ((byte(i) & 0xC0U) != 0x80U) return {};
        value = (value << 6U) | (byte(i) & 0x3FU);
    }
    const bool overlong = (length == 3 && value < 0x800) || (length == 4 && value < 0x10000);
    const bool surrogate = value >= 0xD800 && value <= 0xDFFF;
    if (overlong || surrogate || value > 0x10FFFF) return {};
    return {value, length, true};
}

bool is_letter(char32_t c) {
    if (c < 0x80) return is_ascii_letter(static_cast<char>(c));
    switch (utf8proc_category(static_cast<utf8proc_int32_t>(c))) {
    case UTF8PROC_CATEGORY_LU:
    case UTF8PROC_CATEGORY_LL:
    case UTF8PROC_CATEGORY_LT:
    case UTF8PROC_CATEGORY_LM:
    case UTF8PROC_CATEGORY_LO:
        return true;
    default:
        return false;
    }
}

bool is_name_character(char32_t c) {
    if (c < 0x80) return ascii_name_character(static_cast<char>(c));
    switch (utf8proc_category(static_cast<utf8proc_int32_t>(c))) {
    case UTF8PROC_CATEGORY_MN:
    case UTF8PROC_CATEGORY_MC:
    case UTF8PROC_CATEGORY_ND:
        return true;
    default:
        return is_letter(c);
    }
}

bool turns_direction(char32_t c) {
    return (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069) || c == 0x200E ||
           c == 0x200F || c == 0x061C;
}

bool is_control(char32_t c) {
    return (c < 0x20 && c != '\t' && c != '\n') || (c >= 0x7F && c <= 0x9F);
}

std::size_t name_length(std::string_view text) {
    return run_length(text, false);
}

std::size_t word_length(std::string_view text) {
    return run_length(text, true);
}

bool goes_on_with_name(std::string_view text) {
    if (text.empty()) return false;
    if (ascii(text.front())) return ascii_name_character(text.front());
    const Decoded d = decode(text);
    return d.valid && is_name_character(d.value);
}

std::size_t count_characters(std::string_view text) {
    if (all_ascii(text)) return text.size();
    std::size_t count = 0;
    for (std::size_t at = 0; at < text.size(); ++count)
        at += ascii(text[at]) ? 1 : decode(text.substr(at)).length;
    return count;
}

int columns_of(char32_t c) {
    if (c >= 0x20 && c < 0x7F) return 1;
    return utf8proc_charwidth(static_cast<utf8proc_int32_t>(c));
}

std::string to_nfc(std::string_view text) {
    if (all_ascii(text)) return std::string(text);
    utf8proc_uint8_t* out = nullptr;
    const auto size =
        utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                     static_cast<utf8proc_ssize_t>(text.size()), &out,
                     static_cast<utf8proc_option_t>(UTF8PROC_STABLE | UTF8PROC_COMPOSE));
    if (size < 0) return std::string(text);
    std::string result(reinterpret_cast<const char*>(out), static_cast<std::size_t>(size));
    std::free(out); // NOLINT: the library allocates with malloc
    return result;
}

std::string code_point_name(char32_t c) {
    constexpr std::string_view digits = "0123456789ABCDEF";
    std::string name = "U+";
    const int width = c > 0xFFFFF ? 6 : c > 0xFFFF ? 5 : 4;
    for (int i = width - 1; i >= 0; --i)
        name += digits[(c >> (4U * static_cast<unsigned>(i))) & 0xFU];
    return name;
}

} // namespace jarful::language
