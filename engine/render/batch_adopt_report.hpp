#pragma once

#include "engine/render/page.hpp"
#include "engine/tend/learn.hpp"

#include <string>
#include <vector>

/// What a recipe can learn from its batches.
namespace jarful::render {

struct AdoptReport {
    std::string path, title;
    int batches = 0;  ///< records of this recipe
    int finished = 0; ///< of these, noted as ready or moved
    std::vector<tend::Proposal> proposals;
    std::vector<int> lines; ///< of each proposal: its line in the recipe
    std::vector<std::string> held_back;
    bool written = false;
};

[[nodiscard]] std::string adopt_text(const AdoptReport& report, const TextStyle& style);
/// Format "jarful.batch_adopt/1", described in docs/schemas/batch_adopt.json.
[[nodiscard]] std::string adopt_json(const AdoptReport& report);

} // namespace jarful::render
