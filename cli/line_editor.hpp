#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// Reading lines from a person or from a script.
namespace jarful::cli {

/// What the last word of a line that is being typed may become, and where it begins.
struct WordChoice {
    std::size_t from = 0;
    std::vector<std::string> words;
};

/// Where lines come from.
class LineSource {
  public:
    enum class Event : std::uint8_t { line, cancelled, end };
    virtual ~LineSource() = default;
    /// The next line, without its end.
    virtual Event next(std::string& line) = 0;
    /// Whether a person is typing: then there is a prompt.
    [[nodiscard]] virtual bool typed() const = 0;
};

/// Standard input. On a terminal, with a prompt, and, where libedit is installed, with editing,
/// history and completion; that library is loaded by this call and by nothing else. Otherwise plain
/// lines. A line longer than 64 KiB is cut there.
/// @param complete given the line up to the cursor.
[[nodiscard]] std::unique_ptr<LineSource>
line_source(const std::string& prompt, std::function<WordChoice(std::string_view)> complete);

} // namespace jarful::cli
