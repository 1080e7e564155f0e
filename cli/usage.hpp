#pragma once

#include "cli/command.hpp"

#include <string_view>
#include <vector>

/// What a command's usage line says about its words, for completing them.
namespace jarful::cli {

/// One word of a usage line: RECIPE stands for something, `without` is typed as it is. Options and
/// the brackets are left out.
struct UsageWord {
    std::string_view text;
    bool literal = false;
    bool repeats = false;        ///< … follows
    bool needed = false;         ///< not in brackets
    std::string_view after = {}; ///< the literal that it belongs to, as NAME does in `without NAME`
};

[[nodiscard]] std::vector<UsageWord> words_of_usage(std::string_view usage);

/// What may come next.
/// @param typed the words that are no options, in order.
[[nodiscard]] std::vector<UsageWord> next_words(std::string_view usage,
                                                const std::vector<std::string_view>& typed);

} // namespace jarful::cli
