#include "engine/larder/fold.hpp"

namespace jarful::larder {

namespace {

/// Plain letter for the second byte of a two-byte letter that begins with 0xC3, or 0 for none.
char plain_letter(unsigned char second) {
    // The capitals stand 0x20 below the small letters, except for the two signs × and ÷.
    if (second >= 0x80 && second <= 0x9E && second != 0x97) {
        second = static_cast<unsigned char>(second + 0x20);
    }
    if (second >= 0xA0 && second <= 0xA5) return 'a';
    if (second == 0xA7) return 'c';
    if (second >= 0xA8 && second <= 0xAB) return 'e';
    if (second >= 0xAC && second <= 0xAF) return 'i';
    if (second == 0xB1) return 'n';
    if ((second >= 0xB2 && second <= 0xB6) || second == 0xB8) return 'o';
    if (second >= 0xB9 && second <= 0xBC) return 'u';
    if (second == 0xBD || second == 0xBF) return 'y';
    return 0;
}

/// Plain letters for one of U+0100 to U+017F; empty for another second byte.
std::string_view plain_extended(unsigned char lead, unsigned char second) {
    static constexpr std::string_view plain =
        "aaaaaaccccccccddddeeeeeeeeeegggggggghhhhiiiiiiiiii..jjkkk"
        "llllllllllnnnnnnnnnoooooo..rrrrrrssssssssttttttuuuuuuuu"
        "uuuuwwyyyzzzzzzs";
    static_assert(plain.size() == 128);
    if ((lead != 0xC4 && lead != 0xC5) || (second & 0xC0U) != 0x80) return {};
    const std::string_view one = plain.substr((lead == 0xC5 ? 64U : 0U) + (second & 0x3FU), 1);
    // The two that are pairs of letters.
    return one != "." ? one : lead == 0xC4 ? "ij" : "oe";
}

bool letter_or_digit(char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
}

std::string singular_word(std::string_view word) {
    const std::size_t n = word.size();
    const auto cut = [&](std::size_t letters) { return std::string(word.substr(0, n - letters)); };
    if (n <= 3 || word.back() != 's') return std::string(word);
    if (word == "leaves") return "leaf";
    if (word == "halves") return "half";
    if (word == "chillies" || word == "chillis") return "chilli";
    if (word == "chilies") return "chili";
    if (word.ends_with("ss") || word.ends_with("us") || word.ends_with("is")) {
        return std::string(word);
    }
    if (n > 4 && word.ends_with("ies")) return cut(3) + "y";
    for (const std::string_view ending : {"oes", "shes", "ches", "xes", "sses", "zes"}) {
        if (n > 5 && word.ends_with(ending)) return cut(2);
    }
    return cut(1);
}

} // namespace

std::string fold(std::string_view name) {
    std::string out;
    out.reserve(name.size());
    const auto blank = [&] {
        if (!out.empty() && out.back() != ' ') out.push_back(' ');
    };
    for (std::size_t i = 0; i < name.size(); ++i) {
        char c = name[i];
        const auto byte = static_cast<unsigned char>(c);
        if (byte == 0xC3 && i + 1 < name.size()) {
            if (const char plain = plain_letter(static_cast<unsigned char>(name[i + 1]))) {
                out.push_back(plain);
                ++i;
                continue;
            }
        }
        if (i + 1 < name.size()) {
            const std::string_view plain =
                plain_extended(byte, static_cast<unsigned char>(name[i + 1]));
            if (!plain.empty()) {
                out += plain;
                ++i;
                continue;
            }
        }
        if (name.substr(i).starts_with("\u2019")) { // a typographer's apostrophe
            i += 2;
            continue;
        }
        if (name.substr(i).starts_with("\u00A0")) { // a blank that does not break
            blank();
            ++i;
            continue;
        }
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
        if (c == '\'') continue;
        if (letter_or_digit(c) || byte >= 0x80) {
            out.push_back(c);
        } else {
            blank();
        }
    }
    if (!out.empty() && out.back() == ' ') out.pop_back();
    return out;
}

std::vector<std::string_view> words_of(std::string_view folded) {
    std::vector<std::string_view> words;
    while (!folded.empty()) {
        const std::size_t end = folded.find(' ');
        words.push_back(folded.substr(0, end));
        if (end == std::string_view::npos) break;
        folded.remove_prefix(end + 1);
    }
    return words;
}

std::string singular(std::string_view folded) {
    std::string out;
    for (const std::string_view word : words_of(folded)) {
        if (!out.empty()) out.push_back(' ');
        out += singular_word(word);
    }
    return out;
}

} // namespace jarful::larder
