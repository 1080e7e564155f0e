#pragma once

#include "cli/command.hpp"
#include "engine/tend/record.hpp"

#include <optional>
#include <string>
#include <vector>

/// How a slip in a record is put right: by a line that is added.
namespace jarful::cli {

/// What was typed of it.
struct CorrectionWords {
    std::optional<std::string> corrects, withdraws; ///< an entry, in the words of a note
    std::optional<std::string> on;                  ///< its day, where several fit

    [[nodiscard]] bool any() const { return corrects || withdraws; }
};

/// The line that puts an entry right; empty after a complaint.
/// @param note what is right instead, with the day of the correction; its text is the reason, if
///   there is another value.
/// @param weighings likewise.
[[nodiscard]] std::optional<std::string>
correction_line(const CorrectionWords& typed, const tend::Note& note,
                const std::vector<tend::Weighed>& weighings, const tend::Record& record);

} // namespace jarful::cli
