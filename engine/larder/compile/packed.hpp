#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

/// Tables of words as C++, for the compilers of the larder's facts and of the lexicons.
namespace jarful::larder::compile {

/// The C++ source of a `constexpr PackedTable` of words and their numbers.
/// @throws std::runtime_error names a word that does not fit, or the first beyond a full table
[[nodiscard]] std::string packed_table(const std::string& name,
                                       const std::map<std::string, std::size_t>& words);

/// The texts of constant tables as one run of characters, each of them once (constant.hpp).
class TextBlob {
  public:
    /// C++ that makes a text of its place and size, "{12, 5}"; "{}" of an empty one.
    [[nodiscard]] std::string add(std::string_view text);
    /// The C++ source of the characters, for an array that is declared elsewhere.
    /// @param name with its namespaces
    [[nodiscard]] std::string array(const std::string& name) const;

  private:
    std::string letters_;
};

/// Lists of constant tables as one array.
class Pool {
  public:
    /// @param entries each in C++
    /// @return C++ that makes a slice of where they begin and how many they are; "{}" of none
    [[nodiscard]] std::string add(const std::vector<std::string>& entries);
    /// The C++ source of the array, which is declared elsewhere.
    [[nodiscard]] std::string array(const std::string& type, const std::string& name) const;

  private:
    std::string text_;
    std::size_t size_ = 0;
};

} // namespace jarful::larder::compile
