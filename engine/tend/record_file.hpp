#pragma once

#include <optional>
#include <string>
#include <string_view>

/// The file of a record, which is begun once and then only added to.
namespace jarful::tend {

/// Makes the file: whole or not at all, and never over one that is there.
/// @return what stood in the way, as a sentence. `exists` is set if there is such a file.
[[nodiscard]] std::optional<std::string> begin_record(const std::string& path,
                                                      std::string_view text, bool& exists);

/// Adds lines at the end, under a lock, and waits until they are on the disk: all of them, or,
/// where there is no room for all, none. A process that is killed meanwhile loses these lines at
/// most. A line that an earlier one left unfinished is ended first, so that it spoils no other.
/// @param lines whole ones, ending with a line break.
/// @return what stood in the way, as a sentence.
[[nodiscard]] std::optional<std::string> add_to_record(const std::string& path,
                                                       std::string_view lines);

} // namespace jarful::tend
