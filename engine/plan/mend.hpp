#pragma once

#include "engine/plan/plan.hpp"

#include <optional>
#include <string>
#include <vector>

/// When it went wrong: what to add by weight to come back inside every bound.
namespace jarful::plan {

struct MendRequest {
    Request request;                   ///< settings, jars, and what was poured
    std::vector<Setting> lost;         ///< so much of a quantity is gone
    std::optional<Setting> evaporated; ///< water that has gone: a volume or a weight
};

/// Where the findings of a mend request go.
struct MendFindings {
    RequestFindings request;
    std::vector<language::Findings> lost;
    language::Findings evaporated;
    [[nodiscard]] bool has_faults() const;
};

/// One thing to add.
struct Addition {
    std::string name;
    std::string material;
    double exact_g = 0;
    double reading_g = 0;
    double step_g = 1;
    std::string scale;
    int goes = 1; ///< more where it is more than the scale carries
};

/// One way back.
struct Way {
    std::string text; ///< "Make the batch larger", "Add salt", …: what it is, in a few words
    std::vector<Addition> add;
    std::optional<BasisFigure> salt; ///< afterwards
    bool holds = false;              ///< every bound is kept in the worst case of the readings
    std::optional<double> fill_ml;   ///< room that it takes afterwards
    bool fits = true;                ///< in the jars that were named
};

struct MendOut {
    std::string title;
    units::Shown shown; ///< the kitchen's: what is printed of it
    std::optional<SaltJudgement> before;
    std::string no_salt_reason;
    std::vector<HoldCheck> checks;
    bool nothing_to_mend = false;
    std::vector<Way> ways;           ///< those that hold first; at most four
    std::optional<double> usable_ml; ///< of the jars that were named
    /// When no way holds, or the salt was too low for too long: what to do instead.
    std::vector<Warning> instead;
};

/// Empty if recipe or request have faults. Uses the same search for readings as weigh().
[[nodiscard]] std::optional<MendOut> mend(const language::Document& recipe,
                                          const kitchen::Kitchen& kitchen,
                                          const MendRequest& request, language::Findings& findings,
                                          MendFindings& request_findings);

} // namespace jarful::plan
