#pragma once

#include "engine/language/diagnostic.hpp"
#include "engine/language/tree.hpp"
#include "engine/plan/weigh_out.hpp"
#include "engine/tend/dates.hpp"

#include <optional>
#include <string>
#include <utility>
#include <vector>

/// The record of a batch: a file that begins with a `batch` line and to which lines are added.
namespace jarful::tend {

/// One thing that was noted or weighed.
struct Logged {
    using What = language::CorrectedLine::What;
    What what = What::text;
    std::string name;    ///< of what was weighed
    double value = 0;    ///< g or pieces, a pH, °C or mL
    bool pieces = false; ///< of what was weighed
    std::string words;   ///< a deed, or a text

    /// The same sort, name and value, but for what is lost in printing a number.
    [[nodiscard]] bool same(const Logged& other) const;
};

/// An entry put right. The record's own values are the corrected ones; this keeps what was there.
struct Correction {
    Date date; ///< on which it was corrected
    Date of;   ///< of the entry
    Logged before;
    std::optional<Logged> after; ///< empty: it is taken back
    std::string why;             ///< may be empty
};

/// What the plan said, or what was weighed.
struct Weighed {
    std::string name;
    double amount = 0; ///< g, or whole pieces
    bool pieces = false;
    std::optional<Date> date; ///< of what was weighed
    std::vector<Correction> corrections = {};
    bool taken_back = false; ///< it was never weighed so
};

struct Note {
    Date date;
    std::optional<double> ph;
    std::optional<double> celsius;
    std::optional<double> filled_ml;
    std::vector<std::string> did; ///< a task, "ready", "move" or "end"
    std::string text;
    std::vector<Correction> corrections = {};

    /// Whether nothing is left of it, since all of it was taken back.
    [[nodiscard]] bool empty() const;
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
    std::vector<Weighed>
        weighings;           ///< in the order written, corrected; of one name the last counts
    std::vector<Note> notes; ///< in the order written, corrected
    std::vector<std::string> remarks;
    std::vector<plan::MethodLine> tending; ///< `tend`, `ready` and `keep` lines

    /// The last weighing of a name that was not taken back, or nullptr.
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
[[nodiscard]] std::string print_correction(const Correction& correction);

/// An entry in the words of the language: "pH 3.1", "weighed salt = 410 g", "did burp".
[[nodiscard]] std::string print_entry(const Logged& entry);

/// Puts an entry of a record right, and keeps what was there.
/// @return false if there is no such entry of that day; then nothing is changed.
[[nodiscard]] bool correct(Record& record, Correction correction);

/// All entries of a record of one sort, with their days, in the order written.
[[nodiscard]] std::vector<std::pair<Date, Logged>> entries_of(const Record& record,
                                                              Logged::What what);

/// The entries that are meant by what somebody types: "pH 3.1", "3.1", "salt=410g", "at 41C",
/// "filled 21L", "did ready" or "ready", or a part of a text.
/// @param what the sort, where it is known otherwise.
[[nodiscard]] std::vector<std::pair<Date, Logged>>
entries_meant(const Record& record, std::string_view words, std::optional<Logged::What> what);

} // namespace jarful::tend
