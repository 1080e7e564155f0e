#include "engine/language/command_line.hpp"

#include "engine/language/characters.hpp"

#include <algorithm>

namespace jarful::language {

namespace {

bool is_plain(std::string_view word) {
    constexpr std::string_view signs = "-_./=,:+%@";
    return !word.empty() && std::all_of(word.begin(), word.end(), [&](char c) {
        return is_digit(c) || is_ascii_letter(c) || (static_cast<unsigned char>(c) & 0x80U) != 0 ||
               signs.find(c) != std::string_view::npos;
    });
}

/// Whether somebody who reads the character on a terminal sees what it is.
bool is_seen(const Decoded& c) {
    return c.valid && c.value != '\n' && c.value != '\t' && !is_control(c.value) &&
           !turns_direction(c.value) && c.value != 0x2028 && c.value != 0x2029 &&
           c.value != 0xfeff && c.value != 0xa0;
}

bool all_seen(std::string_view word) {
    while (!word.empty()) {
        const Decoded c = decode(word);
        if (!is_seen(c)) return false;
        word.remove_prefix(c.length);
    }
    return true;
}

std::string in_digits(std::string_view word) {
    std::string out = "$'";
    while (!word.empty()) {
        const Decoded c = decode(word);
        for (const char byte : word.substr(0, c.length)) {
            if (is_seen(c)) {
                if (byte == '\'' || byte == '\\') out += '\\';
                out += byte;
                continue;
            }
            const auto value = static_cast<unsigned char>(byte);
            out += '\\';
            for (const unsigned shift : {6U, 3U, 0U})
                out += static_cast<char>('0' + ((value >> shift) & 7U));
        }
        word.remove_prefix(c.length);
    }
    return out + "'";
}

std::string shell_word(std::string_view word) {
    if (!all_seen(word)) return in_digits(word);
    if (is_plain(word)) return std::string(word);
    std::string out = "'";
    for (const char c : word)
        out += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return out + "'";
}

template <class Words>
std::string joined(const Words& words) {
    std::string out;
    for (const auto& word : words) {
        if (!out.empty()) out += ' ';
        out += shell_word(word);
    }
    return out;
}

} // namespace

std::string command_line(std::initializer_list<std::string_view> words) {
    return joined(words);
}

std::string command_line(const std::vector<std::string>& words) {
    return joined(words);
}

std::string path_word(std::string_view path) {
    return (path.starts_with('-') && path != "-" ? "./" : "") + std::string(path);
}

} // namespace jarful::language
