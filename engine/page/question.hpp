#pragma once

#include "engine/larder/convert.hpp"
#include "engine/load/texts.hpp"
#include "engine/plan/read_request.hpp"
#include "engine/render/page.hpp"
#include "engine/tend/dates.hpp"

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What a page asks, read from JSON and held within bounds. For this room.
namespace jarful::page {

/// A reader's own jar, or one of the kitchen's jars by its name, and then only that one.
struct ReaderJar {
    std::string name; ///< empty for their own
    double brimful_ml = 0;
    std::optional<double> across_cm; ///< inner width
    std::optional<int> have;
};

struct WeighQuestion {
    plan::RequestWords words;
    std::optional<double> step_g; ///< of the reader's scale; empty: the kitchen's scales
    bool no_scale = false;        ///< the reader has none and is told spoons
    std::optional<ReaderJar> jar;
    std::optional<larder::Measures> spoons; ///< empty: as the kitchen says, or US ones
    std::optional<double> room_celsius;
    std::string grain;                  ///< id of a salt of the larder; empty: the recipe's
    std::optional<render::Units> units; ///< empty: the kitchen's
    std::optional<tend::Date> start;
    std::optional<std::chrono::sys_seconds> made; ///< when the calendar is made; empty: `start`
};

struct AppraiseQuestion {
    std::string text;
    std::string kind; ///< with its method behind a blank; empty: to be inferred
    render::Units units = render::Units::metric;
};

/// One of the two, or why it is neither.
struct Question {
    std::optional<WeighQuestion> weigh;
    std::optional<AppraiseQuestion> appraise;
    std::string fault; ///< a sentence; empty if one of them is there
};

[[nodiscard]] Question read_question(std::string_view json);
/// @param fault a sentence, where nothing is returned.
[[nodiscard]] std::optional<load::Texts> read_load(std::string_view json, std::string& fault);

} // namespace jarful::page
