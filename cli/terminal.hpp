#pragma once

#include "engine/render/page.hpp"

#include <string_view>

/// Standard output, standard error, and what the environment says about them.
namespace jarful::cli {

/// Writes a result. A reader who has gone away is no error; anything else that stops the writing
/// is said on standard error.
/// @return false if the result did not get where it should.
[[nodiscard]] bool write_result(std::string_view text);

/// `status`, or the status of a command that could not be done if the result cannot be written.
[[nodiscard]] int finish(std::string_view result, int status);

/// Writes to standard error as it is.
void write_aside(std::string_view text);

/// A sentence on standard error, behind the program's name, wrapped; control characters made
/// visible.
void complain(std::string_view sentence);

/// Whether standard output, or standard error, is a terminal that takes colour: NO_COLOR and a
/// dumb terminal turn it off.
[[nodiscard]] bool result_in_colour();
[[nodiscard]] bool aside_in_colour();

/// Text style for standard output.
/// @param full all there is, and not only what fits on a screen.
[[nodiscard]] render::TextStyle result_style(render::Units units = render::Units::metric,
                                             bool full = true);

/// A line on a terminal's standard error that says how far long work has come. Silent in the first
/// second, and where standard error is no terminal.
class Progress {
  public:
    explicit Progress(std::size_t total);
    ~Progress();
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;
    void at(std::size_t done);
    /// Takes the line away.
    void done();

  private:
    std::size_t total_;
    bool terminal_;
    bool shown_ = false;
    long long started_ms_;
    long long last_ms_ = 0;
};

} // namespace jarful::cli
