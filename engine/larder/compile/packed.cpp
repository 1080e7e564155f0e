#include "engine/larder/compile/packed.hpp"

#include "engine/larder/word_table.hpp"

#include <cstdint>
#include <cstdio>
#include <stdexcept>
#include <string_view>

namespace jarful::larder::compile {

namespace {

/// A string literal of any bytes, over several lines.
std::string literal(std::string_view bytes) {
    std::string out = "    \"";
    for (std::size_t i = 0; i < bytes.size(); ++i) {
        const auto byte = static_cast<unsigned char>(bytes[i]);
        if (byte >= 0x20 && byte < 0x7F && byte != '"' && byte != '\\' && byte != '?') {
            out += bytes[i];
        } else {
            char octal[8];
            std::snprintf(octal, sizeof octal, "\\%03o", byte);
            out += octal;
        }
        if (i % 64 == 63) out += "\"\n    \"";
    }
    return out + '"';
}

} // namespace

std::string packed_table(const std::string& name, const std::map<std::string, std::size_t>& words) {
    PackedWords packed;
    for (const auto& [word, number] : words) {
        if (number > 0xFFFF || !packed.add(word, static_cast<std::uint16_t>(number)))
            throw std::runtime_error("\"" + word + "\" does not fit into the table " + name);
    }
    std::string out = "constexpr char " + name + "_bytes[] =\n" + literal(packed.bytes()) +
                      ";\nconstexpr std::uint16_t " + name + "_places[] = {";
    for (const std::uint16_t place : packed.places())
        out += std::to_string(place) + ", ";
    out += packed.places().empty() ? "0};\n" : "};\n";
    return out + "constexpr larder::PackedTable " + name + " = {{" + name + "_bytes, " +
           std::to_string(packed.bytes().size()) + "}, " +
           (packed.places().empty() ? "{}" : name + "_places") + "};\n";
}

std::string TextBlob::add(std::string_view text) {
    if (text.empty()) return "{}";
    std::size_t place = letters_.find(text);
    if (place == std::string::npos) {
        place = letters_.size();
        letters_ += text;
    }
    return "{" + std::to_string(place) + ", " + std::to_string(text.size()) + "}";
}

std::string TextBlob::array(const std::string& name) const {
    return "constinit const char " + name + "[] =\n" + literal(letters_) + ";\n";
}

std::string Pool::add(const std::vector<std::string>& entries) {
    if (entries.empty()) return "{}";
    const std::string place =
        "{" + std::to_string(size_) + ", " + std::to_string(entries.size()) + "}";
    for (const std::string& entry : entries)
        text_ += entry + ",\n";
    size_ += entries.size();
    return place;
}

std::string Pool::array(const std::string& type, const std::string& name) const {
    // An array of nothing is none: it has one entry that nobody refers to.
    return "constinit const " + type + " " + name + "[] = {\n" + (size_ == 0 ? "{}" : text_) +
           "};\n";
}

} // namespace jarful::larder::compile
