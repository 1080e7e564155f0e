#include "engine/render/fields/json_writer.hpp"

#include "engine/render/obeyed.hpp"
#include "engine/render/page.hpp"

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include <cmath>

namespace jarful::fields {

namespace {

using Json = nlohmann::ordered_json;

enum class Way : std::uint8_t { nearest, down, up };

/// A finite value with 12 significant digits.
double rounded(double value, Way way) {
    if (value == 0) return 0.0;
    const int digits = 12;
    const int power = digits - 1 - static_cast<int>(std::floor(std::log10(std::abs(value))));
    if (power > 300 || power < -300) return value;
    // Scaled by a whole power of ten, so that dividing gives the nearest double to the decimal.
    const double scale = std::pow(10.0, std::abs(power));
    const auto back = [&](double n) { return power >= 0 ? n / scale : n * scale; };
    double n = std::round(power >= 0 ? value * scale : value / scale);
    // What is nearer than the last steps of the arithmetic is meant to be that decimal.
    const bool noise = std::abs(back(n) - value) <= 1e-14 * std::abs(value);
    if (way == Way::down && back(n) > value && !noise) n -= 1;
    if (way == Way::up && back(n) < value && !noise) n += 1;
    const double out = back(n);
    return out == 0 ? 0.0 : out; // never -0
}

bool plain(char letter) {
    return letter >= ' ' && letter < 0x7f && letter != '"' && letter != '\\';
}

/// With what a terminal would obey in digits.
void add_shown(std::string& out, std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const render::Character c = render::first_character(text.substr(at));
        if (c.code >= 0x7f && render::is_obeyed(c.code)) {
            out += fmt::format("\\u{:04x}", c.code);
        } else {
            out.append(text, at, c.bytes);
        }
        at += c.bytes;
    }
}

} // namespace

void JsonWriter::end_line() {
    out_ += '\n';
    out_.append(2 * static_cast<std::size_t>(depth_), ' ');
}

void JsonWriter::begin_value() {
    if (levels_.empty()) return;
    Level& level = levels_.back();
    if (!level.empty) out_ += ',';
    if (level.layout == Layout::lines) {
        end_line();
    } else if (!level.empty) {
        out_ += level.layout == Layout::flush ? '\n' : ' ';
    }
    level.empty = false;
    if (key_.empty()) return;
    out_ += '"';
    out_ += key_;
    out_ += "\": ";
    key_ = {};
}

void JsonWriter::open(char bracket, Layout layout) {
    begin_value();
    out_ += bracket;
    if (!levels_.empty() && levels_.back().layout == Layout::one_line) layout = Layout::one_line;
    levels_.push_back({layout, true});
    if (layout == Layout::lines) ++depth_;
}

void JsonWriter::close(char bracket) {
    const Level level = levels_.back();
    levels_.pop_back();
    if (level.layout == Layout::lines) {
        --depth_;
        if (!level.empty) end_line();
    }
    out_ += bracket;
    key_ = {};
}

void JsonWriter::null() {
    begin_value();
    out_ += "null";
}

void JsonWriter::flag(bool value) {
    begin_value();
    out_ += value ? "true" : "false";
}

void JsonWriter::whole(std::int64_t value) {
    begin_value();
    out_ += std::to_string(value);
}

void JsonWriter::figure(double value) {
    begin_value();
    out_ += Json(value).dump();
}

void JsonWriter::number(double value) {
    if (!std::isfinite(value)) return null();
    figure(rounded(value, Way::nearest));
}

void JsonWriter::low(units::Interval bounds) {
    if (!std::isfinite(bounds.low)) return null();
    figure(rounded(bounds.low, Way::down));
}

void JsonWriter::high(units::Interval bounds) {
    if (!std::isfinite(bounds.high)) return null();
    figure(rounded(bounds.high, Way::up));
}

void JsonWriter::text(std::string_view value) {
    begin_value();
    std::size_t end = 0;
    while (end < value.size() && plain(value[end]))
        ++end;
    if (end == value.size()) {
        out_ += '"';
        out_ += value;
        out_ += '"';
    } else {
        add_shown(out_, Json(value).dump(-1, ' ', false, Json::error_handler_t::replace));
    }
}

void JsonWriter::written(std::string_view json) {
    begin_value();
    while (json.ends_with('\n'))
        json.remove_suffix(1);
    out_ += json;
}

} // namespace jarful::fields
