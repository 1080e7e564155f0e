#pragma once

#include "engine/plan/weigh_out.hpp"
#include "engine/render/page.hpp"
#include "engine/tend/standing.hpp"

#include <optional>
#include <string>
#include <vector>

/// The record of a batch, and how it stands.
namespace jarful::render {

struct BatchReport {
    std::string path;
    std::string name; ///< of the file, without its ending
    tend::Record record;
    tend::Standing standing;
    tend::Date today;
    std::optional<plan::WeighOut> made; ///< with what was really weighed
    std::vector<std::string> remarks;   ///< about the recipe, in sentences
    std::vector<std::string> damage;    ///< what could not be read, in sentences
    units::Shown shown;                 ///< what is printed of it
};

/// Whether something is the salt of a batch, or poured from a brine that was made beforehand.
/// `report.made` must not be empty.
[[nodiscard]] bool brings_salt(const BatchReport& report, const plan::Item& item);

[[nodiscard]] std::string batch_text(const BatchReport& report, const TextStyle& style);
/// Format "jarful.batch/1", described in docs/schemas/batch.json.
[[nodiscard]] std::string batch_json(const BatchReport& report);

/// One line for each batch.
[[nodiscard]] std::string batches_text(const std::vector<BatchReport>& reports,
                                       const TextStyle& style);
/// Format "jarful.batches/1", described in docs/schemas/batches.json.
[[nodiscard]] std::string batches_json(const std::vector<BatchReport>& reports);

/// What is wrong, overdue and due over all batches, the worst first.
[[nodiscard]] std::string today_text(const std::vector<BatchReport>& reports, tend::Date today,
                                     const TextStyle& style);
/// Format "jarful.today/1", described in docs/schemas/today.json.
[[nodiscard]] std::string today_json(const std::vector<BatchReport>& reports, tend::Date today);

/// What was put right of an entry, in sentences: "pH 3.1 was noted here; corrected on 2026-12-10
/// (misread)."; empty where nothing was.
[[nodiscard]] std::string correction_words(const std::vector<tend::Correction>& corrections,
                                           Units units);
/// "working, day 12", "in the cold", "ended", "begins in 3 days".
[[nodiscard]] std::string state_words(const tend::Standing& standing);
/// "pH TOO HIGH", "MISSED", "due", …: a finding in a word or two.
[[nodiscard]] std::string concern_words(const tend::Finding& finding);

} // namespace jarful::render
