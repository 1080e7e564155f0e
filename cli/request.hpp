#pragma once

#include "cli/load.hpp"
#include "cli/options.hpp"
#include "engine/plan/plan.hpp"

#include <optional>
#include <string>
#include <vector>

/// What is typed beside a recipe's name, for the commands that weigh.
namespace jarful::cli {

/// What was typed, as a text that can be underlined.
[[nodiscard]] language::Source request_source(const std::string& text);

/// Reads the words into a request; faults are explained at once, each with its own text.
/// @return false if anything was not understood.
[[nodiscard]] bool read_request(const RequestWords& words, plan::Request& request);

/// What the engine found wrong with the request, each with the text it stands in.
void explain_request(const RequestWords& words, const plan::RequestFindings& found);

/// A recipe and its kitchen, ready to be weighed by; what is wrong has been explained.
struct Ready {
    LoadedFile recipe;
    kitchen::Kitchen kitchen;
};
/// @param undone "Nothing was weighed": how the sentence about what is missing begins.
[[nodiscard]] std::optional<Ready>
make_ready(const std::string& recipe, const KitchenWords& kitchen, const std::string& undone);

/// What the commands that weigh are asked.
struct WeighQuestion {
    const std::string& recipe; ///< a path, "-", or a name from the book
    const RequestWords& words;
    KitchenWords kitchen;
    bool jars_needed = false; ///< and nothing comes of it without them
};

/// A weigh-out, and what it was worked out from.
struct WeighAnswer {
    Ready ready;
    plan::WeighOut out;
};
/// Reads what was typed, makes the recipe ready and weighs it out. What is wrong has been
/// explained, and what to do first has been said.
/// @param undone as for make_ready.
[[nodiscard]] std::optional<WeighAnswer> weigh_out(const WeighQuestion& question,
                                                   const std::string& undone);

/// 1 if a range or a bound of the house is not kept for certain, or the jars do not take it all.
[[nodiscard]] int status_of(const plan::WeighOut& out);

} // namespace jarful::cli
