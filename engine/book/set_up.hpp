#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// What makes git and a book work together, as text. Nothing here touches a file.
namespace jarful::book {

/// A `.gitattributes` with what a book needs, and nothing of what is there changed.
struct Attributes {
    std::string text;   ///< the whole file
    bool same = false;  ///< nothing had to be added
    std::string driver; ///< what the file already says for *.jarful in place of ours, if it does
};
/// @param there the file as it is; empty if there is none.
[[nodiscard]] Attributes with_attributes(std::string_view there);

/// The settings of git that the attributes call upon: name and value. `git diff` then shows what a
/// change means in the jar; `git log -p` and `git blame` see the canonical form.
[[nodiscard]] std::vector<std::pair<std::string, std::string>> git_settings();

/// The pre-commit hook: checks what is staged, and nothing else, before git commits it.
[[nodiscard]] std::string_view pre_commit_hook();

} // namespace jarful::book
