#pragma once

#include "engine/sheet/formula.hpp"

#include <cstddef>
#include <functional>
#include <span>
#include <vector>

namespace jarful::sheet {

/// Formulas laid out one behind the other, to be computed for many values at a time: 256 of them
/// go through each operation together, so that finding out what to do costs little for each. Every
/// operation is that of a double on each of them, to the last bit.
class Tape {
  public:
    /// What an operation works on.
    struct Operand {
        static constexpr std::uint32_t still = 0xffff'ffff;
        std::uint32_t at = still; ///< what computes it; `still` for one figure that stays
        double value = 0;         ///< of one that stays
        [[nodiscard]] static Operand of(double value) { return {still, value}; }
    };

    /// Values to be tried; they must outlive the tape.
    [[nodiscard]] Operand add(std::span<const double> values);
    /// A formula, which must not be empty. What stays the same for all values is computed at once.
    [[nodiscard]] Operand add(const Formula& formula, const std::function<Operand(CellId)>& cell,
                              const std::function<Operand(UnknownId)>& unknown);
    /// What an operand comes to with the i-th of all the values that are tried, for each i; none of
    /// them may be shorter than `out`.
    void run(Operand result, std::span<double> out);

  private:
    struct Entry {
        Op op = Op::cell; ///< `cell` for values to be tried
        std::uint32_t slot = 0;
        Operand a, b, c;
        const double* values = nullptr; ///< to be tried
    };
    [[nodiscard]] Operand apply(Op op, Operand a, Operand b, Operand c);
    /// Gives each entry room that is free by then.
    std::uint32_t assign(Operand result);

    std::vector<Entry> entries_;
};

} // namespace jarful::sheet
