#pragma once

#include <string>
#include <string_view>

namespace jarful::render {

/// What has to change in `before` to make it `after`, as a unified diff (POSIX.1-2017, diff -u)
/// with three lines of context, which `patch` and `git apply` take. Empty if nothing has.
/// @param name of the file, for the two lines above; shown below `a/` and `b/`.
[[nodiscard]] std::string unified_diff(std::string_view before, std::string_view after,
                                       std::string_view name);

} // namespace jarful::render
