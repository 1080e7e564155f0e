#include "engine/appraise/number_words.hpp"

namespace jarful::appraise {

using Tokens = std::span<const Token>;

namespace {

/// A number in words, a word for each part: "twenty-five", "a hundred and fifty", "deux cents".
class Reader {
  public:
    Reader(Tokens tokens, std::size_t at)
        : tokens_(tokens)
        , begin_(at)
        , at_(at) {}

    std::optional<WordNumber> run() {
        while (part()) {
            end_ = at_;
            if (means(tokens_, at_, Concept::sum)) {
                // "cent et un": what joins, if a smaller part follows.
                const double next = number(at_ + 1);
                if (last_ < 20 || next <= 0 || next >= last_ || next >= 100) break;
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
    [[nodiscard]] double number(std::size_t i) const {
        return i < tokens_.size() && tokens_[i].sort == Token::Sort::word ? tokens_[i].number : 0;
    }

    bool took(double size) {
        last_ = size;
        ++at_;
        return true;
    }

    /// One more word of the number; false where it is none, or does not fit behind the last.
    bool part() {
        const double n = number(at_);
        if (n < 1) return false;
        if (n == 100) {
            if (hundreds_ > 0 || rest_ > 19 || (last_ != 0 && last_ > 9 && rest_ == 0))
                return false;
            hundreds_ = (rest_ > 0 ? rest_ : 1) * 100;
            rest_ = 0;
            return took(n);
        }
        if (n == 1000) {
            if (thousands_ > 0) return false;
            thousands_ = (hundreds_ + rest_ > 0 ? hundreds_ + rest_ : 1) * 1000;
            hundreds_ = rest_ = 0;
            return took(n);
        }
        // Languages that count in twenties: four of them, and on to nineteen behind 60 and 80.
        const bool twenties = means(tokens_, at_, Concept::by_twenties) ||
                              (last_ >= 10 && means(tokens_, at_ - 1, Concept::by_twenties));
        if (n == 20 && rest_ == 4 && twenties) {
            rest_ = 80;
            return took(rest_);
        }
        const bool teens = n < 20 && n == static_cast<int>(n);
        const bool fits = rest_ == 0 || (teens && ((last_ >= 20 && n < 10) ||
                                                   (twenties && (last_ == 60 || last_ == 80)) ||
                                                   (twenties && last_ == 10 && n > 6 && n < 10)));
        if (!fits) return false;
        rest_ += n;
        return took(n);
    }

    Tokens tokens_;
    std::size_t begin_, at_;
    std::size_t end_ = begin_;
    double thousands_ = 0, hundreds_ = 0, rest_ = 0;
    double last_ = 0; ///< the size of the last part
};

} // namespace

std::optional<WordNumber> number_words_at(Tokens tokens, std::size_t at) {
    if (at >= tokens.size() || tokens[at].sort != Token::Sort::word || tokens[at].number < 1)
        return std::nullopt;
    const auto found = Reader(tokens, at).run();
    // An article alone.
    if (found && found->tokens == 1 && means(tokens, at, Concept::article)) return std::nullopt;
    return found;
}

} // namespace jarful::appraise
