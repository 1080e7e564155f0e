#pragma once

#include "engine/language/tree.hpp"

#include <string>
#include <vector>

/// Statements as cells, for `tidy` to lay out. For this room only.
namespace jarful::language {

/// Which lines share their columns.
enum class Family : std::uint8_t {
    plain, ///< no columns: headers and remarks
    material,
    quantity,
    vessel, ///< `fill`, `headspace`, `topup`
    hold,
    doing,
    scale,
    jar,
    range
};

/// A piece of a line.
struct Cell {
    std::string text;
    int column = 0;       ///< among the columns of the family
    bool counts = true;   ///< whether it makes its column as wide as itself
    bool breaks = false;  ///< begins a line of its own
    bool goes_on = false; ///< a text that goes on with the one before: stands below its start
    bool joined = false;  ///< follows the one before after a single blank, outside the columns
};

/// Most columns that a family has.
inline constexpr int most_columns = 8;

struct Cells {
    Family family = Family::plain;
    std::vector<Cell> cells;
};

/// A column of a family.
struct Column {
    int gap = 3;    ///< blanks before it, at the least
    int limit = 40; ///< a wider cell sticks out, and does not move its neighbours
};
[[nodiscard]] const Column& column_of(Family family, int column);

/// The statement in canonical words. Texts keep the lines that they stand on.
[[nodiscard]] Cells cells_of(const Source& source, const Expressions& expressions,
                             const Line& line);

} // namespace jarful::language
