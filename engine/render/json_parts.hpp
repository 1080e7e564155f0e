#pragma once

#include "engine/language/diagnostic.hpp"
#include "engine/plan/weigh_out.hpp"

#include <nlohmann/json_fwd.hpp>

#include <string>

/// Pieces that several documents share. Only the json_*.cpp files of this room include this.
namespace jarful::render {

/// A figure without the noise of binary arithmetic: 12 significant digits. null if not finite.
[[nodiscard]] nlohmann::ordered_json json_number(double value);
/// The two ends of an interval, rounded outward but for the noise of arithmetic; null where it has
/// no end.
[[nodiscard]] nlohmann::ordered_json json_low(units::Interval bounds);
[[nodiscard]] nlohmann::ordered_json json_high(units::Interval bounds);
/// null for an empty text.
[[nodiscard]] nlohmann::ordered_json json_text(const std::string& text);

[[nodiscard]] nlohmann::ordered_json json_salt(const plan::SaltJudgement& salt);
[[nodiscard]] nlohmann::ordered_json json_check_line(const plan::HoldCheck& check);
[[nodiscard]] nlohmann::ordered_json json_jar_shares(const std::vector<plan::JarShare>& jars);

/// A finding with its places as lines and columns.
[[nodiscard]] nlohmann::ordered_json json_diagnostic(const language::Source& source,
                                                     const language::Diagnostic& found);

/// Indented, without a line break at the end. What is no UTF-8 becomes the replacement character.
/// What a terminal would obey instead of showing it is written in digits, as `\u009b`: JSON asks
/// for that below U+0020 only (RFC 8259, section 7).
[[nodiscard]] std::string indented(const nlohmann::ordered_json& part);
/// The same with a line break at the end.
[[nodiscard]] std::string dumped(const nlohmann::ordered_json& document);

} // namespace jarful::render
