#pragma once

#include <cstddef>
#include <map>
#include <string>

/// Tables of words as C++, for the compilers of the larder's facts and of the lexicons.
namespace jarful::larder::compile {

/// The C++ source of a `constexpr PackedTable` of words and their numbers.
/// @throws std::runtime_error names a word that does not fit, or the first beyond a full table
[[nodiscard]] std::string packed_table(const std::string& name,
                                       const std::map<std::string, std::size_t>& words);

} // namespace jarful::larder::compile
