#pragma once

#include "engine/larder/convert.hpp"
#include "engine/render/page.hpp"

#include <optional>
#include <string>
#include <vector>

/// The commands, as functions of what was asked for. Each prints its result on standard output and
/// everything else on standard error, and returns the exit status.
namespace jarful::cli {

/// Exit status of every command.
namespace status {
inline constexpr int nothing_to_say = 0;
inline constexpr int something_found = 1; ///< outside a range, undecided, a difference
inline constexpr int not_done = 2;        ///< usage, unreadable, faults in a file
} // namespace status

struct WeighOptions {
    std::string recipe;                ///< a path, "-", or a name from the book
    std::vector<std::string> settings; ///< name=value, as typed
    std::vector<std::string> without;  ///< optional lines to leave out
    std::optional<std::string> kitchen;
    render::Units units = render::Units::metric;
    bool json = false;
};
int run_weigh(const WeighOptions& options);

struct CheckOptions {
    std::vector<std::string> paths; ///< files, folders, "-"
    std::optional<std::string> kitchen;
    bool json = false;
};
int run_check(const CheckOptions& options);

struct RangesOptions {
    std::string kind; ///< empty: all
    bool json = false;
};
int run_ranges(const RangesOptions& options);

struct ConvertOptions {
    std::string text; ///< the words as typed, joined by blanks; "-" for lines of standard input
    std::string per;  ///< what stood after --per; empty if nothing did
    std::optional<larder::Measures> measures; ///< empty: the kitchen's
    std::optional<std::string> kitchen;
    bool json = false;
};
int run_convert(const ConvertOptions& options);

struct SaltsOptions {
    std::optional<larder::Measures> measures; ///< empty: the kitchen's
    std::optional<std::string> kitchen;
    bool json = false;
};
int run_salts(const SaltsOptions& options);

} // namespace jarful::cli
