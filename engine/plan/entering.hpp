#pragma once

#include "engine/plan/model.hpp"

#include <optional>
#include <string>
#include <utility>
#include <vector>

/// Private to the room: what the cook says goes into the model, and what she asks is worked out.
namespace jarful::plan {

/// Vessels that were asked for by name.
struct ChosenJars {
    std::vector<kitchen::Vessel> vessels; ///< one for each name, in order
    double usable_ml = 0;                 ///< all together, less headspace and weights
};

/// What came of a request beside what stands in the model.
struct Entered {
    std::optional<Answer> answer;
    ChosenJars jars;
};

class Entering {
  public:
    Entering(Model& model, const kitchen::Kitchen& kitchen, const Request& request,
             RequestFindings& findings);

    /// Takes out what an earlier request entered. A cell that this one sets as well is let be: if
    /// the amount is the same, nothing that rests on it is computed again.
    void clear();
    /// Enters settings and lines left out, and finds the givens that a question asked backwards
    /// needs. Faults go to the findings.
    [[nodiscard]] Entered enter();
    /// Enters what was poured, in place of what was poured before.
    void pour();

  private:
    /// A question: what makes this formula come to that.
    struct Ask {
        std::size_t setting = 0;
        sheet::Formula formula;
        double target = 0;
        std::string text;
        bool not_above = false; ///< rather a little less than a little more: a jar is full
    };
    /// A salt that is to come to another share of what the range is a percentage of.
    struct Share {
        std::size_t setting = 0;
        std::size_t entry = 0;
        double target = 0; ///< of 1
    };
    /// A given or total that a question may move.
    struct Mover {
        std::string name;
        sheet::CellId cell = 0;
        std::optional<std::size_t> entry;
        double value = 0;
    };

    void setting(std::size_t index);
    void set(std::size_t index, sheet::CellId cell);
    void ask_cell(std::size_t index, sheet::CellId cell);
    void ask_fill(std::size_t index);
    /// Whether a setting is a percentage that is asked of salt; if no salt can be weighed for it,
    /// that is a fault. What it comes to is worked out by season().
    [[nodiscard]] bool asks_share(std::size_t index);
    /// Why no salt can be weighed for a share of it, and what to do; empty if it can.
    [[nodiscard]] std::pair<std::string, std::string> no_share(const Setting& s) const;
    /// Enters the salt that makes the share, for the batch as the sheet now has it.
    /// @return false if no amount of it does.
    bool season();
    void season_or_fault();
    /// Whether the kitchen has as many of each jar as are asked for; says so if not.
    [[nodiscard]] bool has_jars(const Setting& s, language::Findings& findings) const;
    void ask_jar(std::size_t index);
    void unknown(std::size_t index);
    void leave_out(std::size_t index);
    void pour(std::size_t index);
    /// Whether the request itself sets this cell.
    [[nodiscard]] bool sets(std::string_view name) const;
    [[nodiscard]] std::optional<Entry::Entered> weighed(const Setting& s,
                                                        language::Findings& findings) const;
    [[nodiscard]] const language::Quantity* quantity(std::string_view name) const;
    [[nodiscard]] std::vector<std::string_view> open_names() const;

    void answer_question();
    void unknown_mover();
    /// A question whose answer is fixed by what is set.
    void nothing_to_move(const Ask& ask);
    [[nodiscard]] std::vector<Mover> movers();
    [[nodiscard]] std::optional<double> solve(const Ask& ask, const std::vector<Mover>& movers);
    [[nodiscard]] double at(const Ask& ask, const std::vector<Mover>& movers, double factor);
    void settle_on(const Ask& ask, const std::vector<Mover>& movers, double factor);

    Model& model_;
    const kitchen::Kitchen& kitchen_;
    const Request& request_;
    RequestFindings& findings_;
    std::vector<Ask> asks_;
    std::optional<Share> share_;
    Entered entered_;
    std::vector<double> other_factors_;
};

/// Enters a request into a model that was just compiled. Faults go to the findings.
[[nodiscard]] Entered enter_request(Model& model, const kitchen::Kitchen& kitchen,
                                    const Request& request, RequestFindings& findings);

/// The entry that a setting of what was weighed names; empty with a fault if there is none, or if
/// it is counted in pieces.
[[nodiscard]] std::optional<std::size_t> find_weighed(const Model& model, const Setting& setting,
                                                      language::Findings& findings);

/// The room that a vessel leaves under its headspace, by headspace_of(), as jars are filled; empty
/// with a reason if a height is asked for and the vessel's width is not known, or nothing is left.
[[nodiscard]] std::optional<double> room_in(Model& model, const kitchen::Vessel& vessel,
                                            std::string& reason);

} // namespace jarful::plan
