#pragma once

#include <string_view>

/// What the words of the language mean, in a sentence each; docs/language.md says it at length.
/// Private to the room.
namespace jarful::assist {

/// What a line that begins with this word says; empty if none begins so.
[[nodiscard]] std::string_view statement_meaning(std::string_view word);
/// What a word means further on in a line: `of`, `as`, `optional`, a function, a role, a task;
/// empty if it has no meaning of its own there.
[[nodiscard]] std::string_view word_meaning(std::string_view word);

/// How a function is called, with its parameters in their order.
struct FunctionForm {
    std::string_view name;
    std::string_view form;          ///< "cover(PRODUCE, PACKED)"
    std::string_view parameters[2]; ///< as they stand in the form; the last may stand again
    std::string_view about;
};
/// Null if there is no such function.
[[nodiscard]] const FunctionForm* function_form(std::string_view name);

} // namespace jarful::assist
