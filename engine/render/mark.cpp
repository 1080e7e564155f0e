#include "engine/render/mark.hpp"

#include <array>
#include <optional>

namespace jarful::render {

namespace {

constexpr std::string_view before_what = "Written by jarful as a ";
constexpr std::string_view before_hash = " with the mark ";
constexpr std::size_t hash_digits = 16;

/// Where a mark stands in a text.
struct Place {
    std::string_view what;
    std::size_t hash = 0; ///< of its first digit
};

/// The mark that begins at a place, if one does.
std::optional<Place> place_at(std::string_view text, std::size_t at) {
    const std::size_t begin = at + before_what.size();
    constexpr std::size_t longest = 40;
    const std::size_t end = text.substr(begin, longest).find(before_hash);
    if (end == std::string_view::npos) return std::nullopt;
    const std::size_t hash = begin + end + before_hash.size();
    if (text.size() < hash + hash_digits) return std::nullopt;
    return Place{text.substr(begin, end), hash};
}

/// The hash of all but the digits of a mark.
std::string hash_around(std::string_view text, std::size_t digits) {
    return content_hash(std::string(text.substr(0, digits)) +
                        std::string(text.substr(digits + hash_digits)));
}

std::string mark_line(std::string_view what) {
    return std::string(before_what) + std::string(what) + std::string(before_hash) +
           std::string(hash_digits, '0');
}

/// What a file of a version that wrote no marks is, told by what each of them began with and has
/// inside; empty if it is none.
std::string_view older(std::string_view text) {
    const auto has = [&](std::string_view part) {
        return text.find(part) != std::string_view::npos;
    };
    if (text.starts_with("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Jarful//jarful tend//EN\r\n"))
        return made::calendar;
    if (text.starts_with("// A page's script, written by jarful.\n") ||
        text.starts_with("/* A page's style, written by jarful. */\n") ||
        (text.starts_with("{\"name\":") &&
         has("\"start_url\":\"./\",\"scope\":\"./\",\"display\":\"standalone\"")) ||
        text.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 96 96\"><rect "
                         "width=\"96\" height=\"96\" rx=\"18\" fill=\"#fdfcf9\"/>"))
        return made::page_part;
    if (text.starts_with("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg "
                         "xmlns=\"http://www.w3.org/2000/svg\" xml:lang=\"en\" width=\"720\"") &&
        has("<g role=\"img\" aria-labelledby=\""))
        return made::picture;
    if (text.starts_with("# ") && has("\n| wait for | what | on scale | to know |\n"))
        return made::card_text;
    constexpr std::string_view head =
        ">\n<head>\n<meta charset=\"utf-8\">\n<meta http-equiv=\"Content-Security-Policy\" "
        "content=\"default-src &#39;none&#39;; ";
    if (!text.starts_with("<!DOCTYPE html>\n<html lang=\"en\"") ||
        !text.ends_with("</body></html>\n") || text.substr(0, 400).find(head) == text.npos)
        return {};
    if (has("<meta name=\"jarful-engine\"") || has("id=\"page-load\"")) return made::page;
    if (has("<ul class=\"labels\">")) return made::labels;
    return has("<main class=\"card\">") ? made::card : std::string_view();
}

} // namespace

std::string content_hash(std::string_view content) {
    std::uint64_t hash = 14695981039346656037ULL;
    for (const char c : content)
        hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
    std::string out;
    for (int shift = 60; shift >= 0; shift -= 4)
        out += "0123456789abcdef"[hash >> static_cast<unsigned>(shift) & 15U];
    return out;
}

std::string with_mark(std::string text, std::string_view what, MarkForm form) {
    const std::string line = mark_line(what);
    std::size_t at = text.size();
    switch (form) {
    case MarkForm::markup:
        text += "<!-- " + line + " -->\n";
        break;
    case MarkForm::script:
        text += "// " + line + "\n";
        break;
    case MarkForm::style:
        text += "/* " + line + " */\n";
        break;
    case MarkForm::calendar:
        // In the calendar's head; with so short a name the line needs no folding.
        at = text.find("\r\n", text.find("PRODID:")) + 2;
        text.insert(at, "X-JARFUL:" + line + "\r\n");
        break;
    case MarkForm::manifest:
        at = text.rfind('}');
        text.insert(at, ",\"jarful\":\"" + line + "\"");
        break;
    }
    const std::size_t digits = text.find(before_hash, at) + before_hash.size();
    text.replace(digits, hash_digits, hash_around(text, digits));
    return text;
}

Mark mark_in(std::string_view text) {
    // A calendar's stands at its beginning, any other at its end; what a recipe's title says may
    // look like one.
    bool any = false;
    std::string_view what;
    for (const std::size_t at : {text.find(before_what), text.rfind(before_what)}) {
        if (at == std::string_view::npos) continue;
        const auto place = place_at(text, at);
        if (!place) continue;
        any = true;
        what = place->what;
        if (text.substr(place->hash, hash_digits) == hash_around(text, place->hash))
            return {Mark::State::sound, std::string(what)};
    }
    if (any) return {Mark::State::changed, std::string(what)};
    what = older(text);
    return {what.empty() ? Mark::State::none : Mark::State::sound, std::string(what)};
}

} // namespace jarful::render
