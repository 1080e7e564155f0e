#include "engine/render/csv.hpp"

#include "engine/render/page.hpp"

namespace jarful::render {

namespace {

/// Whether a spreadsheet would take it for a formula: it begins with a sign that begins one, and is
/// not a number.
bool is_formula(const std::string& text) {
    const std::size_t begin = text.find_first_not_of(' ');
    if (begin == std::string::npos) return false;
    const char sign = text[begin];
    if (sign == '=' || sign == '@') return true;
    return (sign == '+' || sign == '-') &&
           text.find_first_not_of("0123456789.", begin + 1) != std::string::npos;
}

std::string field(std::string_view raw) {
    std::string text = visible(raw);
    if (is_formula(text)) text.insert(0, 1, '\'');
    if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"') out += '"';
        out += c;
    }
    return out + '"';
}

} // namespace

void csv_line(std::string& out, const std::vector<std::string>& fields) {
    for (std::size_t i = 0; i < fields.size(); ++i)
        out += (i == 0 ? "" : ",") + field(fields[i]);
    out += "\r\n";
}

} // namespace jarful::render
