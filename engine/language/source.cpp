#include "engine/language/source.hpp"

#include <algorithm>
#include <utility>

namespace jarful::language {

Source::Source(std::string name, std::string text)
    : name_(std::move(name))
    , text_(std::move(text)) {
}

std::string_view Source::own_text() const {
    return std::string_view(text_).substr(0, parts_.empty() ? text_.size() : parts_.front().begin);
}
std::string_view Source::at(Place place) const {
    const std::size_t begin = std::min<std::size_t>(place.begin, text_.size());
    const std::size_t end = std::clamp<std::size_t>(place.end, begin, text_.size());
    return std::string_view(text_).substr(begin, end - begin);
}

void Source::index_lines() const {
    if (!line_starts_.empty()) return;
    line_starts_.push_back(0);
    for (std::size_t at = text_.find('\n'); at != std::string::npos; at = text_.find('\n', at + 1))
        line_starts_.push_back(static_cast<std::uint32_t>(at + 1));
}

std::uint32_t Source::line_of(std::uint32_t offset) const {
    index_lines();
    const auto after = std::upper_bound(line_starts_.begin(), line_starts_.end(), offset);
    return static_cast<std::uint32_t>(after - line_starts_.begin());
}

const Source::Part* Source::part_of(std::uint32_t offset) const {
    const Part* found = nullptr;
    for (const Part& part : parts_)
        if (part.begin <= offset) found = &part;
    return found;
}

const std::string& Source::name_at(std::uint32_t offset) const {
    const Part* part = part_of(offset);
    return part == nullptr ? name_ : part->name;
}

std::uint32_t Source::append(const Source& other) {
    if (!text_.empty() && text_.back() != '\n') text_ += '\n';
    const auto shift = static_cast<std::uint32_t>(text_.size());
    parts_.push_back({shift, other.name_});
    for (const Part& part : other.parts_)
        parts_.push_back({part.begin + shift, part.name});
    text_ += other.text_;
    line_starts_.clear();
    return shift;
}

LineColumn Source::locate(std::uint32_t offset) const {
    const auto end = static_cast<std::uint32_t>(std::min<std::size_t>(offset, text_.size()));
    const std::uint32_t line = line_of(end);
    std::uint32_t column = 1;
    for (std::uint32_t i = line_starts_[line - 1]; i < end; ++i) {
        // A character is counted at its first byte; the bytes that go on with it begin with 10.
        if ((static_cast<unsigned char>(text_[i]) & 0xC0U) != 0x80U) ++column;
    }
    const Part* part = part_of(end);
    return {part == nullptr ? line : line - line_of(part->begin) + 1, column};
}

std::string_view Source::line(std::uint32_t number) const {
    index_lines();
    if (number == 0 || number > line_starts_.size()) return {};
    const std::size_t begin = line_starts_[number - 1];
    const std::size_t end = number < line_starts_.size() ? line_starts_[number] - 1 : text_.size();
    return std::string_view(text_).substr(begin, end - begin);
}

std::string_view Source::line_at(std::uint32_t offset) const {
    return line(line_of(static_cast<std::uint32_t>(std::min<std::size_t>(offset, text_.size()))));
}

} // namespace jarful::language
