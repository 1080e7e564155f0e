#pragma once

#include "engine/plan/model.hpp"

#include <optional>
#include <vector>

/// Private to the room: values of what is really in the jar.
namespace jarful::plan {

/// Values by the number that a display showed or that the cook says went in (Entry::shown), where
/// sheet::Sheet::value() goes by the exact amounts. What has not been weighed counts by its exact
/// amount. A line that is weighed was worked out from exact amounts, so that only what is made of
/// the weighed ones differs: totals, working values, percentages. Each value lies in its enclosure.
///
/// For the model as it stands: make a new one when it has changed.
class AsWeighed {
  public:
    explicit AsWeighed(Model& model);

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
