#pragma once

#include "engine/larder/larder.hpp"
#include "engine/larder/timing.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

/// The larder's data files as read and checked, before they become constant tables.
namespace jarful::larder::compile {

struct FigureFact {
    double low = 0, typical = 0, high = 0;
    Status status = Status::common_practice;
    std::string source;
};

struct MaterialFact {
    std::string id, name, family, piece_word, vague_hint, note;
    Role role = Role::other;
    std::vector<std::string> names;
    std::map<std::string, std::vector<std::string>> foreign; ///< by tag, "de"
    std::optional<FigureFact> bulk_density, true_density, water, salt, piece, refuse;
    SaltWarning warning = SaltWarning::none;
};

struct RowFact {
    std::string id, kind, method, source, section, note;
    Basis basis = Basis::of_vegetables;
    std::optional<double> low, typical, high;
    RowRole role = RowRole::practice;
    Status status = Status::common_practice;
    bool nameless = false; ///< its source cannot be looked up
};

struct BoundFact {
    double percent = 0;
    std::size_t row = 0;
};

struct RulingFact {
    std::string method, title, why;
    Basis basis = Basis::of_vegetables;
    std::optional<BoundFact> low, high;
    std::optional<double> typical;
};

struct KindFact {
    std::string name, title;
    std::vector<std::string> names, cautions;
    std::vector<RulingFact> rulings;
    bool method_needed = false;
};

struct CautionFact {
    std::string id, title, brief, text, source;
    bool always = false;
    Status status = Status::common_practice;
};

struct TimingFact {
    std::string id, kind, method, source, section, note;
    TimingWhat what = TimingWhat::course;
    std::optional<double> celsius_low, celsius_high, days_low, days_high;
    std::optional<double> ph_low, ph_high, acid_low, acid_high;
    bool celsius_read = false, rules_days = false, rules_ph = false;
    Status status = Status::common_practice;
};

struct BrineFact {
    std::vector<double> celsius, percent, density;
    double error = 0;
    Status status = Status::published;
    std::string source;
};

/// Every name a lookup may ask for, folded, with the index of what it stands for.
using NameTable = std::map<std::string, std::size_t>;

struct Facts {
    std::vector<MaterialFact> materials;
    NameTable material_names;
    std::map<std::string, NameTable> foreign_names; ///< by tag
    std::vector<RowFact> rows;
    std::vector<KindFact> kinds;
    NameTable kind_names;
    std::vector<CautionFact> cautions;
    std::vector<TimingFact> timing;
    BrineFact brine;
};

/// Reads every data file in `folder`. Each fault found is added to `faults` as a finished sentence
/// that names the file and the entry; the facts are fit for use only if there is none.
[[nodiscard]] Facts read_facts(const std::string& folder, std::vector<std::string>& faults);

/// The C++ source of the constant tables. @throws std::runtime_error names what does not fit
[[nodiscard]] std::string write_tables(const Facts& facts);

} // namespace jarful::larder::compile
