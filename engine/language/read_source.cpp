#include "engine/language/characters.hpp"
#include "engine/language/parse.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>
#include <string>
#include <utility>

/// Bytes to a Source: the only place that sees what a file really holds.
namespace jarful::language {

namespace {

/// A file of nothing but bad bytes needs no million sentences.
constexpr std::size_t reported_characters = 20;

class Cleaner {
  public:
    Cleaner(std::string_view bytes, Findings& findings)
        : bytes_(bytes)
        , findings_(findings) {}

    /// Whether there is nothing to clean.
    [[nodiscard]] bool clean() const { return end_of_plain(0) == bytes_.size(); }

    std::string run() {
        text_.reserve(bytes_.size());
        std::size_t at = bytes_.substr(0, 3) == "\xEF\xBB\xBF" ? 3 : 0;
        while (at < bytes_.size()) {
            const auto byte = static_cast<unsigned char>(bytes_[at]);
            if (byte == '\r' && at + 1 < bytes_.size() && bytes_[at + 1] == '\n') {
                ++at; // the LF that follows ends the line
            } else if (plain(byte)) {
                const std::size_t begin = at;
                at = end_of_plain(at);
                text_.append(bytes_.substr(begin, at - begin));
            } else {
                at += special(at);
            }
        }
        summarise();
        return std::move(text_);
    }

  private:
    static bool plain(unsigned char byte) { return is_plain[byte]; }

    static constexpr std::array<bool, 256> is_plain = [] {
        std::array<bool, 256> out{};
        for (std::size_t byte = 0x20; byte < 0x7F; ++byte)
            out[byte] = true;
        out['\n'] = out['\t'] = true;
        return out;
    }();

    /// Where the plain characters from `at` on end: eight at a time, since that is nearly all of
    /// them.
    std::size_t end_of_plain(std::size_t at) const {
        constexpr std::uint64_t ones = 0x0101010101010101;
        constexpr std::uint64_t high_bits = 0x80 * ones;
        while (true) {
            while (at + sizeof(std::uint64_t) <= bytes_.size()) {
                std::uint64_t eight = 0;
                std::memcpy(&eight, bytes_.data() + at, sizeof eight);
                const std::uint64_t below_blank = (eight - 0x20 * ones) & ~eight;
                const std::uint64_t from_delete_on = (eight + ones) | eight;
                if (((below_blank | from_delete_on) & high_bits) != 0) break;
                at += sizeof eight;
            }
            const std::size_t look_closer = std::min(bytes_.size(), at + sizeof(std::uint64_t));
            for (; at < look_closer; ++at)
                if (!plain(static_cast<unsigned char>(bytes_[at]))) return at;
            if (at == bytes_.size()) return at;
        }
    }

    std::size_t special(std::size_t at) {
        const Decoded d = decode(bytes_.substr(at));
        if (!d.valid) {
            // Bad bytes in a row are one fault; each becomes one blot, so that places stay true.
            std::size_t length = 1;
            while (at + length < bytes_.size() && !decode(bytes_.substr(at + length)).valid)
                ++length;
            report("not-utf8", length,
                   "These bytes are not UTF-8, so nobody can say which character is meant.",
                   "Save the file as UTF-8 and write the character again.");
            text_.append(length, '?');
            return length;
        }
        if (d.value == '\r') {
            report("control-character", 1,
                   "A carriage return stands here without a line feed after it.",
                   "Save the file with the line ends LF or CRLF.");
        } else if (is_control(d.value)) {
            report("control-character", d.length,
                   "An invisible control character stands here (" + code_point_name(d.value) + ").",
                   "Delete it; only blanks, tabs and line ends are allowed.", Mend::delete_it);
        } else if (turns_direction(d.value)) {
            report("hidden-direction", d.length,
                   "An invisible character that turns the direction of writing stands here (" +
                       code_point_name(d.value) +
                       "). With it, a line can read differently from what it does.",
                   "Delete it.", Mend::delete_it);
        }
        text_.append(bytes_.substr(at, d.length));
        return d.length;
    }

    /// What is to be done with a character that does not belong there.
    enum class Mend : std::uint8_t { by_hand, delete_it };

    void report(const char* code, std::size_t length, std::string message, const char* advice,
                Mend mend = Mend::by_hand) {
        if (++count_ > reported_characters) return;
        const auto begin = static_cast<std::uint32_t>(text_.size());
        const Place place{begin, begin + static_cast<std::uint32_t>(length)};
        Diagnostic& found = findings_.fault(code, place, std::move(message), advice);
        if (mend == Mend::delete_it) found.fixes.push_back({place, ""});
    }

    void summarise() {
        if (count_ <= reported_characters) return;
        findings_.fault("bad-characters", std::nullopt,
                        "This file holds " + std::to_string(count_) +
                            " places with characters that do not belong in a text; the first " +
                            std::to_string(reported_characters) + " are shown.",
                        "Look whether it is a text file at all.");
    }

    std::string_view bytes_;
    Findings& findings_;
    std::string text_;
    std::size_t count_ = 0;
};

/// By its byte-order mark (The Unicode Standard, section 23.8), or as every other byte of its
/// beginning is nothing.
bool is_utf16(std::string_view bytes) {
    if (bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF")) return true;
    constexpr std::size_t looked_at = 64;
    const std::string_view start = bytes.substr(0, looked_at);
    if (start.size() < 8) return false;
    std::size_t nothing[2] = {0, 0};
    for (std::size_t i = 0; i < start.size(); ++i)
        if (start[i] == '\0') ++nothing[i % 2];
    return std::max(nothing[0], nothing[1]) * 4 > start.size();
}

} // namespace

std::optional<Source> read_source(std::string name, std::string bytes, Findings& findings) {
    if (bytes.size() > limits::file_bytes) {
        findings.fault("file-too-large", std::nullopt,
                       "This file has " + std::to_string(bytes.size()) +
                           " bytes; a recipe or kitchen may have " +
                           std::to_string(limits::file_bytes) + " (1 MiB).",
                       "Look whether it is the right file.");
        return std::nullopt;
    }
    if (is_utf16(bytes)) {
        findings.fault("utf-16", std::nullopt,
                       "This file is written in UTF-16, two bytes to a letter.",
                       "Save it as UTF-8; an editor offers that under \"encoding\".");
        return std::nullopt;
    }
    Cleaner cleaner(bytes, findings);
    if (cleaner.clean()) return Source(std::move(name), std::move(bytes));
    return Source(std::move(name), cleaner.run());
}

} // namespace jarful::language
