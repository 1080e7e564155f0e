#pragma once

#include "engine/sheet/formula.hpp"

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// Named cells that depend on each other. Change one, and only what depends on it is computed
/// again.
///
/// A sheet knows nothing of recipes: it is usable by itself (see Builder for making one).
///
/// Two kinds of cell behave differently where it matters, in how sure a result is. A cell that is
/// *weighed* is settled at the counter: lines that use it are computed from the number that was
/// displayed, and its own error does not travel into their formulas. Any other cell is a working
/// value and carries the errors of what it is made of.
namespace jarful::sheet {

struct Cell {
    std::string name;
    Formula formula; ///< empty for a cell that is only ever set
    Type type;
    bool weighed = false;
    language::Place place; ///< of the name
};

/// Why a value could not be computed.
struct ComputeFault {
    enum class Sort : std::uint8_t { division_by_zero, not_finite };
    Sort sort = Sort::not_finite;
    CellId cell = no_cell; ///< where it happened; no_cell for a formula that is not a cell's
    language::Place place; ///< the part of the expression that gave it
};

/// How much of a result's width one cause is answerable for.
struct Share {
    std::string label;
    double width = 0; ///< in base units of the result: |slope| times the cause's own width
};

class Sheet {
  public:
    /// Takes cells in their final order; `Cell` formulas refer to each other by index. The cells
    /// must not depend on each other in a circle (Builder sees to that).
    Sheet(std::vector<Cell> cells, std::vector<Unknown> unknowns);
    ~Sheet();
    Sheet(Sheet&&) noexcept;
    Sheet& operator=(Sheet&&) noexcept;
    Sheet(const Sheet&) = delete;
    Sheet& operator=(const Sheet&) = delete;

    [[nodiscard]] std::size_t size() const;
    [[nodiscard]] const Cell& cell(CellId id) const;
    [[nodiscard]] std::optional<CellId> find(std::string_view name) const;
    [[nodiscard]] std::span<const CellId> dependencies(CellId id) const;
    [[nodiscard]] std::span<const CellId> dependents(CellId id) const;
    [[nodiscard]] std::span<const Unknown> unknowns() const;

    /// Enters a value in base units in place of the cell's formula, with how far the truth may lie
    /// from it. What depends on the cell is computed again when it is next asked for.
    void set(CellId id, double value, units::Interval bounds);
    void set(CellId id, double value) { set(id, value, units::Interval(value)); }
    /// Goes back to the cell's formula.
    void clear(CellId id);
    [[nodiscard]] bool entered(CellId id) const;

    /// What the scale showed for a cell, and what the truth may be: used by interval() and
    /// enclose() for this cell, while value() and the cells that are computed from it keep the
    /// exact figure.
    void observe(CellId id, units::Interval truth);
    void forget_observations();

    /// The value in base units (0 or 1 for a truth), through muParser. Not finite only if fault()
    /// says why.
    [[nodiscard]] double value(CellId id);
    [[nodiscard]] double value(const Formula& formula);
    /// Why the last value() of this cell was not finite; empty if it was.
    [[nodiscard]] std::optional<ComputeFault> fault(CellId id);
    [[nodiscard]] std::optional<ComputeFault> fault(const Formula& formula);

    /// An interval that surely holds the truth, and no wider than the causes demand where the value
    /// rises or falls steadily with each of them.
    [[nodiscard]] units::Interval interval(CellId id);
    [[nodiscard]] units::Interval enclose(const Formula& formula);
    /// What makes a result unsure, widest first.
    [[nodiscard]] std::vector<Share> causes(const Formula& formula);

    /// How many cells have been evaluated so far: shows that nothing else is.
    [[nodiscard]] std::size_t evaluations() const;

  private:
    struct State;
    std::unique_ptr<State> state_;
};

} // namespace jarful::sheet
