#pragma once

#include "cli/command.hpp"
#include "cli/load.hpp"
#include "engine/language/diagnostic.hpp"
#include "engine/plan/weigh_out.hpp"
#include "engine/render/batch_report.hpp"

#include <optional>
#include <string>
#include <vector>

/// The records of batches as files: where they are, and what they hold.
namespace jarful::cli {

/// The folder of the records: "batches" beside the kitchen of a recipe, or of the folder that one
/// is in; beside the recipe, or here, if there is no kitchen.
[[nodiscard]] std::string batches_folder(const std::string& recipe_or_dash);

/// The record of a name: a path, with or without its ending, or part of a name in the folder of the
/// records that fits one of them alone.
/// @return a status if there is none, which has then been said.
[[nodiscard]] std::optional<int>
find_batch(const std::string& name, const std::optional<std::string>& folder, std::string& path);

/// A record as far as it can be read. Faults are kept in the report, and are not fatal; empty, and
/// said, only where nothing of it can be read.
[[nodiscard]] std::optional<render::BatchReport> load_batch(const std::string& path,
                                                            tend::Date today);

/// Something of a batch that can be weighed or counted.
struct Weighable {
    std::string name;
    bool pieces = false;
};
/// What a batch's plan and its recipe, as it was, have lines for. Empty if there is neither.
[[nodiscard]] std::vector<Weighable> weighable(const render::BatchReport& report);

/// What is hard to believe, or cannot be, in weights that are about to be noted: of what the recipe
/// measures, by what it expects of it. In sentences, each with the code of its diagnostic.
[[nodiscard]] std::vector<std::string> doubts(const render::BatchReport& report,
                                              const std::vector<tend::Weighed>& weighed);

/// What the recipe comes to with what was really weighed, into `report.made`; why not, and whether
/// the recipe has changed, into `report.remarks`.
/// @param kitchen which one, and in which units the report speaks.
void judge(render::BatchReport& report, const KitchenWords& kitchen);

/// The records below a folder, by path; those of which nothing can be read have been said, and set
/// `unread`.
[[nodiscard]] std::vector<render::BatchReport> load_batches(const std::string& folder,
                                                            tend::Date today, bool& unread);

} // namespace jarful::cli
