#include "engine/appraise/number_words.hpp"

#include <array>
#include <string_view>

namespace jarful::appraise {

using Tokens = std::span<const Token>;

namespace {

struct Entry {
    std::string_view word;
    double value;
};

template <std::size_t count>
double look_up(const std::array<Entry, count>& table, std::string_view word) {
    for (const Entry& entry : table) {
        if (entry.word == word) return entry.value;
    }
    return 0;
}

// ---- A word for each part ----

constexpr std::array<Entry, 37> parts{{
    {"one", 1},       {"two", 2},        {"three", 3},     {"four", 4},      {"five", 5},
    {"six", 6},       {"seven", 7},      {"eight", 8},     {"nine", 9},      {"ten", 10},
    {"eleven", 11},   {"twelve", 12},    {"thirteen", 13}, {"fourteen", 14}, {"fifteen", 15},
    {"sixteen", 16},  {"seventeen", 17}, {"eighteen", 18}, {"nineteen", 19}, {"deux", 2},
    {"trois", 3},     {"quatre", 4},     {"cinq", 5},      {"sept", 7},      {"huit", 8},
    {"neuf", 9},      {"dix", 10},       {"onze", 11},     {"douze", 12},    {"treize", 13},
    {"quatorze", 14}, {"quinze", 15},    {"seize", 16},    {"un", 1},        {"une", 1},
    {"septante", 70}, {"nonante", 90},
}};

constexpr std::array<Entry, 15> tens{{
    {"twenty", 20},
    {"thirty", 30},
    {"forty", 40},
    {"fourty", 40},
    {"fifty", 50},
    {"sixty", 60},
    {"seventy", 70},
    {"eighty", 80},
    {"ninety", 90},
    {"vingt", 20},
    {"vingts", 20},
    {"trente", 30},
    {"quarante", 40},
    {"cinquante", 50},
    {"soixante", 60},
}};

class Reader {
  public:
    Reader(Tokens tokens, std::size_t at)
        : tokens_(tokens)
        , begin_(at)
        , at_(at) {}

    std::optional<WordNumber> run() {
        while (part()) {
            end_ = at_;
            // "twenty-five", "cent et un", "a hundred and fifty": what joins, if a part follows.
            if (at_ < tokens_.size() && (word(at_) == "and" || word(at_) == "et")) {
                if (last_ < 20 || tens_of(at_ + 1) + part_of(at_ + 1) == 0 ||
                    (tens_of(at_ + 1) + part_of(at_ + 1) >= last_))
                    break;
                ++at_;
            } else if (at_ + 1 < tokens_.size() && tokens_[at_].text == "-" && tokens_[at_].glued) {
                ++at_;
            }
        }
        const double value = thousands_ + hundreds_ + rest_;
        if (end_ == begin_ || value <= 0) return std::nullopt;
        return WordNumber{value, end_ - begin_};
    }

  private:
    [[nodiscard]] std::string_view word(std::size_t i) const {
        return i < tokens_.size() && tokens_[i].sort == Token::Sort::word
                   ? std::string_view(tokens_[i].folded)
                   : std::string_view();
    }
    [[nodiscard]] double tens_of(std::size_t i) const { return look_up(tens, word(i)); }
    [[nodiscard]] double part_of(std::size_t i) const { return look_up(parts, word(i)); }

    bool took(double size) {
        last_ = size;
        ++at_;
        return true;
    }

    /// One more word of the number; false where it is none, or does not fit behind the last.
    bool part() {
        const std::string_view w = word(at_);
        if (w.empty()) return false;
        if (w == "hundred" || w == "cent" || w == "cents" || w == "hundert") {
            if (hundreds_ > 0 || rest_ > 19 || (last_ != 0 && last_ > 9 && rest_ == 0))
                return false;
            hundreds_ = (rest_ > 0 ? rest_ : 1) * 100;
            rest_ = 0;
            return took(100);
        }
        if (w == "thousand" || w == "mille" || w == "tausend") {
            if (thousands_ > 0) return false;
            thousands_ = (hundreds_ + rest_ > 0 ? hundreds_ + rest_ : 1) * 1000;
            hundreds_ = rest_ = 0;
            return took(1000);
        }
        if (const double t = tens_of(at_); t > 0) {
            // "quatre-vingts" is four times twenty.
            if (rest_ == 4 && t == 20 && word(at_ - 1) != "four" && w.starts_with("vingt")) {
                rest_ = 80;
                return took(80);
            }
            if (rest_ > 0) return false;
            rest_ = t;
            return took(t);
        }
        const double p = part_of(at_);
        if (p == 0) return false;
        // "soixante-quinze" and "quatre-vingt-dix" count on to nineteen.
        const bool fits = rest_ == 0 || (last_ >= 20 && p < 10) ||
                          ((last_ == 60 || last_ == 80) && p < 20) || (rest_ == 10 && p < 10);
        if (!fits) return false;
        // "dix-sept"
        if (rest_ == 10 && (word(at_ - 1) == "ten" || p < 7) && last_ == 10) return false;
        rest_ += p;
        return took(p);
    }

    Tokens tokens_;
    std::size_t begin_, at_;
    std::size_t end_ = begin_;
    double thousands_ = 0, hundreds_ = 0, rest_ = 0;
    double last_ = 0; ///< the size of the last part
};

// ---- All in one word ----

constexpr std::array<Entry, 25> joined_parts{{
    {"ein", 1},       {"eins", 1},      {"zwei", 2},      {"zwo", 2},        {"drei", 3},
    {"vier", 4},      {"funf", 5},      {"sechs", 6},     {"sieben", 7},     {"acht", 8},
    {"neun", 9},      {"zehn", 10},     {"elf", 11},      {"zwolf", 12},     {"dreizehn", 13},
    {"vierzehn", 14}, {"funfzehn", 15}, {"sechzehn", 16}, {"siebzehn", 17},  {"achtzehn", 18},
    {"neunzehn", 19}, {"fuenf", 5},     {"zwoelf", 12},   {"fuenfzehn", 15}, {"anderthalb", 1.5},
}};

constexpr std::array<Entry, 10> joined_tens{{
    {"zwanzig", 20},
    {"dreissig", 30},
    {"drei\xc3\x9f"
     "ig",
     30},
    {"vierzig", 40},
    {"funfzig", 50},
    {"fuenfzig", 50},
    {"sechzig", 60},
    {"siebzig", 70},
    {"achtzig", 80},
    {"neunzig", 90},
}};

/// Below a hundred; 0 if it is none.
double joined_small(std::string_view word) {
    if (const double part = look_up(joined_parts, word); part > 0) return part;
    if (const double ten = look_up(joined_tens, word); ten > 0) return ten;
    const std::size_t middle = word.find("und");
    if (middle == std::string_view::npos || middle == 0) return 0;
    const double part = look_up(joined_parts, word.substr(0, middle));
    const double ten = look_up(joined_tens, word.substr(middle + 3));
    return part > 0 && part < 10 && ten > 0 ? part + ten : 0;
}

double joined_number(std::string_view word) {
    if (word.ends_with("einhalb") && word.size() > 7) {
        const double whole = joined_small(word.substr(0, word.size() - 7));
        return whole > 0 ? whole + 0.5 : 0;
    }
    double sum = 0;
    for (const auto& [name, size] : {Entry{"tausend", 1000}, Entry{"hundert", 100}}) {
        const std::size_t place = word.find(name);
        if (place == std::string_view::npos) continue;
        const double many = place == 0 ? 1 : joined_small(word.substr(0, place));
        if (many <= 0) return 0;
        sum += many * size;
        word.remove_prefix(place + name.size());
        if (word.starts_with("und")) word.remove_prefix(3);
        if (word.empty()) return sum;
    }
    const double rest = joined_small(word);
    return rest > 0 ? sum + rest : 0;
}

} // namespace

std::optional<WordNumber> number_words_at(Tokens tokens, std::size_t at) {
    if (at >= tokens.size() || tokens[at].sort != Token::Sort::word) return std::nullopt;
    std::optional<WordNumber> found = Reader(tokens, at).run();
    // An article alone.
    if (found && found->tokens == 1 && found->value == 1 && tokens[at].folded != "one")
        found.reset();
    if (found) return found;
    const double value = joined_number(tokens[at].folded);
    if (value <= 0 || tokens[at].folded == "ein") return std::nullopt;
    return WordNumber{value, 1};
}

} // namespace jarful::appraise
