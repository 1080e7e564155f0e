#pragma once

#include "engine/appraise/lexicon.hpp"

#include <span>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

/// Rows of patterns.json as text, taken apart. For the compiler of the tables, and for tests.
namespace jarful::appraise {

/// @throws std::runtime_error for a concept that there is not; `where` goes into its message
inline Concept concept_named(std::string_view name, const std::string& where) {
    for (unsigned i = 0; i < static_cast<unsigned>(Concept::last); ++i) {
        if (name_of(static_cast<Concept>(i)) == name) return static_cast<Concept>(i);
    }
    throw std::runtime_error(where + ": there is no concept \"" + std::string(name) + "\"");
}

inline std::vector<std::string> split(const std::string& text, char mark) {
    std::vector<std::string> out;
    std::stringstream in(text);
    for (std::string part; std::getline(in, part, mark);) {
        if (!part.empty()) out.push_back(part);
    }
    return out;
}

inline Concepts concepts_in(const std::string& names, const std::string& where) {
    Concepts out;
    for (const std::string& name : split(names, '|'))
        out.add(concept_named(name, where));
    return out;
}

/// A row in its parts, as docs/appraise.md has them: `a|b&c^d` what stands next, `x:` its name, `?`
/// where it may be missing, `~3` how far on, `!a` not between, `!<3:a` not before, `!>3:a` not
/// behind,
/// `+a` said, `-a` not said.
class Row {
  public:
    /// @throws std::runtime_error with the row, if it is none
    explicit Row(std::string text)
        : row_(std::move(text)) {
        for (const std::string& word : split(row_, ' '))
            take(word);
        if (!near_.empty() || gap_ != 0)
            throw std::runtime_error(row_ + ": what stands at the end belongs to no step");
    }

    [[nodiscard]] const std::vector<Concepts>& said() const { return said_; }
    [[nodiscard]] Concepts unsaid() const { return unsaid_; }
    [[nodiscard]] const std::vector<Step>& steps() const { return steps_; }
    /// The row, to be matched as long as this lives.
    [[nodiscard]] Pattern pattern() const {
        return {Event::mark, Concept::last, row_, said_, unsaid_, steps_};
    }

  private:
    /// "3:a|b", behind `!<` or `!>`.
    std::uint8_t near(const std::string& word, Concepts& what) const {
        const std::size_t colon = word.find(':');
        if (colon == std::string::npos || colon == 0)
            throw std::runtime_error(row_ + ": \"" + word + "\" does not say how near");
        what = concepts_in(word.substr(colon + 1), row_);
        return number(word.substr(0, colon));
    }
    [[nodiscard]] std::uint8_t number(const std::string& digits) const {
        const int n = std::stoi(digits);
        if (n < 0 || n > 127) throw std::runtime_error(row_ + ": " + digits + " is too far");
        return static_cast<std::uint8_t>(n);
    }

    void take(const std::string& word) {
        if (word.starts_with('+')) {
            said_.push_back(concepts_in(word.substr(1), row_));
        } else if (word.starts_with('-')) {
            unsaid_ = unsaid_ | concepts_in(word.substr(1), row_);
        } else if (word.starts_with('~')) {
            gap_ = number(word.substr(1));
        } else if (word.starts_with("!<")) {
            next_.before = near(word.substr(2), next_.not_before);
            near_ = word;
        } else if (word.starts_with("!>")) {
            if (steps_.empty())
                throw std::runtime_error(row_ + ": there is no step before " + word);
            steps_.back().behind = near(word.substr(2), steps_.back().not_behind);
        } else if (word.starts_with('!')) {
            next_.not_between = concepts_in(word.substr(1), row_);
            near_ = word;
        } else {
            step(word);
        }
    }

    void step(std::string word) {
        Step s = next_;
        s.gap = gap_;
        s.optional = word.ends_with('?');
        if (s.optional) word.pop_back();
        if (word.size() > 2 && word[1] == ':') {
            s.capture = word[0];
            word.erase(0, 2);
        }
        const auto part = [&](char mark) {
            const std::size_t at = word.rfind(mark);
            if (at == std::string::npos) return Concepts{};
            const std::string names = word.substr(at + 1);
            word.erase(at);
            return concepts_in(names, row_);
        };
        s.never = part('^');
        s.also = part('&');
        s.too = part('&');
        s.any = word == "*" ? anything() : concepts_in(word, row_);
        if (s.any.empty()) throw std::runtime_error(row_ + ": a step of no concept");
        if (s.optional && steps_.empty())
            throw std::runtime_error(row_ + ": the first step may not be missing");
        steps_.push_back(s);
        next_ = {};
        gap_ = 0;
        near_.clear();
    }

    static Concepts anything() {
        Concepts out;
        for (unsigned i = 0; i < static_cast<unsigned>(Concept::last); ++i)
            out.add(static_cast<Concept>(i));
        return out;
    }

    std::string row_, near_;
    std::vector<Concepts> said_;
    Concepts unsaid_;
    std::vector<Step> steps_;
    Step next_;
    std::uint8_t gap_ = 0;
};

} // namespace jarful::appraise
