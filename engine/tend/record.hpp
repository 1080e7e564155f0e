#pragma once

#include "engine/language/diagnostic.hpp"
#include "engine/language/tree.hpp"
#include "engine/plan/weigh_out.hpp"
#include "engine/tend/dates.hpp"

#include <optional>
#include <string>
#include <vector>

/// The record of a batch: a file that begins with a `batch` line and to which lines are added.
namespace jarful::tend {

/// What the plan said, or what was weighed.
struct Weighed {
    std::string name;
    double amount = 0; ///< g, or whole pieces
    bool pieces = false;
    std::optional<Date> date; ///< of what was weighed
};

struct Note {
    Date date;
    std::optional<double> ph;
    std::optional<double> celsius;
    std::optional<double> filled_ml;
    std::vector<std::string> did; ///< a task, "ready", "move" or "end"
    std::string text;
};

struct Record {
    std::string title;
    std::string recipe;   ///< path from the record's folder
    std::string revision; ///< git's id of the recipe's content; may be empty
    std::string kind, method;
    Date begun;
    std::optional<double> room_celsius;
    std::vector<std::string> without; ///< optional lines that were left out
    std::vector<std::string> vessels;
    std::vector<Weighed> planned;
    std::vector<Weighed> weighings; ///< as written; of one name the last counts
    std::vector<Note> notes;        ///< as written
    std::vector<std::string> remarks;
    std::vector<plan::MethodLine> tending; ///< `tend`, `ready` and `keep` lines

    /// The last weighing of a name, or nullptr.
    [[nodiscard]] const Weighed* weighed(std::string_view name) const;
    [[nodiscard]] const Weighed* plan_of(std::string_view name) const;
    /// The notes by date; those of one day as written.
    [[nodiscard]] std::vector<const Note*> by_date() const;
    /// The first day on which something was done; empty if it never was.
    [[nodiscard]] std::optional<Date> did(std::string_view deed) const;
    /// Whether the batch is used up or thrown away.
    [[nodiscard]] bool ended() const { return did("end").has_value(); }
};

/// A record from what could be parsed of it; what is missing or makes no sense is a fault, and the
/// rest stands. Empty only where there is no date in it at all.
[[nodiscard]] std::optional<Record> read_record(const language::Document& document,
                                                language::Findings& findings);

// ---- Lines, ready to be added; each ends with a line break. ----

/// The beginning of a record.
[[nodiscard]] std::string print_record(const Record& record);
[[nodiscard]] std::string print_weighed(const Weighed& weighed);
[[nodiscard]] std::string print_note(const Note& note);

} // namespace jarful::tend
