#pragma once

#include "engine/language/diagnostic.hpp"
#include "engine/language/tree.hpp"

/// Whether the days, times and temperatures of a method can be meant: the same for a recipe and for
/// the record of a batch.
namespace jarful::plan {

/// Each reports what cannot be meant, with its place: what is no time or temperature, a day more
/// than five years away, an earlier day behind a later one, a rest or an interval of nothing or of
/// more than five years, an end of `keep` more than fifty years away, a temperature outside of
/// -10 to 50 °C.
/// @return whether the line can be used.
[[nodiscard]] bool can_be_meant(const language::RestLine& line, language::Findings& findings);
[[nodiscard]] bool can_be_meant(const language::TendLine& line, language::Findings& findings);
[[nodiscard]] bool can_be_meant(const language::ReadyLine& line, language::Findings& findings);
[[nodiscard]] bool can_be_meant(const language::KeepLine& line, language::Findings& findings);

} // namespace jarful::plan
