#include "engine/appraise/tokens.hpp"

#include "engine/appraise/text.hpp"
#include "engine/larder/fold.hpp"

#include <boost/spirit/home/x3.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace jarful::appraise {

namespace {

namespace x3 = boost::spirit::x3;

using Iterator = std::string_view::const_iterator;

const auto digits = x3::rule<struct digits_tag, std::string>{"digits"} = +x3::char_('0', '9');
const auto point_number = x3::rule<struct point_tag, std::string>{"point_number"} =
    (digits >> *(x3::char_(".,") >> digits)) | (x3::char_('.') >> digits);
const auto stroke = x3::rule<struct stroke_tag, std::string>{"stroke"} =
    x3::lit('/') >> digits >> !(x3::char_('0', '9') | (x3::char_(".,") >> x3::char_('0', '9')));

double decimal(const std::string& text) {
    if (text.size() > 40) return std::nan("");
    double value = 0;
    double scale = 0;
    for (const char c : text) {
        if (c == '.') {
            scale = 1;
            continue;
        }
        value = value * 10 + (c - '0');
        scale *= 10;
    }
    return scale > 0 ? value / scale : value;
}

/// Digits with one sort of mark between groups of three and another before the decimals; NaN if
/// they are not written so.
double read(const std::string& text, char thousands, char point) {
    std::string plain;
    bool past_point = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (c == point) {
            if (past_point) return std::nan("");
            past_point = true;
            plain += '.';
        } else if (c == thousands) {
            const std::size_t next = text.find_first_of(".,", i + 1);
            const std::size_t group = (next == std::string::npos ? text.size() : next) - i - 1;
            const std::size_t before =
                i - (text.find_last_of(".,", i == 0 ? 0 : i - 1) == std::string::npos
                         ? 0
                         : text.find_last_of(".,", i - 1) + 1);
            if (past_point || group != 3 || before == 0 || before > 3) return std::nan("");
        } else {
            plain += c;
        }
    }
    return decimal(plain);
}

void read_number(std::string_view text, Iterator& at, Token& token) {
    const Iterator end = text.end();
    std::string number;
    const Iterator begin = at;
    if (!x3::parse(at, end, point_number, number)) return;
    token.whole = number.find_first_of(".,") == std::string::npos;
    token.value = read(number, ',', '.');
    token.comma_value = read(number, '.', ',');
    if (std::isnan(token.value)) token.value = token.comma_value;
    if (std::isnan(token.comma_value)) token.comma_value = token.value;
    token.ambiguous = token.value != token.comma_value;
    std::string below;
    if (token.whole && x3::parse(at, end, stroke, below)) {
        token.fraction = true;
        token.whole = false;
        token.numerator = token.value;
        token.denominator = decimal(below);
        token.value = token.comma_value = token.numerator / token.denominator;
    }
    token.text = text.substr(static_cast<std::size_t>(begin - text.begin()),
                             static_cast<std::size_t>(at - begin));
}

/// Gives a word what it means. @return whether a phrase may begin with it
bool understand(Token& token, Languages languages) {
    const Meaning m = meaning_of(token.folded, languages);
    token.is = m.concepts;
    token.number = m.number;
    const bool plain = std::all_of(token.text.begin(), token.text.end(),
                                   [](char c) { return static_cast<unsigned char>(c) < 0x80; });
    if (plain) return m.opens;
    // "à" is not "a".
    if (const Concepts spelled = meaning_as_spelled(lower(token.text), languages);
        !spelled.empty()) {
        token.is = spelled;
        token.number = 0;
    }
    return m.opens;
}

/// Gives the first of several words what they mean as a phrase.
void understand_phrase(std::span<Token> tokens, Languages languages) {
    constexpr std::size_t longest = 6;
    std::string words = tokens.front().folded;
    for (std::size_t i = 1; i < tokens.size() && i < longest; ++i) {
        if (tokens[i].text == "-" && tokens[i].glued) continue;
        if (tokens[i].sort != Token::Sort::word) return;
        words += ' ' + tokens[i].folded;
        const Concepts found = meaning_of_phrase(words, languages);
        if (found.empty()) continue;
        tokens.front().is = tokens.front().is | found;
        tokens.front().phrase = i + 1;
    }
}

bool letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           static_cast<unsigned char>(c) >= 0x80;
}

/// How many bytes the word takes that a text begins with.
std::size_t word_length(std::string_view text) {
    std::size_t length = 1;
    while (length < text.size() && !text.substr(length).starts_with("\xc2\xb0") &&
           (letter(text[length]) ||
            (text[length] == '\'' && length + 1 < text.size() && letter(text[length + 1])))) {
        ++length;
        // "d'ail" is two words.
        if (text[length - 1] == '\'' && length <= 3) return length - 1;
    }
    return length;
}

bool capital(char c) {
    return c >= 'A' && c <= 'Z';
}

/// Whether a word is one by itself, and not by how it begins or ends.
bool known_word(std::string_view folded, const Lexicon& lexicon) {
    return is_listed(folded, lexicon) || named(folded, &lexicon).material != nullptr ||
           find_measure(folded) != nullptr;
}

constexpr std::size_t shortest_word = 3, longest_word = 40; ///< that is taken apart

/// Where a measure has run together with a noun: "kgRotkohl"; its length, or 0.
std::size_t measure_before_capital(std::string_view word) {
    if (word.size() > longest_word) return 0;
    for (std::size_t i = 1; i + 2 < word.size(); ++i) {
        if (capital(word[i]) && !capital(word[i + 1]) &&
            find_measure(larder::fold(word.substr(0, i))) != nullptr)
            return i;
    }
    return 0;
}

/// Where two words have run together whose blank is lost: "cabbageshredded"; the length of the
/// first, or 0. The second may be several again.
std::size_t seam_in(std::string_view word, const Lexicon& lexicon, int deep = 0) {
    if (word.size() <= 2 * shortest_word || word.size() > longest_word || deep > 3) return 0;
    for (std::size_t i = word.size() - shortest_word; i >= shortest_word; --i) {
        if (!known_word(word.substr(0, i), lexicon)) continue;
        const std::string_view rest = word.substr(i);
        if (known_word(rest, lexicon) || seam_in(rest, lexicon, deep + 1) > 0) return i;
    }
    return 0;
}

/// A word at the beginning of a text, shorter than it stands there if a blank is lost.
/// @return whether a phrase may begin with it
bool read_word(std::string_view text, Languages languages, Token& token) {
    if (const std::size_t seam = measure_before_capital(text)) text = text.substr(0, seam);
    token.sort = Token::Sort::word;
    token.text = text;
    token.folded = larder::fold(text);
    const bool opens = understand(token, languages);
    const Lexicon& lexicon = languages.only == nullptr ? *base_tongue() : *languages.only;
    if (!lexicon.thorough || capital(text.front()) || text.size() <= 2 * shortest_word ||
        token.number != 0 || token.folded.size() != text.size() ||
        known_word(token.folded, lexicon))
        return opens;
    const std::size_t seam = seam_in(token.folded, lexicon);
    if (seam == 0) return opens;
    token.text = text.substr(0, seam);
    token.folded = larder::fold(token.text);
    return understand(token, languages);
}

} // namespace

std::vector<Token> tokens_of(std::string_view line, Languages languages) {
    std::vector<Token> out;
    constexpr std::size_t letters = 5; // of a usual word, with its blank
    out.reserve(line.size() / letters + 4);
    std::vector<std::size_t> openings; ///< where a phrase may begin
    Iterator at = line.begin();
    bool glued = false;
    const auto rest = [&] { return line.substr(static_cast<std::size_t>(at - line.begin())); };
    while (at != line.end() && out.size() < 4000) {
        if (*at == ' ' || *at == '\t') {
            ++at;
            glued = false;
            continue;
        }
        Token token;
        token.glued = glued;
        const bool digit = *at >= '0' && *at <= '9';
        const bool bare_point =
            *at == '.' && at + 1 != line.end() && at[1] >= '0' && at[1] <= '9' && !glued;
        if (digit || bare_point) {
            token.sort = Token::Sort::number;
            read_number(line, at, token);
            out.push_back(std::move(token));
            glued = true;
            continue;
        }
        const std::string_view here = rest();
        std::size_t length = 1;
        if (here.starts_with("\xc2\xb0")) {
            length = 2;
        } else if (letter(*at)) {
            if (read_word(here.substr(0, word_length(here)), languages, token))
                openings.push_back(out.size());
            length = token.text.size();
        }
        token.text = here.substr(0, length);
        at += static_cast<std::ptrdiff_t>(length);
        out.push_back(std::move(token));
        glued = true;
    }
    for (const std::size_t i : openings)
        understand_phrase(std::span(out).subspan(i), languages);
    return out;
}

bool means(std::span<const Token> tokens, std::size_t at, Concepts some) {
    return at < tokens.size() && tokens[at].is.any(some);
}

bool speaks_of(std::span<const Token> tokens, Concepts some) {
    return std::any_of(tokens.begin(), tokens.end(),
                       [&](const Token& t) { return t.is.any(some); });
}

std::size_t words_taken(std::span<const Token> tokens, std::size_t at) {
    return at < tokens.size() ? std::max<std::size_t>(tokens[at].phrase, 1) : 1;
}

bool is_mark(std::span<const Token> tokens, std::size_t at, std::string_view mark) {
    return at < tokens.size() && tokens[at].sort == Token::Sort::mark && tokens[at].text == mark;
}

bool has_number(std::span<const Token> tokens) {
    return std::any_of(tokens.begin(), tokens.end(),
                       [](const Token& t) { return t.sort == Token::Sort::number; });
}

bool is_word(std::span<const Token> tokens, std::size_t at, std::string_view folded) {
    return at < tokens.size() && tokens[at].sort == Token::Sort::word &&
           tokens[at].folded == folded;
}

bool any_word(std::span<const Token> tokens, std::size_t at,
              std::initializer_list<std::string_view> words) {
    return std::any_of(words.begin(), words.end(),
                       [&](std::string_view w) { return is_word(tokens, at, w); });
}

bool has_word(std::span<const Token> tokens, std::initializer_list<std::string_view> words) {
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        if (any_word(tokens, i, words)) return true;
    }
    return false;
}

std::string text_of(std::span<const Token> tokens) {
    if (tokens.empty()) return {};
    const char* begin = tokens.front().text.data();
    const char* end = tokens.back().text.data() + tokens.back().text.size();
    return {begin, static_cast<std::size_t>(end - begin)};
}

} // namespace jarful::appraise
