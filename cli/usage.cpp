#include "cli/usage.hpp"

#include <algorithm>
#include <cctype>

namespace jarful::cli {

namespace {

constexpr std::string_view marks = " []()|\"";
constexpr std::string_view dots = "…";

bool is_literal(std::string_view text) {
    return std::none_of(text.begin(), text.end(),
                        [](unsigned char c) { return std::isupper(c) != 0; });
}

/// "2" of "2 tbsp", which is one amount in two words.
bool is_number(std::string_view text) {
    return text.find_first_not_of("0123456789./") == std::string_view::npos;
}

/// The placeholders that stand by themselves: the first, the second … word of the command.
std::vector<UsageWord> in_a_row(const std::vector<UsageWord>& words) {
    std::vector<UsageWord> out;
    std::copy_if(words.begin(), words.end(), std::back_inserter(out),
                 [](const UsageWord& w) { return !w.literal && w.after.empty(); });
    return out;
}

/// What follows a literal; nothing if the word before is none.
std::vector<UsageWord> behind_literal(const std::vector<UsageWord>& words, std::string_view last) {
    std::vector<UsageWord> out;
    for (std::size_t i = 1; i < words.size(); ++i) {
        if (words[i - 1].literal && words[i - 1].text == last) out.push_back(words[i]);
    }
    return out;
}

} // namespace

std::vector<UsageWord> words_of_usage(std::string_view usage) {
    std::vector<UsageWord> out;
    int depth = 0;
    for (std::size_t at = 0; at < usage.size();) {
        const std::size_t end = std::min(usage.find_first_of(marks, at), usage.size());
        const std::string_view text = usage.substr(at, end - at);
        if (text == dots) {
            if (!out.empty()) out.back().repeats = true;
        } else if (!text.empty() && text.front() != '-' && text.front() != '@' &&
                   text != "OPTIONS") {
            UsageWord word{.text = text, .literal = is_literal(text), .needed = depth == 0};
            if (!word.literal && !out.empty() && out.back().literal) word.after = out.back().text;
            out.push_back(word);
        }
        if (end < usage.size() && usage[end] == '[') ++depth;
        if (end < usage.size() && usage[end] == ']') --depth;
        at = end + 1;
    }
    return out;
}

std::vector<UsageWord> next_words(std::string_view usage,
                                  const std::vector<std::string_view>& typed) {
    std::vector<std::string_view> before;
    std::copy_if(typed.begin(), typed.end(), std::back_inserter(before),
                 [](std::string_view word) { return !is_number(word); });
    const std::vector<UsageWord> words = words_of_usage(usage);
    if (!before.empty()) {
        auto wanted = behind_literal(words, before.back());
        if (!wanted.empty()) return wanted;
    }
    std::vector<UsageWord> out;
    const bool first_is_needed =
        !words.empty() && !words.front().literal && words.front().needed && before.empty();
    const std::vector<UsageWord> row = in_a_row(words);
    // Behind what may be left out the next does as well.
    for (std::size_t i = before.size(); i < row.size(); ++i) {
        out.push_back(row[i]);
        if (row[i].needed) break;
    }
    if (out.empty() && !row.empty() && row.back().repeats) out.push_back(row.back());
    if (first_is_needed) return out;
    for (const UsageWord& word : words) {
        const bool known = std::any_of(out.begin(), out.end(),
                                       [&](const UsageWord& w) { return w.text == word.text; });
        if (word.literal && !known) out.push_back(word);
    }
    return out;
}

} // namespace jarful::cli
