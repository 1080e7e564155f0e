#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

/// Messages on a stream of bytes: the base protocol of LSP 3.17, a header with Content-Length, an
/// empty line, and so many bytes.
namespace jarful::assist {

/// A message may have so many bytes: a file of 1 MiB with every character escaped, and room.
inline constexpr std::size_t most_message_bytes = 16U << 20U;

/// Takes a stream apart, however it is cut.
class Frames {
  public:
    struct Message {
        std::string body;
        std::string trouble; ///< a sentence, where there is no body that could be read
    };

    void feed(std::string_view bytes);
    /// The next whole message; empty until more was fed. A message that is too large is passed
    /// over, however long it is, without being kept.
    [[nodiscard]] std::optional<Message> next();
    /// Whether the stream is beyond help: a header that is none, behind which nobody can tell where
    /// the next message begins.
    [[nodiscard]] bool broken() const { return broken_; }

  private:
    [[nodiscard]] bool header();
    std::string waiting_;
    std::size_t passed_ = 0;          ///< bytes of `waiting_` that are dealt with
    std::optional<std::size_t> body_; ///< bytes of the body that comes
    std::size_t skip_ = 0;            ///< bytes still to be passed over
    bool too_large_ = false;
    bool broken_ = false;
    bool told_ = false;
};

/// A message with its header.
[[nodiscard]] std::string framed(std::string_view body);

} // namespace jarful::assist
