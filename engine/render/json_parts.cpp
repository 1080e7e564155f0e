#include "engine/render/json_parts.hpp"

#include "engine/render/obeyed.hpp"
#include "engine/render/page.hpp"

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include <cmath>

namespace jarful::render {

using Json = nlohmann::ordered_json;

namespace {

enum class Way : std::uint8_t { nearest, down, up };

Json rounded(double value, Way way) {
    if (!std::isfinite(value)) return nullptr;
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

Json range_end(const std::optional<plan::RangeEnd>& end) {
    return end ? json_number(end->percent) : Json(nullptr);
}

} // namespace

Json json_number(double value) {
    return rounded(value, Way::nearest);
}
Json json_low(units::Interval bounds) {
    return rounded(bounds.low, Way::down);
}
Json json_high(units::Interval bounds) {
    return rounded(bounds.high, Way::up);
}
Json json_text(const std::string& text) {
    return text.empty() ? Json(nullptr) : Json(text);
}

Json json_salt(const plan::SaltJudgement& salt) {
    Json range = nullptr;
    if (salt.low || salt.high) {
        const auto text = [](const std::optional<plan::RangeEnd>& end,
                             std::string plan::RangeEnd::*m) {
            return end ? json_text((*end).*m) : Json(nullptr);
        };
        range = Json{{"low", range_end(salt.low)},
                     {"high", range_end(salt.high)},
                     {"low_source", text(salt.low, &plan::RangeEnd::source)},
                     {"high_source", text(salt.high, &plan::RangeEnd::source)},
                     {"low_status", text(salt.low, &plan::RangeEnd::status)},
                     {"high_status", text(salt.high, &plan::RangeEnd::status)},
                     {"low_row", text(salt.low, &plan::RangeEnd::row)},
                     {"high_row", text(salt.high, &plan::RangeEnd::row)}};
    }
    Json nearby = Json::array();
    for (const plan::NearbyRow& row : salt.nearby) {
        nearby.push_back(Json{{"text", row.text}, {"source", json_text(row.source)}});
    }
    Json variants = Json::array();
    for (const auto& variant : salt.variants) {
        variants.push_back(Json{{"text", variant.text},
                                {"low", json_low(variant.bounds)},
                                {"high", json_high(variant.bounds)},
                                {"verdict", plan::describe(variant.verdict)}});
    }
    Json out{{"basis", larder::key(salt.figure.basis)},
             {"percent", json_number(salt.figure.percent)},
             {"low", json_low(salt.figure.bounds)},
             {"high", json_high(salt.figure.bounds)},
             {"range", std::move(range)},
             {"why", json_text(salt.why)},
             {"verdict", plan::describe(salt.verdict)},
             {"reason", salt.reason},
             {"decides", json_text(salt.decides)},
             {"nearby", std::move(nearby)},
             {"variants", std::move(variants)}};
    if (salt.by_the_spoon) {
        out["by_the_spoon"] =
            Json{{"low", json_low(*salt.by_the_spoon)}, {"high", json_high(*salt.by_the_spoon)}};
    }
    return out;
}

Json json_check_line(const plan::HoldCheck& check) {
    const auto bound = [](const std::optional<double>& value) {
        return value ? json_number(*value) : Json(nullptr);
    };
    return Json{{"text", check.text},
                {"unit", check.unit},
                {"low", json_low(check.value)},
                {"high", json_high(check.value)},
                {"at_least", bound(check.at_least)},
                {"at_most", bound(check.at_most)},
                {"verdict", plan::describe(check.verdict)},
                {"why", json_text(check.why)},
                {"reason", check.reason},
                {"decides", json_text(check.decides)}};
}

Json json_diagnostic(const language::Source& source, const language::Diagnostic& found) {
    const auto at = [&](language::Place place, Json& out) {
        const language::LineColumn from = source.locate(place.begin);
        const language::LineColumn to = source.locate(place.end);
        out["line"] = from.line;
        out["column"] = from.column;
        out["end_line"] = to.line;
        out["end_column"] = to.column;
        // Of an inherited line: the file that it stands in.
        if (const std::string& file = source.name_at(place.begin); file != source.name())
            out["file"] = file;
    };
    Json out;
    if (found.place) {
        at(*found.place, out);
    } else {
        for (const char* key : {"line", "column", "end_line", "end_column"})
            out[key] = nullptr;
    }
    out["severity"] = found.severity == language::Severity::fault ? "fault" : "remark";
    out["code"] = found.code;
    out["message"] = found.message;
    out["advice"] = json_text(found.advice);
    Json related = Json::array();
    for (const language::Related& other : found.related) {
        Json entry;
        at(other.place, entry);
        entry["text"] = other.text;
        related.push_back(std::move(entry));
    }
    out["related"] = std::move(related);
    return out;
}

std::string indented(const Json& part) {
    const std::string text = part.dump(2, ' ', false, Json::error_handler_t::replace);
    std::string out;
    out.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        // Nearly everything: a run of ordinary letters at once.
        std::size_t end = at;
        while (end < text.size() && static_cast<unsigned char>(text[end]) < 0x7f)
            ++end;
        out.append(text, at, end - at);
        if (end == text.size()) break;
        const Character c = first_character(std::string_view(text).substr(end));
        if (is_obeyed(c.code)) {
            out += fmt::format("\\u{:04x}", c.code);
        } else {
            out.append(text, end, c.bytes);
        }
        at = end + c.bytes;
    }
    return out;
}

std::string dumped(const Json& document) {
    return indented(document) + "\n";
}

} // namespace jarful::render
