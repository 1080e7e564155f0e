#pragma once

#include "engine/language/diagnostic.hpp"
#include "engine/plan/weigh_out.hpp"
#include "engine/render/fields/fields.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What several results have in them: for the json_*.cpp files, and for the results of pages
/// (engine/page), whose problems have the places of a finding.
namespace jarful::fields {

// ---- Words. ----

inline constexpr Choice<plan::Verdict, 4> verdict_words{
    "verdict",
    "Below a range is a safety matter, above it a quality one. inside only if the whole interval "
    "is.",
    plan::describe,
    {plan::Verdict::inside, plan::Verdict::below, plan::Verdict::above, plan::Verdict::undecided}};
inline constexpr Choice<larder::Basis, 7> basis_words{
    "basis",
    "What the percentage is a percentage of; of_drained_brine is g per 100 mL.",
    larder::key,
    {larder::Basis::of_vegetables, larder::Basis::of_vegetables_and_water, larder::Basis::of_brine,
     larder::Basis::of_evened_brine, larder::Basis::of_everything, larder::Basis::of_water,
     larder::Basis::of_drained_brine}};
inline constexpr Choice<larder::Role, 7> role_words{
    "role",
    "What it is in the jar.",
    larder::describe,
    {larder::Role::vegetable, larder::Role::salt, larder::Role::water, larder::Role::aromatic,
     larder::Role::seasoning, larder::Role::acid, larder::Role::other}};
inline constexpr Choice<plan::Fate, 6> fate_words{"fate",
                                                  "What becomes of it.",
                                                  plan::key,
                                                  {plan::Fate::in_jar, plan::Fate::optional,
                                                   plan::Fate::discarded, plan::Fate::on_top,
                                                   plan::Fate::later, plan::Fate::stock}};
inline constexpr Choice<larder::Status, 4> status_words{
    "status",
    "How far the figure can be leaned on.",
    larder::describe,
    {larder::Status::published, larder::Status::common_practice, larder::Status::from_memory,
     larder::Status::house}};
/// What larder::standing() says.
inline constexpr Choice<std::string_view, 6> standing_words{
    "standing",
    "How far the figure of a range can be leaned on.",
    same_word,
    {"published", "common practice, no published figure", "our own reading", "tried in a study",
     "from memory", "the house's own"}};
/// What a `tend` line asks for.
[[nodiscard]] std::vector<std::string_view> read_tasks();
inline constexpr WordList task_words{nullptr, nullptr, &read_tasks};
/// What a `keep` line counts, each as one.
[[nodiscard]] std::vector<std::string_view> read_periods();
inline constexpr WordList period_words{nullptr, nullptr, &read_periods};
/// Where a `keep` line says that it stands.
inline constexpr auto place_words = one_of_words({"cold", "cool"});
inline constexpr auto strength_of_words = one_of_words({"water", "brine"});

// ---- A recipe and a kitchen by name. ----

struct RecipeHead {
    std::string_view title;
    std::optional<int> version;
    std::string_view kind, method;
};
/// Of whatever says these four.
template <class T>
RecipeHead recipe_head(const T& of) {
    return {of.title, of.version, of.kind, of.method};
}
extern const Shape<RecipeHead> recipe_head_shape;

struct KitchenHead {
    std::string_view name;
    bool built_in = false;
};
template <class T>
KitchenHead kitchen_head(const T& of) {
    return {of.kitchen, of.kitchen_built_in};
}
extern const Shape<KitchenHead> kitchen_head_shape;

// ---- Weighing. ----

extern const Shape<plan::Portion> portion;

/// One quantity on one scale, whatever it belongs to.
struct Reading {
    double exact_g = 0;
    std::optional<double> reading_g;
    double step_g = 1;
    std::string_view scale;
    units::Interval truth;
    bool too_small = false;
    std::vector<plan::Portion> portions;
};
extern const Shape<Reading> reading;

// ---- Salt and the bounds of the house. ----

/// The ends of a range; null where it has none.
struct RangeEnds {
    const plan::RangeEnd* low = nullptr;
    const plan::RangeEnd* high = nullptr;
};
/// Empty if there is neither end.
[[nodiscard]] std::optional<RangeEnds> range_ends(const std::optional<plan::RangeEnd>& low,
                                                  const std::optional<plan::RangeEnd>& high);
extern const Shape<RangeEnds> range_ends_shape;
extern const Shape<plan::BasisFigure> basis_figure;
extern const Shape<plan::SaltJudgement> salt;
extern const Shape<plan::HoldCheck> check;
extern const Shape<plan::Warning> caution;

/// What goes into one jar; in json_jars.cpp.
extern const Shape<plan::JarShare> jar;

// ---- Findings. ----

/// A place as people count; nothing of it for a finding about the file as a whole.
struct FoundAt {
    std::optional<std::uint32_t> line, column, end_line, end_column;
    std::string file; ///< where it is not the file that was looked at
};
struct LocatedRelated {
    FoundAt at;
    std::string text;
};
/// A finding with its places as lines and columns.
struct LocatedDiagnostic {
    FoundAt at;
    language::Severity severity = language::Severity::fault;
    std::string code, message, advice;
    std::vector<LocatedRelated> related;
};
[[nodiscard]] LocatedDiagnostic located(const language::Source& source,
                                        const language::Diagnostic& found);
extern const Shape<LocatedDiagnostic> diagnostic;

} // namespace jarful::fields
