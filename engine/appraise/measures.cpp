#include "engine/appraise/measures.hpp"

#include <string>

namespace jarful::appraise {

namespace {

const Measure percent_row{"%", Measure::Sort::percent, {0.01}, false, false, false, nullptr, {}};

/// The measure of a token that is one by how it is written.
const Measure* written_measure(const Token& token) {
    for (const Lexicon& lexicon : lexicons()) {
        for (const WrittenMeasure& m : lexicon.measures) {
            if (m.text == token.text) return m.measure;
        }
    }
    return nullptr;
}

bool stop(const Token& token) {
    return token.sort == Token::Sort::mark && token.text == ".";
}

} // namespace

const Measure& percent_measure() {
    return percent_row;
}

std::optional<FoundMeasure> measure_at(std::span<const Token> tokens, std::size_t at,
                                       bool after_number) {
    if (at >= tokens.size() || tokens[at].sort == Token::Sort::number) return std::nullopt;
    const Token& first = tokens[at];
    const Measure* const written = written_measure(first);
    if (first.sort == Token::Sort::mark) {
        if (written == nullptr || !after_number) return std::nullopt;
        return FoundMeasure{written, 1, nullptr};
    }
    // Words up to four, the full stops between and behind them passed over.
    std::string joined;
    std::optional<FoundMeasure> found;
    bool only_behind_number = false; // by the first word
    std::size_t words = 0;
    for (std::size_t i = at; i < tokens.size() && words < 4; ++i) {
        const Token& token = tokens[i];
        if (stop(token)) continue;
        if (token.sort != Token::Sort::word) break;
        if (!joined.empty()) joined += ' ';
        joined += token.folded;
        ++words;
        if (joined.size() > 24) break;
        const MeasureName* const name = find_measure(joined);
        if (name == nullptr) continue;
        if (words == 1) only_behind_number = name->only_behind_number;
        std::size_t end = i + 1;
        if (end < tokens.size() && stop(tokens[end]) && tokens[end].glued) ++end;
        found = FoundMeasure{name->measure, end - at, name->tongue};
    }
    if (written != nullptr) {
        if (found && found->tokens > 2) return found; // "c. à s."
        if (!after_number) return std::nullopt;
        const bool stopped = at + 1 < tokens.size() && stop(tokens[at + 1]) && tokens[at + 1].glued;
        return FoundMeasure{written, stopped ? 2U : 1U, nullptr};
    }
    if (only_behind_number && !after_number) return std::nullopt;
    return found;
}

} // namespace jarful::appraise
