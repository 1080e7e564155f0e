#pragma once

#include "engine/larder/larder.hpp"
#include "engine/larder/timing.hpp"
#include "engine/larder/word_table.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

/// The constant tables that the data files are compiled into. For this room only.
namespace jarful::larder::tables {

/// The names of one language besides the program's own, looked up as they stand.
struct ForeignNames {
    std::string_view tag; ///< "de"
    PackedTable names;
};

/// Density of brine in kg per cubic metre: rows are temperatures, columns salt in percent.
struct BrineGrid {
    std::span<const double> celsius;
    std::span<const double> percent;
    std::span<const double> density; ///< row by row
    double error = 0;                ///< of the table and of interpolating in it, either way
    Status status = Status::published;
    Text source;
};

extern const std::span<const Material> materials;
extern const std::span<const Text> families; ///< of each material; empty for most
/// Folded names, each with the place of what it stands for in `materials`; `kind_names` likewise.
extern const PackedTable material_names;
extern const std::span<const ForeignNames> foreign_names;
extern const std::span<const RangeRow> range_rows;
extern const std::span<const Kind> kinds;
extern const PackedTable kind_names;
extern const std::span<const Caution> cautions;
extern const std::span<const TimingRow> timing_rows;
extern const BrineGrid brine;

} // namespace jarful::larder::tables
