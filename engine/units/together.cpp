#include "engine/units/together.hpp"

#include "engine/units/unit.hpp"

namespace jarful::units {

namespace {

bool digit(char c) {
    return c >= '0' && c <= '9';
}

bool ends_as_fraction(std::string_view word) {
    if (word.empty() || static_cast<unsigned char>(word.back()) < 0x80) return false;
    for (const std::string_view sign : {"½", "¼", "¾", "⅓", "⅔", "⅛", "⅜", "⅝", "⅞"})
        if (word.ends_with(sign)) return true;
    return false;
}

} // namespace

bool stay_together(std::string_view word, std::string_view next) {
    while (!word.empty() && (word.front() == '(' || word.front() == '"' || word.front() == '`' ||
                             word.front() == '-' || word.front() == '+'))
        word.remove_prefix(1);
    while (!next.empty() && std::string_view(".,;:!?)\"`").find(next.back()) != next.npos)
        next.remove_suffix(1);
    if (word.empty() || next.empty()) return false;
    const bool number = (digit(word.front()) && digit(word.back())) || ends_as_fraction(word);
    return number && is_unit_word(next);
}

} // namespace jarful::units
