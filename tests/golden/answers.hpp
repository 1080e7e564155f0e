#pragma once

#include "engine/language/diagnostic.hpp"
#include "engine/language/source.hpp"
#include "engine/units/interval.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>

/// What a room of the engine answers to many questions, written out whole: each file of
/// golden/answers/ holds the questions of one sort, and beside it stands what comes.
namespace jarful::test {

/// One sort of question, by the name of its file. `.lines` has a question on each line, `.blocks`
/// blank lines between them.
struct Sort {
    const char* name;
    std::string (*answer)(const std::string& question);
};

[[nodiscard]] std::span<const Sort> units_sorts();
[[nodiscard]] std::span<const Sort> larder_sorts();
[[nodiscard]] std::span<const Sort> brine_sorts();
[[nodiscard]] std::span<const Sort> kitchen_sorts();
[[nodiscard]] std::span<const Sort> sheet_sorts();
[[nodiscard]] std::span<const Sort> tend_sorts();
[[nodiscard]] std::span<const Sort> plan_sorts();

/// Twelve digits: more than anybody reads, fewer than differ from one machine to the next.
[[nodiscard]] std::string digits(double value);
/// "-" where there is none.
[[nodiscard]] std::string digits(const std::optional<double>& value);
/// "1..2", or one figure where both ends are the same.
[[nodiscard]] std::string digits(units::Interval bounds);
/// Every diagnostic: code, the text it points at, message and advice.
[[nodiscard]] std::string told(const language::Source& source, const language::Findings& findings);
/// The words of a question, apart by blanks; `apart` says by what else.
[[nodiscard]] std::vector<std::string> words(const std::string& question, char apart = ' ');

} // namespace jarful::test
