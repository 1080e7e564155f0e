#pragma once

#include "engine/appraise/appraise.hpp"
#include "engine/render/page.hpp"

#include <string>
#include <vector>

/// What an appraised recipe says in words, wherever it stands. For this room.
namespace jarful::render {

/// "1.8 to 2.3 kg": with no more digits than such a figure can carry.
[[nodiscard]] std::string appraised_mass(units::Interval grams, Units units);
/// How a line was understood: "fine sea salt, 36 to 42 g".
[[nodiscard]] std::string reading_words(const appraise::Line& line, Units units);
/// Whether a line is shown by itself; the others are only counted.
[[nodiscard]] bool is_shown(const appraise::Line& line);
/// How many lines of method and of remarks were read; empty if there are none. A sentence.
[[nodiscard]] std::string other_lines(const appraise::Appraisal& appraisal);

/// What the recipe comes to: what, and how much.
struct AppraisedSum {
    std::string what, figure;
};
[[nodiscard]] std::vector<AppraisedSum> appraised_sums(const appraise::Appraisal& appraisal,
                                                       Units units);

/// "inside the published range", "BELOW the published range", "UNDECIDED", "NOT A FERMENT".
[[nodiscard]] std::string verdict_words(const appraise::Appraisal& appraisal);
/// Of how many ways to read an undecided list what comes; empty if that cannot be told. A sentence.
[[nodiscard]] std::string lean_words(const appraise::Appraisal& appraisal);
/// As what it was judged, and why; empty if that could not be told. A sentence.
[[nodiscard]] std::string judged_as(const appraise::Appraisal& appraisal);
/// On what the ends of the range rest. Sentences.
[[nodiscard]] std::vector<std::string> appraised_range(const appraise::Appraisal& appraisal);
/// The grams of salt that are inside for this list, and what it has; empty if they cannot be told.
[[nodiscard]] std::string right_for_list_words(const appraise::Appraisal& appraisal, Units units);
/// How much salt would be right; empty if that cannot be told. A sentence.
[[nodiscard]] std::string right_words(const appraise::Appraisal& appraisal);

} // namespace jarful::render
