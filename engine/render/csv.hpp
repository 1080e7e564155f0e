#pragma once

#include <string>
#include <string_view>
#include <vector>

/// Comma-separated values by RFC 4180. For this room.
namespace jarful::render {

/// Adds a line of fields; one with a comma, a quote or a line break comes in quotes. They pass
/// through visible(), and one that a spreadsheet would take for a formula (it begins with =, @, +
/// or - and is no number) begins with an apostrophe, as is common practice.
void csv_line(std::string& out, const std::vector<std::string>& fields);

} // namespace jarful::render
