#include "engine/assist/frames.hpp"

#include <algorithm>
#include <cctype>

namespace jarful::assist {

namespace {

/// The longest header: a few short fields.
constexpr std::size_t most_header_bytes = 4096;
/// Above this a length is taken for rubbish, not for a message that is merely too large.
constexpr std::size_t most_length_digits = 12;

bool same_word(std::string_view a, std::string_view b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](unsigned char x, unsigned char y) {
        return std::tolower(x) == std::tolower(y);
    });
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t'))
        text.remove_prefix(1);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\r'))
        text.remove_suffix(1);
    return text;
}

/// The figure of the Content-Length field; empty if there is none or it is no number.
std::optional<std::size_t> length_in(std::string_view header) {
    std::optional<std::size_t> out;
    while (!header.empty()) {
        const std::size_t end = std::min(header.find('\n'), header.size());
        const std::string_view line = header.substr(0, end);
        header.remove_prefix(std::min(end + 1, header.size()));
        const std::size_t colon = line.find(':');
        if (colon == std::string_view::npos) continue;
        if (!same_word(trimmed(line.substr(0, colon)), "content-length")) continue;
        const std::string_view figure = trimmed(line.substr(colon + 1));
        if (figure.empty() || figure.size() > most_length_digits) return std::nullopt;
        std::size_t value = 0;
        for (const char c : figure) {
            if (c < '0' || c > '9') return std::nullopt;
            value = value * 10 + static_cast<std::size_t>(c - '0');
        }
        out = value;
    }
    return out;
}

} // namespace

void Frames::feed(std::string_view bytes) {
    if (broken_) return;
    if (skip_ > 0) {
        const std::size_t over = std::min(skip_, bytes.size());
        skip_ -= over;
        bytes.remove_prefix(over);
    }
    if (passed_ > 0) {
        waiting_.erase(0, passed_);
        passed_ = 0;
    }
    waiting_ += bytes;
}

bool Frames::header() {
    const std::string_view here = std::string_view(waiting_).substr(passed_);
    // The protocol says CRLF; a bare LF is understood, too.
    std::size_t end = here.find("\r\n\r\n");
    std::size_t size = 4;
    if (const std::size_t bare = here.find("\n\n"); bare < end) {
        end = bare;
        size = 2;
    }
    if (end == std::string_view::npos || end > most_header_bytes) {
        broken_ = here.size() > most_header_bytes;
        return false;
    }
    const auto length = length_in(here.substr(0, end));
    if (!length) {
        broken_ = true;
        return false;
    }
    passed_ += end + size;
    body_ = *length;
    too_large_ = *length > most_message_bytes;
    return true;
}

std::optional<Frames::Message> Frames::next() {
    if (!body_ && !broken_ && skip_ == 0 && !header() && !broken_) return std::nullopt;
    if (broken_) {
        if (told_) return std::nullopt;
        told_ = true;
        waiting_.clear();
        passed_ = 0;
        return Message{"", "A message begins with a Content-Length header, and this one does not."};
    }
    if (!body_) return std::nullopt;
    const std::size_t here = waiting_.size() - passed_;
    if (too_large_) {
        const std::size_t over = std::min(*body_, here);
        skip_ = *body_ - over;
        passed_ += over;
        body_.reset();
        too_large_ = false;
        return Message{"", "This message is larger than " + std::to_string(most_message_bytes) +
                               " bytes, and was not read."};
    }
    if (here < *body_) return std::nullopt;
    Message out{waiting_.substr(passed_, *body_), ""};
    passed_ += *body_;
    body_.reset();
    return out;
}

std::string framed(std::string_view body) {
    return "Content-Length: " + std::to_string(body.size()) + "\r\n\r\n" + std::string(body);
}

} // namespace jarful::assist
