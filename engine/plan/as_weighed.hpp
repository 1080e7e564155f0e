#pragma once

#include "engine/plan/model.hpp"

#include <optional>
#include <vector>

/// Private to the room: values of what is really in the jar.
namespace jarful::plan {

/// Values by the number that a display showed or that the cook says went in (Entry::shown), where
/// sheet::Sheet::value() goes by the exact amounts. What has not been weighed counts by its exact
/// amount. A line that is weighed was worked out from exact amounts, so that only what is made of
/// the weighed ones differs: totals, working values, percentages, and what is still to be weighed.
/// Each value lies in its enclosure. What is absent in the variant that is judged is nothing.
///
/// For the model as it stands: make a new one when it has changed.
class AsWeighed {
  public:
    enum class By : std::uint8_t {
        displays,
        exact_amounts ///< nothing has been weighed yet, but what is absent is absent
    };
    explicit AsWeighed(Model& model, By by = By::displays);

    [[nodiscard]] double value(const sheet::Formula& formula);
    [[nodiscard]] double value(sheet::CellId cell);
    /// `factor` times the value, held into bounds that contain it but for the last bit.
    [[nodiscard]] double value(const sheet::Formula& formula, units::Interval bounds,
                               double factor = 1);

  private:
    [[nodiscard]] bool leaf(sheet::CellId cell) const;
    void compute(const sheet::Formula& formula);
    [[nodiscard]] double run(const sheet::Formula& formula);

    Model& model_;
    std::vector<std::optional<double>> known_; ///< by cell; empty if nothing was weighed
};

} // namespace jarful::plan
