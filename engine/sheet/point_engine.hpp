#pragma once

#include "engine/sheet/formula.hpp"

#include <memory>
#include <span>
#include <string>

/// Point values through muParser. The library stays behind this door.
namespace jarful::sheet {

/// One kept parser. Not for use by several threads at once: keep one for each thread.
class PointEngine {
  public:
    PointEngine();
    ~PointEngine();
    PointEngine(PointEngine&&) noexcept;
    PointEngine& operator=(PointEngine&&) noexcept;

    /// The value of the formula (NaN if it is empty), with `cells[id]` and the typical value of
    /// each unknown. May be infinite or NaN; never throws for a formula that Builder made. Agrees
    /// to the last bit with evaluate_steps<double>.
    [[nodiscard]] double evaluate(const Formula& formula, std::span<const double> cells,
                                  std::span<const Unknown> unknowns);

  private:
    struct State;
    std::unique_ptr<State> state_;
};

/// The formula in muParser's notation: every operation in parentheses, cells as `c0`, `c1`, …,
/// numbers with as many digits as bring them back exactly. Empty if it would be longer than the
/// parser reads, or holds a number that is not finite.
[[nodiscard]] std::string print_for_parser(const Formula& formula,
                                           std::span<const Unknown> unknowns);

} // namespace jarful::sheet
