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

/// What is said of a batch beside the recipe's name, as typed.
struct RequestWords {
    std::vector<std::string> settings; ///< name=value
    std::vector<std::string> without;  ///< optional lines to leave out
    std::vector<std::string> poured;   ///< name=amount: what really went in
    std::optional<std::string> moving; ///< the one given that may move for a question
    std::optional<std::string> bowl;   ///< weight of the one bowl that all is weighed into
};

struct WeighOptions {
    std::string recipe; ///< a path, "-", or a name from the book
    RequestWords request;
    std::optional<std::string> kitchen;
    render::Units units = render::Units::metric;
    bool json = false;
};
int run_weigh(const WeighOptions& options);
/// Chooses from the kitchen's own jars; takes what `weigh` takes.
int run_jars(const WeighOptions& options);

struct MendOptions {
    std::string recipe;
    RequestWords request;
    std::vector<std::string> lost;         ///< name=amount
    std::optional<std::string> evaporated; ///< a volume or a weight of water
    std::optional<std::string> kitchen;
    render::Units units = render::Units::metric;
    bool json = false;
};
int run_mend(const MendOptions& options);

struct ChartOptions {
    std::string recipe;
    std::string varied; ///< name=FROM..TO
    RequestWords request;
    std::optional<std::string> every;
    std::optional<std::string> kitchen;
    render::Units units = render::Units::metric;
    enum class Form : std::uint8_t { text, json, csv, markdown } form = Form::text;
};
int run_chart(const ChartOptions& options);

struct BrineOptions {
    std::string words; ///< as typed, joined by blanks
    std::optional<std::string> salt, of, at;
    std::optional<std::string> kitchen;
    render::Units units = render::Units::metric;
    bool json = false;
};
int run_brine(const BrineOptions& options);

struct TraceOptions {
    std::string recipe;
    std::string name; ///< what is traced
    RequestWords request;
    std::optional<std::string> kitchen;
    enum class Form : std::uint8_t { text, json, dot } form = Form::text;
};
int run_trace(const TraceOptions& options);

struct CounterOptions {
    std::string recipe;
    RequestWords request; ///< how the conversation begins
    std::optional<std::string> kitchen;
    render::Units units = render::Units::metric;
};
int run_counter(const CounterOptions& options);

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

struct AppraiseOptions {
    std::string path;                     ///< a file, a saved page, or "-"; empty: standard input
    std::string kind;                     ///< with its method behind a blank; empty: to be inferred
    std::string salt;                     ///< which grain a bare "salt" is
    std::vector<std::string> weighs;      ///< name=amount, what the cook has weighed
    std::optional<std::string> as_recipe; ///< where to write a recipe; "-" for standard output
    render::Units units = render::Units::metric;
    bool json = false;
};
int run_appraise(const AppraiseOptions& options);

} // namespace jarful::cli
