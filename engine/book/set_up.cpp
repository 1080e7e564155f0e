#include "engine/book/set_up.hpp"

#include <algorithm>
#include <optional>

namespace jarful::book {

namespace {

constexpr std::string_view our_line = "*.jarful text diff=jarful\n";

/// The diff attribute that a line gives to *.jarful, if it does.
std::optional<std::string_view> driver_of(std::string_view line) {
    std::optional<std::string_view> driver;
    bool first = true;
    while (true) {
        const std::size_t from = line.find_first_not_of(" \t\r");
        if (from == std::string_view::npos) return driver;
        line.remove_prefix(from);
        const std::string_view word = line.substr(0, line.find_first_of(" \t\r"));
        line.remove_prefix(word.size());
        if (first && word != "*.jarful") return std::nullopt;
        if (word == "diff" || word == "-diff" || word == "!diff" || word.starts_with("diff=")) {
            driver = word;
        }
        first = false;
    }
}

} // namespace

Attributes with_attributes(std::string_view there) {
    Attributes out;
    out.text = there;
    std::string_view rest = there;
    std::string_view last; // the last line that says so is the one that counts
    while (!rest.empty()) {
        const std::string_view line = rest.substr(0, rest.find('\n'));
        if (const auto driver = driver_of(line)) last = *driver;
        rest.remove_prefix(std::min(rest.size(), line.size() + 1));
    }
    if (last == "diff=jarful") {
        out.same = true;
    } else if (!last.empty()) {
        out.same = true;
        out.driver = last;
    } else {
        if (!out.text.empty() && !out.text.ends_with('\n')) out.text += '\n';
        out.text += our_line;
    }
    return out;
}

std::vector<std::pair<std::string, std::string>> git_settings() {
    return {
        {"diff.jarful.command", "jarful compare"},
        // A recipe with faults has no canonical form: git then sees it as it is.
        {"diff.jarful.textconv",
         "tidy() { jarful tidy - <\"$1\" 2>/dev/null || cat \"$1\"; }; tidy"},
    };
}

std::string_view pre_commit_hook() {
    return R"hook(#!/bin/sh
# Written by `jarful book --set-up`. Stops a commit of recipes with faults, out of their range, or
# not in the canonical form. It looks at what is staged, not at what stands in the folder. To commit
# all the same: git commit --no-verify

if ! command -v jarful >/dev/null 2>&1; then
  echo "jarful is not on the PATH, so what is staged cannot be checked (.git/hooks/pre-commit)." >&2
  exit 1
fi

staged=$(git diff --cached --name-only -- '*.jarful') || exit 1
[ -n "$staged" ] || exit 0

# The whole book as it is staged, because a recipe needs its kitchen, into a folder of its own; the
# empty .git keeps the search for a kitchen inside it.
book=$(mktemp -d) || exit 1
trap 'rm -rf "$book"' EXIT
trap 'exit 1' HUP INT TERM
mkdir "$book/.git"

# An index of its own, with ordinary files alone: a link may lead anywhere, a submodule is no file,
# and what a sparse checkout leaves out is looked at like the rest.
git ls-files -s -z -- '*.jarful' | tr '\0\n' '\n\0' | sed -n '/^100[0-7]* [0-9a-f]* 0/p' |
  tr '\0\n' '\n\0' | GIT_INDEX_FILE="$book/.git/index" git update-index -z --index-info || exit 1
GIT_INDEX_FILE=$book/.git/index
export GIT_INDEX_FILE
git checkout-index -q -a --prefix="$book/" || exit 1

# What changed; all of it, where a change may concern recipes that did not.
wanted=$book/.git/wanted
if printf '%s\n' "$staged" | grep -Eq '(^|/)(kitchen|house)\.jarful"?$' ||
  git grep -q --cached -E '^[[:space:]]*based[[:space:]]' -- '*.jarful'; then
  git ls-files -z --cached >"$wanted"
else
  git diff --cached --name-only --diff-filter=ACMRT -z -- '*.jarful' >"$wanted"
fi
cd "$book" || exit 1
unset GIT_DIR GIT_INDEX_FILE GIT_WORK_TREE GIT_PREFIX

found=0
xargs -0 -r jarful check -- <"$wanted" >"$book/.git/said" 2>&1 || found=1
xargs -0 -r jarful tidy --check -- <"$wanted" >>"$book/.git/said" 2>&1 || found=1
if [ "$found" -ne 0 ]; then
  cat "$book/.git/said" >&2
  echo "Nothing was committed. Mend what is named above and stage it again." >&2
fi
exit "$found"
)hook";
}

} // namespace jarful::book
