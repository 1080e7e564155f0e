#pragma once

#include "engine/language/tree.hpp"

#include <string>

/// Amounts and expressions in the form that `tidy` writes. For this room only.
namespace jarful::language {

/// The amount at a place: numbers as they were written, one blank before a unit, each unit in its
/// one spelling, `..` without blanks and `±` between blanks.
[[nodiscard]] std::string tidy_amount(const Source& source, Place place);

/// A bare unit in its one spelling.
[[nodiscard]] std::string tidy_unit(const units::CompoundUnit& unit);

/// Where an expression stands.
enum class Standing {
    alone, ///< nothing stands beside it: parentheses round the whole are dropped
    beside ///< words of the statement stand beside it: parentheses round the whole are kept
};

/// An expression with the same tree, in the form that cannot be misread: one blank round every
/// operator but `^`, parentheses as they were written (not round a lone name or number), and
/// parentheses added where a reader could group it in another way than the program does, as in
/// `a / b * c`, `-a^2`, `a and b or c`, or a division by an amount with a `/` in its unit.
[[nodiscard]] std::string tidy_expression(const Source& source, const Expressions& expressions,
                                          NodeId root, Standing standing = Standing::alone);

} // namespace jarful::language
