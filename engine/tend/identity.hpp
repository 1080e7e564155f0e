#pragma once

#include <string>
#include <string_view>

/// Names that follow from what they name.
namespace jarful::tend {

/// The id that git gives a file's content: SHA-1 of "blob N", a zero byte and the N bytes, as 40
/// hexadecimal digits. Source: git's documentation of its objects.
[[nodiscard]] std::string blob_id(std::string_view bytes);

/// A UUID that follows from a text (version 5 of RFC 4122): the same text, the same UUID.
[[nodiscard]] std::string named_uuid(std::string_view text);

} // namespace jarful::tend
