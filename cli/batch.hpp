#pragma once

#include "cli/command.hpp"
#include "engine/render/batch_report.hpp"

#include <string>
#include <vector>

/// What the commands over batches share.
namespace jarful::cli {

/// 1 if something is wrong or overdue, or part of the record cannot be read; 0 otherwise.
[[nodiscard]] int status_of(const render::BatchReport& report);

/// `batch adopt RECIPE`: what the recipe can learn from its batches.
[[nodiscard]] int adopt(const Command& command, const std::vector<std::string>& words);

} // namespace jarful::cli
