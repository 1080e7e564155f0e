#pragma once

#include "engine/kitchen/kitchen.hpp"
#include "engine/language/diagnostic.hpp"
#include "engine/language/tree.hpp"
#include "engine/plan/weigh_out.hpp"
#include "engine/units/amount.hpp"

#include <memory>
#include <optional>
#include <string>
#include <vector>

/// Recipe and kitchen and request in, weigh-out out.
namespace jarful::plan {

/// `cabbage=1.84kg`, `cabbage=4.2kg+3.9kg` for one that was weighed in several goes, `salt=24g` to
/// ask what makes it so, `fill=1.2L`, `jar=tall,tall,squat`. `jar` and `fill` are words of the
/// request, not names of cells.
struct Setting {
    std::string name;
    language::Place name_place; ///< in the text it was read from
    std::vector<units::Amount> parts;
    std::vector<std::string> jars; ///< of `jar=`
    language::Place value_place;
    /// Meant so, however hard to believe: no `measured-unlikely`. It changes no verdict.
    bool certain = false;

    /// The same words, at the same places.
    friend bool operator==(const Setting&, const Setting&) = default;
};

/// Reads one `name=value`. Faults with places in `text`: no `=`, no name, an amount that cannot be
/// read.
[[nodiscard]] std::optional<Setting> read_setting(std::string_view text,
                                                  language::Findings& findings);

struct Request {
    std::vector<Setting> settings;
    std::vector<std::string> without; ///< names of optional lines to leave out
    std::vector<Setting> poured;      ///< what really went in, whatever the recipe comes to
    std::string moving;               ///< the one given that may move; empty: all that are not set
    std::optional<Setting> bowl;      ///< name "bowl": the empty bowl that all is weighed into
    /// The vessels that the batch stands in, where no setting names them (`jar=tall,squat`).
    enum class Vessels : std::uint8_t {
        chosen, ///< from the kitchen's own, see JarChoice; none where it has none that can be used,
                ///< or the recipe does not say what room the batch takes
        needed, ///< the same, and a fault where there are none to choose from
        unknown ///< none: the batch is made, and in whatever it is in
    };
    Vessels vessels = Vessels::chosen;
};

/// Where the findings of a request go: one list for each part of it, in order, so that each can be
/// shown with its own text.
struct RequestFindings {
    std::vector<language::Findings> settings;
    std::vector<language::Findings> without;
    std::vector<language::Findings> poured;
    language::Findings moving;
    language::Findings bowl;
    [[nodiscard]] bool has_faults() const;
};

/// A recipe made ready to be weighed out again and again, as at the counter or for a chart: from
/// one request to the next only the amounts that changed are entered, and only what depends on them
/// is computed again.
class Weighing {
  public:
    /// Document and kitchen must outlive it. Faults of the recipe go to `findings`, and then every
    /// request comes to nothing.
    /// @param recipe of FileKind::recipe, parsed without faults.
    Weighing(const language::Document& recipe, const kitchen::Kitchen& kitchen,
             language::Findings& findings);
    ~Weighing();
    Weighing(Weighing&&) noexcept;
    Weighing& operator=(Weighing&&) noexcept;

    /// What weigh() gives for the same request, to the last bit.
    [[nodiscard]] std::optional<WeighOut> by(const Request& request, language::Findings& findings,
                                             RequestFindings& request_findings);

    /// How many cells have been computed so far; 0 for a recipe with faults.
    [[nodiscard]] std::size_t evaluations() const;

  private:
    struct State;
    std::unique_ptr<State> state_;
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
    std::string one_jar; ///< that `each jar` counts stand for one jar, in a sentence; or empty
    std::optional<Verdict> verdict; ///< empty if nothing is judged
};

/// Which verdicts get a sentence that gives their reason.
enum class Reasons : std::uint8_t {
    all,
    of_trouble ///< those that are not `inside`
};

/// Empty if the recipe has faults. See weigh() for the parameters.
[[nodiscard]] std::optional<CheckResult> check(const language::Document& recipe,
                                               const kitchen::Kitchen& kitchen,
                                               language::Findings& findings,
                                               Reasons reasons = Reasons::all);

} // namespace jarful::plan
