#pragma once

#include "engine/kitchen/kitchen.hpp"
#include "engine/larder/larder.hpp"
#include "engine/plan/plan.hpp"
#include "engine/sheet/builder.hpp"
#include "engine/sheet/sheet.hpp"

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

/// Private to the room: a recipe with its names, materials and roles settled, and its sheet.
namespace jarful::plan {

/// One quantity of the recipe, or a part of a brine.
struct Entry {
    sheet::CellId cell = sheet::no_cell;
    language::QuantityWord word = language::QuantityWord::weigh;
    std::string name;
    std::string label;
    language::Place place; ///< of the name
    const larder::Material* material = nullptr;
    std::string material_text; ///< as written after `as`, if the larder was not asked
    std::optional<larder::Role> role;
    Fate fate = Fate::in_jar;
    bool replaced = false; ///< a `measure` takes its place in the jar
    bool each_jar = false;
    bool keeps_unknown = false; ///< discarded, and nobody says how much of its salt stays
    std::optional<sheet::UnknownId> keeps;
    std::optional<sheet::UnknownId> bulk_density;
    std::optional<sheet::UnknownId> piece;
    std::optional<std::size_t> poured_from; ///< index of the brine it is poured from
    bool in_spoons = false;                 ///< written as a volume
    sheet::Formula volume;                  ///< then: the volume, before it became a mass
    /// By the request: the value and how far the truth may lie from it.
    struct Entered {
        double value = 0;
        units::Interval bounds;
        bool by_scale = false; ///< the bounds are a scale's, not such as were stated
    };
    std::optional<Entered> entered;
    /// What really went in, whatever the recipe comes to: judged in its place.
    std::optional<Entered> poured;
    /// What is in by the number on the display, or as poured, while the sheet observes it.
    std::optional<double> shown;
    bool solved = false;       ///< a given that was worked out backwards
    std::vector<double> parts; ///< the goes it was weighed in, if entered in several
    bool left_out = false;     ///< by the request
    bool over = false;         ///< poured off before a `measure` that is taken: see measured.hpp
    bool absent = false;       ///< counts as nothing in the variant that is being judged
    int goes = 1;              ///< in how many goes it was weighed, if entered

    /// Goes in the jar (perhaps): its content counts.
    [[nodiscard]] bool counts() const { return role.has_value() && !replaced; }
};

struct BrineEntry {
    std::string name, label;
    language::Place place;
    sheet::CellId made = sheet::no_cell;     ///< mass made
    std::size_t salt = 0, water = 0;         ///< indices of the entries that are weighed for it
    sheet::CellId strength = sheet::no_cell; ///< salt / (salt + water) by mass, as weighed
    double stated = 0;                       ///< the strength as written, of 1
    bool of_water = true;
    sheet::UnknownId density = 0;
    double salt_fraction = 0; ///< salt / (salt + water), exact
};

struct Bound {
    const language::HoldLine* line = nullptr;
    sheet::Formula value, low, high; ///< low or high empty if unbounded
    sheet::Type type;
};

struct Hole {
    sheet::Formula formula;
    sheet::Type type;
    bool percent = false;
    /// An entry's own reading, or equal parts of it: the entry and the number of parts.
    std::optional<std::size_t> entry;
    int parts = 1;
};

/// The cells that are always there.
struct Totals {
    sheet::CellId produce = sheet::no_cell, salt = sheet::no_cell, liquid = sheet::no_cell,
                  everything = sheet::no_cell;
    /// The vegetables' own water; only where the salt is judged by the brine once it has evened
    /// out.
    sheet::CellId own_water = sheet::no_cell;
};

struct Model {
    const language::Document* document = nullptr;
    const kitchen::Kitchen* kitchen = nullptr;
    std::unique_ptr<larder::Larder> larder;

    std::string title;
    std::optional<int> version;
    const larder::Kind* kind = nullptr;
    const larder::Ruling* ruling = nullptr;
    std::string method;

    std::vector<Entry> entries; ///< in the order written; parts of brines where the brine stands
    std::vector<BrineEntry> brines;
    std::vector<Bound> holds;
    std::vector<std::vector<Hole>> holes; ///< for each line of the document, those of its text
    Totals totals;
    sheet::CellId vessel = sheet::no_cell; ///< room of the chosen vessels in mL; 0 without one
    /// How many vessels an `each jar` count goes into; 1 where that is not known.
    sheet::CellId jars = sheet::no_cell;
    std::optional<sheet::Formula> fill;
    std::optional<sheet::Formula> headspace;
    sheet::Type headspace_type;
    std::optional<sheet::Formula> top_up;
    std::string top_up_material;
    std::vector<std::string> assumptions;
    std::unique_ptr<sheet::Sheet> sheet;

    [[nodiscard]] std::optional<std::size_t> find_entry(std::string_view name) const;
    /// In which units sentences are written.
    [[nodiscard]] const units::Shown& shown() const { return kitchen->shown; }
};

/// Takes out of entries and sheet what was weighed.
void forget_weighed(Model& model);

/// Lets the sheet see what is in of an entry: a number, and what the truth may be.
void observe(Model& model, Entry& entry, double shown, units::Interval truth);

/// Whether something that weighs anything goes into each jar.
[[nodiscard]] bool weighs_by_the_jar(const Model& model);
/// That nobody has said how many jars there are, so that what goes into each counts once: a
/// sentence. Empty where that makes no difference.
[[nodiscard]] std::string counted_for_one_jar(const Model& model);

/// Builds the model; empty if the recipe has faults.
[[nodiscard]] std::unique_ptr<Model> compile(const language::Document& document,
                                             const kitchen::Kitchen& kitchen,
                                             language::Findings& findings);

/// Checks that every value is finite and sane (no weight below nothing or above a tonne, shares
/// that add up); reports what is not.
bool check_values(Model& model, language::Findings& findings);

/// A bound of the larder's or the house's with its source in words: "DOCUMENT (SECTION)".
[[nodiscard]] RangeEnd range_end(const larder::Bound& bound);

/// The formula of the jar's salt on a basis, as a ratio.
[[nodiscard]] sheet::Formula basis_formula(const Totals& totals, larder::Basis basis);

/// What has been decided about optional lines and the cap while judging.
struct Judgement {
    std::optional<SaltJudgement> salt;
    std::string no_salt_reason;
    std::vector<BasisFigure> other_bases;
    std::vector<HoldCheck> checks;
};

/// How much of a judgement is asked for.
struct JudgementWanted {
    bool other_bases = true; ///< which cost as much as all the rest
    Reasons reasons = Reasons::all;
};

/// Judges salt and holds by what the sheet has observed, or by the exact amounts where nothing is.
/// Optional lines are judged with and without, a cap dissolved and undissolved, all else being as
/// it is printed: the verdict is the worst of them. Leaves the model as it was.
[[nodiscard]] Judgement judge(Model& model, JudgementWanted wanted = {});

/// Lets the sheet see again what the scales show.
using Show = std::function<void()>;

/// The unit in which a `hold` is shown and compared, and how many base units it is: percent where a
/// bound was written so, otherwise g, mL, cm …, or oz, fl oz, in for who reads US units
[[nodiscard]] std::pair<std::string, double> hold_unit(const Model& model, const Bound& bound);

/// Whole pieces: the nearest, at least one unless optional or exactly none.
[[nodiscard]] int whole_pieces(double exact, bool optional);

/// A percentage interval against a range; the bounds belong to it.
[[nodiscard]] Verdict compare(units::Interval percent, std::optional<double> low,
                              std::optional<double> high);

/// The one that has to be seen to first: below, then above, then undecided.
[[nodiscard]] Verdict worst(Verdict a, Verdict b);

/// The worst of the salt and of the house's bounds; empty if nothing is judged.
[[nodiscard]] std::optional<Verdict> overall(const std::optional<SaltJudgement>& salt,
                                             const std::vector<HoldCheck>& checks);

/// The lines of the method with their values, once the readings are known.
[[nodiscard]] std::vector<MethodLine>
method_lines(Model& model, const std::function<const Item*(std::size_t entry)>& item_of);

/// The cautions that apply to this jar.
[[nodiscard]] std::vector<Warning> cautions_for(const Model& model);

} // namespace jarful::plan
