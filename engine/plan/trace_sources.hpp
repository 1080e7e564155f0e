#pragma once

#include "engine/plan/working.hpp"

#include <string>
#include <vector>

/// Private to the room: where the constants of a trace come from.
namespace jarful::plan {

/// "0.46 g/mL (0.41 g/mL to 0.51 g/mL)".
[[nodiscard]] std::string spread_text(double value, units::Interval bounds,
                                      const sheet::Type& type);

/// Collects sources, each once.
class TraceSources {
  public:
    TraceSources(const Model& model, const kitchen::Kitchen& kitchen, const Working& working)
        : model_(model)
        , kitchen_(kitchen)
        , working_(working) {}

    void add(TraceSource source);
    /// Of a constant or an unknown in a formula: the definitions of the measures and pounds that
    /// it is written in, or the content of a material that it stands for.
    void of_step(const sheet::Step& step, const Shape& shape);
    /// The larder's own word for how far a figure can be leaned on; empty for what is not the
    /// larder's.
    [[nodiscard]] std::string status_of(const sheet::Unknown& unknown) const;
    [[nodiscard]] const std::vector<TraceSource>& all() const { return all_; }

  private:
    void definitions(const units::CompoundUnit& unit);
    void content(double value);

    const Model& model_;
    const kitchen::Kitchen& kitchen_;
    const Working& working_;
    std::vector<TraceSource> all_;
};

} // namespace jarful::plan
