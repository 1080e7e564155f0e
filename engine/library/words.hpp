#pragma once

#include "engine/appraise/appraise.hpp"
#include "engine/kitchen/kitchen.hpp"
#include "engine/larder/convert.hpp"
#include "engine/load/load.hpp"
#include "engine/render/check_report.hpp"

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// What the commands `check`, `appraise` and `convert` and other programs share: words in, plain
/// data out. For this room and the command line.
namespace jarful::library {

/// The worst of what was asked for: 0 nothing to say, 1 something was found, 2 it was not done.
namespace status {
inline constexpr int nothing_to_say = 0, something_found = 1, not_done = 2;
}

// ---- check ----

/// What is found of a file. See load::examine().
[[nodiscard]] render::CheckedFile
look_at(std::string path, load::LoadedFile file,
        const std::function<const load::LoadedKitchen&()>& kitchen_of,
        plan::Reasons reasons = plan::Reasons::all);
[[nodiscard]] int status_of(const render::CheckSummary& sum);

// ---- appraise ----

/// What the cook knows better than a list.
struct AppraiseWords {
    std::string kind = {};                ///< with its method behind a blank; empty: to be inferred
    std::string salt = {};                ///< which grain a bare "salt" is; empty: it is not known
    std::vector<std::string> weighs = {}; ///< name=weight: what the cook has weighed
    std::vector<std::string> lines = {};  ///< number=text: what a line is to be read as
};

/// "4=water 2 qt": a line's number, from 1, and what is to be read in its place. Empty if it is
/// none.
[[nodiscard]] std::optional<appraise::LineAnswer> numbered(std::string_view text);

/// @param fault a sentence, where nothing is returned.
[[nodiscard]] std::optional<appraise::Request> read_request(const AppraiseWords& words,
                                                            std::string& fault);

/// What is larger than appraise::max_bytes is refused with this sentence.
inline constexpr std::string_view too_large =
    "It is larger than 4 MiB; paste the recipe's own lines.";

/// The recipes of a text or of a saved page, appraised.
struct AppraisedText {
    std::vector<appraise::Appraisal> recipes; ///< none if it was refused
    std::vector<std::string> remarks;         ///< sentences about how a page was read
    std::string fault;                        ///< sentences; empty if there are recipes
};
[[nodiscard]] AppraisedText appraise_text(std::string bytes, const appraise::Request& request);
[[nodiscard]] int status_of(std::span<const appraise::Appraisal> recipes);

// ---- convert ----

/// What a kitchen says of spoons and materials.
struct Counter {
    larder::Larder larder;
    larder::Measures measures = larder::Measures::unstated;
};
/// @param measures empty: the kitchen's.
[[nodiscard]] Counter counter_of(const kitchen::Kitchen& kitchen,
                                 std::optional<larder::Measures> measures);

/// A fault in one paragraph, with the materials that may be meant.
[[nodiscard]] std::string sentences_of(const larder::ConversionFault& fault);

} // namespace jarful::library
