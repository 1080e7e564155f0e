#pragma once

#include "engine/plan/plan.hpp"

#include <optional>
#include <string>
#include <vector>

/// A request in words, as people and other programs make it.
namespace jarful::plan {

/// What is said of a batch beside the recipe's name, as typed.
struct RequestWords {
    std::vector<std::string> settings = {}; ///< name=value
    std::vector<std::string> without = {};  ///< optional lines to leave out
    std::vector<std::string> poured = {};   ///< name=amount: what really went in
    std::optional<std::string> moving = {}; ///< the one given that may move for a question
    std::optional<std::string> bowl = {};   ///< weight of the one bowl that all is weighed into
    bool yes = false;                       ///< what is hard to believe is meant so
};

/// Reads the words into a request. What is wrong with each stands at its place in `found`; of the
/// bowl in the text "bowl=" and its words.
/// @return false if anything was not understood.
[[nodiscard]] bool read_request(const RequestWords& words, Request& request,
                                RequestFindings& found);

} // namespace jarful::plan
