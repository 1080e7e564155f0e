#pragma once

#include "engine/plan/plan.hpp"

#include <optional>
#include <string>
#include <vector>

/// Two recipes, or one before and after a change, in what they put into the jar: the same batch by
/// both, and what differs. What only moved, was spelt otherwise or has another comment is no
/// difference.
namespace jarful::plan {

/// What one of the two makes of a line of that name.
struct ComparedAmount {
    double exact_g = 0;   ///< of a count: pieces
    double reading_g = 0; ///< likewise
    double step_g = 1;
    bool pieces = false;
    std::optional<double> share_percent; ///< of the vegetables; empty without any
    std::string word;                    ///< given, weigh, count, brine, …
    std::string material, label, role, fate;
    std::string strength; ///< of a brine made beforehand: "5 % of the water"
};

/// A line that both have, or only one.
struct ComparedLine {
    std::string name;
    std::optional<ComparedAmount> before, after; ///< empty on the side that has no such line
    /// The amount at this batch is another one.
    bool amount_differs = false;
    /// What else differs, in words: "fine sea salt, before canning salt".
    std::vector<std::string> remarks;
    [[nodiscard]] bool differs() const {
        return amount_differs || !remarks.empty() || !before || !after;
    }
};

/// A line of words: a step, something to look after, a bound of the house.
struct ComparedText {
    enum class Sort : std::uint8_t { appeared, gone, changed, moved };
    Sort sort = Sort::changed;
    std::string before, after; ///< as `tidy` writes it; empty where there is none
};

/// A figure that both or only one may have.
struct ComparedFigure {
    std::optional<double> before, after;
    [[nodiscard]] bool differs() const;
};

struct ComparedSalt {
    std::optional<SaltJudgement> salt;
    std::string why_not; ///< why the salt is not judged, if it is not
};

struct Comparison {
    std::string title_before, title_after;
    std::optional<int> version_before, version_after;
    std::string kind_before, kind_after; ///< with the method
    std::string batch;                   ///< what both were weighed for: "cabbage = 1.80 kg"
    std::vector<ComparedLine> lines;     ///< in the order of `after`, then what is gone
    ComparedSalt salt_before, salt_after;
    bool salt_differs = false;
    std::vector<ComparedText> holds;  ///< bounds of the house
    std::vector<ComparedText> method; ///< steps and rests; their order counts
    std::vector<ComparedText> later;  ///< `tend`, `ready`, `keep`; their order does not
    ComparedFigure fill_ml, headspace_percent, headspace_cm, topup_percent;
    /// What is no food: title, version, sources, the batch that the recipe is written for.
    std::vector<std::string> aside;

    /// Whether the food is the same: everything but `aside`.
    [[nodiscard]] bool same() const;
};

/// One of the two.
struct CompareSide {
    const language::Document& recipe; ///< of FileKind::recipe, parsed without faults
    language::Findings findings;      ///< receives what is wrong with it
    RequestFindings request;          ///< what is wrong with the request, for this side
    std::optional<WeighOut> out;      ///< what was weighed; empty if there are faults
};

/// Weighs both by one request and compares. Where the request asks nothing backwards, both are made
/// for the same produce: the givens that it leaves open are what `after` is written for; if each of
/// the two has one given and calls it otherwise, they are made equal.
/// @return empty if either cannot be weighed; its findings say why.
[[nodiscard]] std::optional<Comparison> compare(CompareSide& before, CompareSide& after,
                                                const kitchen::Kitchen& kitchen,
                                                const Request& request);

} // namespace jarful::plan
