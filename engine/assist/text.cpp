#include "engine/assist/text.hpp"

#include "engine/language/characters.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace jarful::assist {

namespace {

std::uint32_t units_of(const language::Decoded& d, Encoding encoding) {
    if (encoding == Encoding::utf8) return d.length;
    return d.valid && d.value >= 0x10000 ? 2 : 1;
}

} // namespace

Text::Text(std::string raw)
    : raw_(std::move(raw)) {
    index();
}

void Text::index() {
    lines_.assign(1, 0);
    removed_.clear();
    read_.clear();
    std::uint32_t gone = 0;
    const auto leave_out = [&](std::size_t at, std::uint32_t bytes) {
        const auto here = static_cast<std::uint32_t>(at - gone);
        gone += bytes;
        removed_.push_back({here, gone});
    };
    std::size_t at = 0;
    if (raw_.starts_with("\xEF\xBB\xBF")) {
        leave_out(0, 3);
        at = 3;
    }
    for (; at < raw_.size(); ++at) {
        if (raw_[at] != '\n' && raw_[at] != '\r') continue;
        if (raw_[at] == '\r' && at + 1 < raw_.size() && raw_[at + 1] == '\n') {
            leave_out(at, 1);
            ++at;
        }
        lines_.push_back(at + 1);
    }
    if (removed_.empty()) return;
    read_.reserve(raw_.size());
    for (std::size_t i = raw_.starts_with("\xEF\xBB\xBF") ? 3 : 0; i < raw_.size(); ++i)
        if (raw_[i] != '\r' || i + 1 == raw_.size() || raw_[i + 1] != '\n') read_ += raw_[i];
}

std::size_t Text::raw_offset(Position position, Encoding encoding) const {
    if (position.line >= lines_.size()) return raw_.size();
    std::size_t at = lines_[position.line];
    std::size_t end = position.line + 1 < lines_.size() ? lines_[position.line + 1] : raw_.size();
    while (end > at && (raw_[end - 1] == '\n' || raw_[end - 1] == '\r'))
        --end;
    std::uint32_t left = position.character;
    while (at < end && left > 0) {
        const language::Decoded d = language::decode(std::string_view(raw_).substr(at, end - at));
        const std::uint32_t units = units_of(d, encoding);
        if (units > left) break; // in the middle of a character: at its beginning
        left -= units;
        at += d.length;
    }
    return at;
}

Position Text::raw_position(std::size_t raw, Encoding encoding) const {
    raw = std::min(raw, raw_.size());
    const auto after = std::upper_bound(lines_.begin(), lines_.end(), raw);
    const auto line = static_cast<std::size_t>(after - lines_.begin()) - 1;
    Position out{static_cast<std::uint32_t>(line), 0};
    if (encoding == Encoding::utf8) {
        out.character = static_cast<std::uint32_t>(raw - lines_[line]);
        return out;
    }
    for (std::size_t at = lines_[line]; at < raw;) {
        const language::Decoded d = language::decode(std::string_view(raw_).substr(at));
        out.character += units_of(d, encoding);
        at += d.length;
    }
    return out;
}

std::uint32_t Text::offset(Position position, Encoding encoding) const {
    const std::size_t raw = raw_offset(position, encoding);
    std::uint32_t gone = 0;
    for (const Removed& one : removed_) {
        // Where the byte that is left out stood in the raw text.
        const std::uint32_t before = gone;
        if (one.at + before >= raw) break;
        gone = one.bytes;
    }
    return static_cast<std::uint32_t>(raw >= gone ? raw - gone : 0);
}

Position Text::position(std::uint32_t offset, Encoding encoding) const {
    // A CR stands before the line's end that the engine's offset points at.
    const auto after = std::lower_bound(
        removed_.begin(), removed_.end(), offset, [](const Removed& one, std::uint32_t at) {
            const bool byte_order_mark = one.at == 0 && one.bytes == 3;
            return one.at < at || byte_order_mark;
        });
    const std::uint32_t gone = after == removed_.begin() ? 0 : std::prev(after)->bytes;
    return raw_position(offset + gone, encoding);
}

Position Text::position(language::LineColumn at, Encoding encoding) const {
    if (at.line > lines_.size()) return raw_position(raw_.size(), encoding);
    std::size_t raw = at.line == 0 ? 0 : lines_[at.line - 1];
    if (raw == 0 && raw_.starts_with("\xEF\xBB\xBF")) raw = 3;
    const std::string_view text = raw_;
    for (std::uint32_t column = 1; column < at.column && raw < text.size(); ++column) {
        if (text[raw] == '\n' || text.substr(raw, 2) == "\r\n") break;
        raw += language::decode(text.substr(raw)).length;
    }
    return raw_position(raw, encoding);
}

Range Text::range(language::Place place, Encoding encoding) const {
    return {position(place.begin, encoding), position(std::max(place.begin, place.end), encoding)};
}

void Text::replace(Range range, Encoding encoding, std::string_view words) {
    const std::size_t begin = raw_offset(range.start, encoding);
    const std::size_t end = std::max(begin, raw_offset(range.end, encoding));
    raw_.replace(begin, end - begin, words);
    index();
}

} // namespace jarful::assist
