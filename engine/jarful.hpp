#pragma once

#include "engine/library/words.hpp"
#include "engine/load/texts.hpp"
#include "engine/plan/read_request.hpp"
#include "engine/plan/weigh_out.hpp"
#include "engine/render/page.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// The engine for other C++ programs: texts of files, and words as behind a command, in; plain data
/// out. It is what the command line and the pages ask, so the numbers are the same. No file, clock
/// or environment is read. Nothing is kept from one call to the next: call from any thread. Bad
/// input is among the findings; nothing is thrown but std::bad_alloc. See
/// docs/how-to/other-programs.md.
namespace jarful::library {

/// A recipe, what it is based on, its kitchen and its house file: the texts of the files.
using load::Texts;

/// Something wrong, or remarkable.
struct Finding {
    std::string where;                  ///< the name of a text, or the words that it is about
    std::uint32_t line = 0, column = 0; ///< from 1; 0: about the whole
    std::string code;                   ///< as in docs/diagnostics.md
    bool fault = true;                  ///< false: a remark
    std::string message, advice;        ///< sentences; the advice may be empty
};

template <class Data>
struct Answer {
    int status = 2; ///< the exit status of the command: 0 well, 1 something found, 2 not done
    std::vector<Finding> findings;
    std::optional<Data> data; ///< empty if it was not done
};

/// `jarful weigh RECIPE NAME=AMOUNT …`.
/// @param units that sentences are written in; figures are in g, mL and °C whatever it is.
[[nodiscard]] Answer<plan::WeighOut> weigh(const Texts& texts, const plan::RequestWords& words = {},
                                           render::Units units = render::Units::metric);

/// `jarful check RECIPE`. Data is there for a text with faults, too. A kitchen, a house file or a
/// record may stand in the recipe's place.
[[nodiscard]] Answer<render::CheckedFile> check(const Texts& texts);

/// `jarful appraise FILE`, of the text of a list or of a saved page: each recipe of it.
[[nodiscard]] Answer<std::vector<appraise::Appraisal>> appraise(std::string_view text,
                                                                const AppraiseWords& words = {});

/// `jarful convert WORDS`.
/// @param texts of which kitchen and house file are asked for spoons and materials.
/// @param measures empty: the kitchen's.
[[nodiscard]] Answer<larder::Conversion>
convert(std::string_view words, const Texts& texts = {},
        std::optional<larder::Measures> measures = std::nullopt);

/// The document that the command writes with `--json`, described in docs/json.md; of a weigh-out
/// that was asked for in metric units.
[[nodiscard]] std::string json(const plan::WeighOut& data);
[[nodiscard]] std::string json(const render::CheckedFile& data);
[[nodiscard]] std::string json(const std::vector<appraise::Appraisal>& data);
[[nodiscard]] std::string json(const larder::Conversion& data);

/// What the command prints with `--full`.
[[nodiscard]] std::string text(const plan::WeighOut& data);
[[nodiscard]] std::string text(const render::CheckedFile& data);
[[nodiscard]] std::string text(const std::vector<appraise::Appraisal>& data,
                               render::Units units = render::Units::metric);
[[nodiscard]] std::string text(const larder::Conversion& data);

} // namespace jarful::library
