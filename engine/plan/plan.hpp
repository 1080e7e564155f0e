#pragma once

#include "engine/kitchen/kitchen.hpp"
#include "engine/language/diagnostic.hpp"
#include "engine/language/tree.hpp"
#include "engine/plan/weigh_out.hpp"
#include "engine/units/amount.hpp"

#include <optional>
#include <string>
#include <vector>

/// Recipe and kitchen and request in, weigh-out out.
namespace jarful::plan {

/// `cabbage=1.84kg`, or `cabbage=4.2kg+3.9kg` for one that was weighed in several goes.
struct Setting {
    std::string name;
    language::Place name_place; ///< in the text it was read from
    std::vector<units::Amount> parts;
    language::Place value_place;
};

/// Reads one `name=value`. Faults with places in `text`: no `=`, no name, an amount that cannot be
/// read or has no unit.
[[nodiscard]] std::optional<Setting> read_setting(std::string_view text,
                                                  language::Findings& findings);

struct Request {
    std::vector<Setting> settings;
    std::vector<std::string> without; ///< names of optional lines to leave out
};

/// Where the findings of a request go: one list for the recipe, one for each setting and each
/// `without`, in their order, so that each can be shown with its own text.
struct RequestFindings {
    std::vector<language::Findings> settings;
    std::vector<language::Findings> without;
    [[nodiscard]] bool has_faults() const;
};

/// The weigh-out. Empty if the recipe or the request has faults; the findings say which. A recipe
/// that comes out of range is no fault: its verdict says so.
/// @param recipe of FileKind::recipe, parsed without faults.
[[nodiscard]] std::optional<WeighOut> weigh(const language::Document& recipe,
                                            const kitchen::Kitchen& kitchen, const Request& request,
                                            language::Findings& findings,
                                            RequestFindings& request_findings);

/// A recipe judged as it is written: exact amounts, with the spread of its spoons and its stated
/// uncertainties, on no particular scale.
struct CheckResult {
    std::string title;
    std::string kind, method;
    std::optional<SaltJudgement> salt;
    std::string no_salt_reason;
    std::vector<HoldCheck> checks;
    std::optional<Verdict> verdict; ///< empty if nothing is judged
};

/// Empty if the recipe has faults. See weigh() for the parameters.
[[nodiscard]] std::optional<CheckResult> check(const language::Document& recipe,
                                               const kitchen::Kitchen& kitchen,
                                               language::Findings& findings);

} // namespace jarful::plan
