#pragma once

#include "engine/plan/weigh_out.hpp"
#include "engine/render/page.hpp"

#include <string>
#include <string_view>
#include <vector>

/// Figures and method lines in words. For this room.
namespace jarful::render {

/// "2.2" for 2.2: two decimals at most, more where it would be 0.
[[nodiscard]] std::string percent(double figure);
/// "2.17 to 2.23 %", outward to two decimals; one figure if both are the same; "at least 2.1 %"
/// where it has no upper bound.
[[nodiscard]] std::string percents(units::Interval bounds);
/// "2 to 3 %", "at least 2 %", "at most 3 %", or "no range".
[[nodiscard]] std::string range_words(const std::optional<plan::RangeEnd>& low,
                                      const std::optional<plan::RangeEnd>& high);

/// A mass in the reader's units: "1.84 kg", "4 lb 0.9 oz", or one with the other in parentheses.
[[nodiscard]] std::string mass(double grams, Units units);
/// A reading in what its scale does not show: pounds and ounces where the reader wants them, grams
/// for a scale that reads ounces unless the reader wants none; empty if there is nothing to add.
[[nodiscard]] std::string beside(double grams, double step_g, Units units);
/// A reading as its scale shows it, with that in parentheses: "42.0 g (1.5 oz)".
[[nodiscard]] std::string reading_words(double grams, double step_g, Units units);
/// A volume likewise.
[[nodiscard]] std::string volume(double ml, Units units);
/// A little by the spoon: "0.6 mL (1/8 tsp)", with the nearest fraction of a US teaspoon, or that
/// alone.
[[nodiscard]] std::string by_spoon(double ml, Units units);
/// A mass that a scale of this step has shown: as a reading for who weighs in ounces, otherwise as
/// mass() says it.
[[nodiscard]] std::string weighed_mass(double grams, double step_g, Units units);
/// "1838.5 to 1841.5 g", "4 lb 0.8 oz to 4 lb 1.1 oz": see units::print_reading_bounds().
[[nodiscard]] std::string reading_between(units::Interval truth, double step_g, Units units);
/// "6.1 to 9.4 g": an interval of masses in the reader's units.
[[nodiscard]] std::string masses(units::Interval bounds, Units units);
/// An interval of any unit that a check uses ("%", "g", "mL", …).
[[nodiscard]] std::string figures(units::Interval bounds, std::string_view unit);

/// A text with its values put in.
[[nodiscard]] std::string plain(const plan::RichText& text, Units units);
/// A line of the method as a sentence.
[[nodiscard]] std::string sentence(const plan::MethodLine& line, Units units);
/// What a task is, as a call: "Burp: let the gas out".
[[nodiscard]] std::string task_words(std::string_view task);
/// "every day", "every 12 h", "every 3 days".
[[nodiscard]] std::string how_often(double seconds);
/// Whether it is numbered among the steps; the others are looked after later.
[[nodiscard]] bool is_step(const plan::MethodLine& line);

/// On what a range stands, in words that may follow "inside": "the published range", "the range of
/// common practice, no published figure", …
[[nodiscard]] std::string range_standing(const std::optional<plan::RangeEnd>& low,
                                         const std::optional<plan::RangeEnd>& high);
/// "inside the published range", "BELOW the published range", "undecided", …
[[nodiscard]] std::string verdict_words(const plan::SaltJudgement& salt);

/// "1 file", "3 files".
[[nodiscard]] std::string number_of(int number, const std::string& one, const std::string& many);

/// Each caution in its one short sentence, for a screen that has no room for more.
[[nodiscard]] std::string cautions_in_short(const std::vector<plan::Warning>& cautions);

/// Whether an end of the range is the house's own, whose reason is shown with every verdict.
[[nodiscard]] bool of_the_house(const plan::SaltJudgement& salt);

/// A text as a sentence: with a stop at the end, if it has none.
[[nodiscard]] std::string stopped(std::string_view text);
/// A text with its first letter, where that is ASCII, as a capital; "pH" and its like stay.
[[nodiscard]] std::string capital(std::string_view text);
/// Text as it stands in Markdown: what would be markup there stands for itself.
[[nodiscard]] std::string markdown(std::string_view text);
/// "a", "a and b", "a, b and c".
[[nodiscard]] std::string listed(const std::vector<std::string>& parts);

} // namespace jarful::render
