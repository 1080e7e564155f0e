#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>

/// Reading ordinary files, at most so many bytes of them.
namespace jarful::cli {

/// Whether a link leads to a file or is none.
enum class Links : std::uint8_t { followed, refused };
/// The bytes of an ordinary file of at most `most` bytes; nothing if it is anything else, or
/// larger, or cannot be read.
[[nodiscard]] std::optional<std::string> whole_file(const std::string& path, std::size_t most,
                                                    Links links = Links::followed);

/// Reads at most `enough` bytes of an open file to the end of a text. Of an ordinary file
/// (`ordinary`) a short piece is the last one.
/// @return 0, or the error number.
[[nodiscard]] int read_all(int descriptor, bool ordinary, std::size_t enough, std::string& bytes);

/// A file's descriptor, closed in the end.
class Opened {
  public:
    explicit Opened(int descriptor)
        : descriptor_(descriptor) {}
    ~Opened();
    Opened(const Opened&) = delete;
    Opened& operator=(const Opened&) = delete;
    [[nodiscard]] int get() const { return descriptor_; }

  private:
    int descriptor_;
};

} // namespace jarful::cli
