#pragma once

#include "engine/units/interval.hpp"

#include <optional>
#include <string>
#include <vector>

/// Percentages as marks on a kitchen ruler.
namespace jarful::render {

/// A ruler that shows a stretch of percentages, a mark for every small step.
class Ruler {
  public:
    /// @param shown figures that have to be on it, percent; not finite ones are left out.
    /// @param room columns that it may take, 30 or more.
    Ruler(const std::vector<double>& shown, int room);

    /// The marks: `|` for a long one, `:` for a half-way one, `.` for the others.
    [[nodiscard]] std::string marks() const;
    /// The figures of the long marks, each centred over or under its mark.
    [[nodiscard]] std::string figures() const;
    /// `v` at a figure, or `[====]` over an interval; `<` or `>` where it goes on beyond the ruler.
    [[nodiscard]] std::string stretch(units::Interval bounds) const;
    /// The words under their marks; the right one gives way if they would touch.
    [[nodiscard]] std::string words(std::optional<double> low, std::optional<double> high) const;

    /// Columns before the first mark, so that its figure has room.
    static constexpr int margin = 3;
    [[nodiscard]] int width() const { return margin + length_ + margin; }

    /// The same as plain numbers, for one that is drawn: the percentage at the first mark, that
    /// from one mark to the next, and how many marks follow the first. Every tenth is a long one.
    [[nodiscard]] double first() const { return from_; }
    [[nodiscard]] double step() const { return step_; }
    [[nodiscard]] int steps() const { return length_; }

  private:
    [[nodiscard]] int column(double percent) const;
    double from_ = 0;
    double step_ = 0.1; ///< percent for one column
    int length_ = 0;    ///< columns from the first mark to the last
};

} // namespace jarful::render
