#pragma once

#include "engine/language/diagnostic.hpp"
#include "engine/language/tree.hpp"

#include <optional>
#include <string>

/// The one canonical form of a file, and whether two files say the same.
namespace jarful::language {

/// Whether the header of a file says that it is the record of a batch, which is only ever added to.
[[nodiscard]] bool is_batch_record(const Source& source);

/// The file in its canonical form: columns aligned over neighbouring lines, one spelling of every
/// unit, expressions in the form that cannot be misread. Comments, single blank lines, the order of
/// lines and the lines that a text stands on are kept. docs/language.md has the rules.
///
/// Reading the result gives the same tree (see same_meaning), and tidying it changes nothing.
/// Empty, with findings, if the file has faults, is a batch's record, or would come to mean
/// something else.
[[nodiscard]] std::optional<std::string> tidy(Source source, Findings& findings);

/// One line of a file in canonical words, with single blanks where columns would be, and
/// every text in one piece.
[[nodiscard]] std::string tidy_line(const Document& document, const Line& line);

/// Whether two files have the same statements in the same order: places, comments, blank lines,
/// spelling of units and parentheses that do not change the grouping are passed over.
[[nodiscard]] bool same_meaning(const Document& a, const Document& b);

/// The same of two expressions.
[[nodiscard]] bool same_expression(const Expressions& a, NodeId x, const Expressions& b, NodeId y);

} // namespace jarful::language
