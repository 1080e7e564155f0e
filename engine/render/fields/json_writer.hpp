#pragma once

#include "engine/units/interval.hpp"

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace jarful::fields {

/// How what is between two brackets is laid out.
enum class Layout : std::uint8_t {
    lines,    ///< each on a line of its own, two further in
    one_line, ///< all on one line, and so what is inside it
    flush     ///< each on a line of its own, none further in, its parts as if they stood alone
};

/// Writes JSON piece by piece, in the order in which it is to stand. Whoever calls sees to it that
/// brackets close and that every value of an object has a key.
class JsonWriter {
  public:
    /// @param depth how many brackets stand around what is written, somewhere else.
    explicit JsonWriter(int depth = 0)
        : depth_(depth) {}

    void begin_object(Layout layout = Layout::lines) { open('{', layout); }
    void end_object() { close('}'); }
    void begin_list(Layout layout = Layout::lines) { open('[', layout); }
    void end_list() { close(']'); }

    /// Of the value that comes next; without one, nothing is written. Letters that need no escape.
    void key(std::string_view name) { key_ = name; }

    void null();
    void flag(bool value);
    void whole(std::int64_t value);
    /// Without the noise of binary arithmetic: 12 significant digits. null if it is not finite.
    void number(double value);
    /// The two ends of an interval, rounded outward but for the noise of arithmetic; null where it
    /// has no end.
    void low(units::Interval bounds);
    void high(units::Interval bounds);
    /// What is no UTF-8 becomes the replacement character. What a terminal would obey instead of
    /// showing it is written in digits, as `\u009b`: JSON asks for that below U+0020 only (RFC
    /// 8259, section 7).
    void text(std::string_view value);
    /// A value that was written already; line breaks at its end are left out.
    void written(std::string_view json);

    /// What was written, without a line break at the end.
    [[nodiscard]] std::string take() { return std::move(out_); }

  private:
    struct Level {
        Layout layout = Layout::lines;
        bool empty = true;
    };
    void open(char bracket, Layout layout);
    void close(char bracket);
    void begin_value();
    void end_line();
    void figure(double value);

    std::string out_;
    std::string_view key_;
    std::vector<Level> levels_;
    int depth_;
};

} // namespace jarful::fields
