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
/// value and carries the errors of what it is made of; so does one that is *expected* and will be
/// weighed later.
///
/// The first value of a cell comes from muParser, which reads the formula anew: about 5 us. A
/// parser kept for each cell would take some 10 kB of memory, so when a cell has to be computed
/// again, its steps are walked instead (evaluate.hpp), which gives the same number to the last bit
/// and takes less time than the kept parser would.
namespace jarful::sheet {

struct Cell {
    std::string name;
    Formula formula; ///< empty for a cell that is only ever set
    Type type;
    bool weighed = false;
    /// Weighed, but not by now: until it is observed or entered, it is as unsure as what it is made
    /// of, and as what that really weighs.
    bool expected = false;
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
    /// In base units of the result: the most that this cause alone can move it, which is the
    /// steepest slope times the cause's own width, and never more than the width of the result.
    double width = 0;
};

/// Values to try for a cell, or for an unknown, in place of its own.
struct Trial {
    enum class What : std::uint8_t { cell, unknown };
    What what = What::cell;
    std::uint32_t id = 0; ///< CellId or UnknownId
    std::span<const double> values;
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

    /// Takes first values from walking the steps, too: the same numbers without a parser, for one
    /// who asks each cell once, of many sheets.
    void do_without_parser();

    [[nodiscard]] std::size_t size() const;
    [[nodiscard]] const Cell& cell(CellId id) const;
    [[nodiscard]] std::optional<CellId> find(std::string_view name) const;
    [[nodiscard]] std::span<const CellId> dependencies(CellId id) const;
    [[nodiscard]] std::span<const CellId> dependents(CellId id) const;
    [[nodiscard]] std::span<const Unknown> unknowns() const;

    /// Enters a value in base units in place of the cell's formula, with how far the truth may lie
    /// from it. What depends on the cell is computed again when it is next asked for; if the cell
    /// was entered so before, nothing is.
    void set(CellId id, double value, units::Interval bounds);
    void set(CellId id, double value) { set(id, value, units::Interval(value)); }
    /// Goes back to the cell's formula.
    void clear(CellId id);
    [[nodiscard]] bool entered(CellId id) const;

    /// What the scale showed for a cell, and what the truth may be: used by interval() and
    /// enclose() for this cell, while value() and the cells that are computed from it keep the
    /// exact figure.
    void observe(CellId id, units::Interval truth);
    /// What was observed of a cell; empty if nothing was.
    [[nodiscard]] std::optional<units::Interval> observed(CellId id) const;
    /// As if the cell had never been observed.
    void forget_observation(CellId id);
    void forget_observations();

    /// The value in base units (0 or 1 for a truth). Not finite only if fault() says why; NaN for a
    /// cell without a formula that has not been set.
    [[nodiscard]] double value(CellId id);
    [[nodiscard]] double value(const Formula& formula);
    /// Why the value is not finite, or rests on something that is not, such as 5 / (1 / 0); empty
    /// if all is well. A branch that is not taken is no fault.
    [[nodiscard]] std::optional<ComputeFault> fault(CellId id);
    [[nodiscard]] std::optional<ComputeFault> fault(const Formula& formula);

    /// What a formula comes to with the i-th value of every trial, for each i; everything else
    /// stays as it now is, and nothing in the sheet changes. Trials and `out` are of one length (if
    /// not, the shortest counts). A trial of a cell stands in place of what is entered, too; cells
    /// that were entered otherwise keep what was. Goes by blocks of 256, to the same last bit as
    /// value().
    /// @return how many were computed
    std::size_t sample(std::span<const Trial> trials, const Formula& output, std::span<double> out);
    /// The same for one cell on which another may depend.
    std::size_t what_if(CellId input, std::span<const double> values, CellId output,
                        std::span<double> out);

    /// An interval that surely holds the truth (the whole line where nothing can be said), and no
    /// wider than the causes demand where the value
    /// rises or falls steadily with each of them. With more than a thousand causes or so it is
    /// computed by plain interval arithmetic: still sure, but wider.
    [[nodiscard]] units::Interval interval(CellId id);
    [[nodiscard]] units::Interval enclose(const Formula& formula);
    /// What makes a result unsure, widest first. Empty if there are too many causes to tell apart.
    [[nodiscard]] std::vector<Share> causes(const Formula& formula);

    /// How many cells have been evaluated so far, trials apart: shows that nothing else is.
    [[nodiscard]] std::size_t evaluations() const;

  private:
    struct State;
    std::unique_ptr<State> state_;
};

} // namespace jarful::sheet
