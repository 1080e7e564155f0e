#pragma once

#include "engine/appraise/document.hpp"

/// Salt with an amount in the sentences of a method. For this room only.
namespace jarful::appraise {

/// Adds to `doc.method_salt` what a sentence says of amounts of salt: so much in all, or so much
/// for so much. @param salt the pinned grain, or nullptr.
void scan_salt(Document& doc, std::span<const Token> sentence, const larder::Material* salt);

/// The percentage or the rate that stands beside the amount of a line of salt, as if the method
/// said it. False if it cannot be read.
[[nodiscard]] bool rate_beside(Document& doc, const Reading& line, const larder::Material* salt);

} // namespace jarful::appraise
