#pragma once

#include "engine/render/check_report.hpp"

#include <functional>
#include <optional>
#include <string>

/// Many files looked at side by side, and printed in their order.
namespace jarful::cli {

/// Looks at the file with a number. Each thread has one of its own, so that nothing is shared.
using LookAt = std::function<render::CheckedFile(std::size_t)>;

enum class CheckForm {
    screen, ///< what wants a hand, in groups, at the end
    full,   ///< each file by itself
    json
};

struct ManyChecked {
    render::CheckSummary sum;
    bool written = true; ///< whether the result got where it should
};

/// Looks at `count` files with as many threads as the machine has cores, writes what was found of
/// each to standard output, in order and as soon as it is known, and the sum
/// at the end. On a terminal nothing is written before all is known, and there is a line that says
/// how far it has come.
/// @param make_look called once in each thread.
[[nodiscard]] ManyChecked check_many(std::size_t count, const std::function<LookAt()>& make_look,
                                     CheckForm form);

} // namespace jarful::cli
