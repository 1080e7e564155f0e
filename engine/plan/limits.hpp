#pragma once

#include "engine/plan/model.hpp"

#include <optional>
#include <string>
#include <vector>

/// Private to the room: the bounds that a batch has to keep, and whether it does. Verdicts, the
/// search for readings that hold and the ways to mend all ask here, so that they never differ.
namespace jarful::plan {

/// One of the ways in which a batch may come out: an optional line may be left out, a layer on top
/// may lie there undissolved. All other numbers are those that are printed for the whole.
struct Variant {
    std::vector<std::size_t> absent; ///< entries that count as nothing; empty for the whole
    std::string text;                ///< "without apple"; empty for the whole
    bool optional = false;           ///< something optional is left out
    bool cap = false;                ///< a layer on top has not dissolved
};

/// Every combination, the whole first. What the request leaves out is in none of them.
[[nodiscard]] std::vector<Variant> variants_of(const Model& model);

/// The batch as one of its variants, as long as this lives.
class InVariant {
  public:
    InVariant(Model& model, const Variant& variant);
    InVariant(const InVariant&) = delete;
    InVariant& operator=(const InVariant&) = delete;
    ~InVariant();

  private:
    struct Kept {
        std::size_t entry;
        std::optional<units::Interval> observed;
        std::optional<double> shown;
    };
    Model& model_;
    std::vector<Kept> kept_;
};

/// One side of a limit.
struct LimitEnd {
    sheet::Formula bound;         ///< what may not be passed, in base units
    std::optional<double> figure; ///< the bound, if it is the same whatever is weighed
    sheet::Formula margin;        ///< otherwise: value - bound, in which each error counts once
};

/// A bound that a batch has to keep: the ruling range of its salt, or a `hold`.
struct Limit {
    sheet::Formula value;
    double factor = 1; ///< from base units to the unit that figures are compared and shown in
    std::optional<LimitEnd> low, high;
    std::string text; ///< what it is about
    [[nodiscard]] bool bounded() const { return low || high; }
};

/// The ruling range of the salt; empty if there is none, or if something is not known about the
/// salt that no weighing tells (what stays of a soak).
[[nodiscard]] std::optional<Limit> salt_limit(const Model& model);
[[nodiscard]] Limit hold_limit(const Model& model, const Bound& bound);
/// Every limit of the model that a reading could keep: the salt first, then each `hold`.
[[nodiscard]] std::vector<Limit> limits_of(const Model& model);

/// By what was observed of the batch: `inside` if the limit is kept in the worst case. A bound that
/// depends on what is weighed is as unsure as that, and each error counts once on both sides.
[[nodiscard]] Verdict verdict_of(Model& model, const Limit& limit);
/// Whether the exact amounts keep the limit.
[[nodiscard]] bool exact_amounts_keep(Model& model, const Limit& limit);

/// An end of a limit by what was weighed, in the limit's unit.
struct EndFigure {
    double figure = 0;
    std::optional<units::Interval> bounds; ///< where it is not the same whatever is weighed
};
[[nodiscard]] EndFigure end_figure(Model& model, const Limit& limit, const LimitEnd& end);

/// What makes it unsure whether a limit is kept, widest first.
[[nodiscard]] std::vector<sheet::Share> causes_of(Model& model, const Limit& limit);

/// A limit in one variant.
struct Watched {
    std::size_t limit = 0, variant = 0;
};
/// Each limit in each variant that makes a difference to it.
[[nodiscard]] std::vector<Watched> watched(const Model& model, const std::vector<Limit>& limits,
                                           const std::vector<Variant>& variants);

/// The entries whose weighings a limit depends on, sorted.
[[nodiscard]] std::vector<std::size_t> weighings_of(const Model& model, const Limit& limit);

} // namespace jarful::plan
