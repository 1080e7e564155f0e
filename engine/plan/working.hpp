#pragma once

#include "engine/plan/as_weighed.hpp"
#include "engine/plan/model.hpp"
#include "engine/plan/trace.hpp"

#include <map>
#include <string>
#include <utility>
#include <vector>

/// Private to the room: a formula as a cook would work it out on paper, with the units at each
/// step.
namespace jarful::plan {

/// A value in words: masses in g, volumes in mL, so that steps can be followed. Six digits.
[[nodiscard]] std::string working_text(double value, const sheet::Type& type, bool percent = false);
/// The same, the last digit rounded down or up.
[[nodiscard]] std::string outward_text(double value, const sheet::Type& type, bool percent,
                                       bool up);
/// Value, bounds and words; the text in a unit that fits.
[[nodiscard]] TraceValue trace_value(double value, units::Interval bounds, const sheet::Type& type,
                                     bool percent);

/// What one step of a formula is.
struct Shape {
    sheet::Type type;
    bool percent = false;   ///< written in percent
    bool literal = false;   ///< written in the recipe: an amount or a bare unit
    bool bare_unit = false; ///< then: a unit alone
};

class Working {
  public:
    /// @param model settled; what is weighed does not change as long as this lives.
    explicit Working(Model& model);

    /// By what is in the jar, inside bounds that contain it.
    [[nodiscard]] double value(const sheet::Formula& formula, units::Interval bounds) {
        return as_weighed_.value(formula, bounds);
    }

    /// What each step is; `type` is that of the whole.
    [[nodiscard]] std::vector<Shape> shapes(const sheet::Formula& formula,
                                            const sheet::Type& type) const;
    /// By which figures something is worked out: a line that is weighed by exact amounts, all else
    /// by what was weighed.
    enum class By : std::uint8_t { exact_amounts, what_is_in };
    /// Every operation in order, with its figures.
    [[nodiscard]] std::vector<TraceOperation> operations(const sheet::Formula& formula,
                                                         const sheet::Type& type, By by);
    /// The value of each step, as the sheet now is.
    [[nodiscard]] std::vector<double> values(const sheet::Formula& formula, By by);
    /// What a step is called: as written, a name, or in brackets what a figure is about.
    [[nodiscard]] std::string leaf_words(const sheet::Step& step, const Shape& shape,
                                         double value) const;
    [[nodiscard]] std::string written(language::Place place) const;
    /// The amount that is written at a place; null if there is none.
    [[nodiscard]] const units::Amount* amount_at(language::Place place) const;
    [[nodiscard]] const units::CompoundUnit* unit_at(language::Place place) const;

  private:
    using Key = std::pair<std::uint32_t, std::uint32_t>;
    [[nodiscard]] const language::Node* node_at(language::Place place) const;
    [[nodiscard]] bool rounding_at(language::Place place) const;
    [[nodiscard]] bool cover_at(language::Place place) const;

    Model& model_;
    AsWeighed as_weighed_;
    std::map<Key, language::NodeId> leaves_;    ///< amounts and bare units
    std::map<Key, language::NodeId> roundings_; ///< round, floor, ceil with a step
    std::map<Key, language::NodeId> covers_;
};

} // namespace jarful::plan
