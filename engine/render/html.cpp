#include "engine/render/html.hpp"

#include "engine/render/page.hpp"

#include <algorithm>
#include <array>

namespace jarful::render {

namespace {

bool is_one_of(std::string_view name, std::initializer_list<std::string_view> names) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

/// Elements within a line: a line break before them would be seen as a blank.
bool within_a_line(std::string_view name) {
    return is_one_of(name, {"b", "span", "bdi", "small", "strong", "time", "tspan", "br"});
}

bool is_void(std::string_view name) {
    return is_one_of(name, {"br", "hr", "meta", "link", "img", "input", "wbr"});
}

/// What neither XML 1.0 nor HTML takes as a character.
bool forbidden(const Character& c) {
    const bool control =
        (c.code < 0x20 && c.code != '\t' && c.code != '\n') || (c.code >= 0x7f && c.code < 0xa0);
    const bool none = (c.code & 0xfffeU) == 0xfffeU || (c.code >= 0xfdd0 && c.code <= 0xfdef);
    return !c.sound || control || none;
}

} // namespace

void Markup::escaped(std::string_view words) {
    while (!words.empty()) {
        const auto plain = std::find_if(words.begin(), words.end(), [](char c) {
            return static_cast<unsigned char>(c) >= 0x7f || c < ' ' || c == '&' || c == '<' ||
                   c == '>' || c == '"' || c == '\'';
        });
        const auto length = static_cast<std::size_t>(plain - words.begin());
        out_ += words.substr(0, length);
        words.remove_prefix(length);
        if (words.empty()) return;
        const Character c = first_character(words);
        switch (c.code) {
        case '&':
            out_ += "&amp;";
            break;
        case '<':
            out_ += "&lt;";
            break;
        case '>':
            out_ += "&gt;";
            break;
        case '"':
            out_ += "&quot;";
            break;
        case '\'':
            out_ += "&#39;";
            break;
        default:
            out_ += forbidden(c) ? "\xef\xbf\xbd" : words.substr(0, c.bytes);
        }
        words.remove_prefix(c.bytes);
    }
}

void Markup::start(MarkupName name, const MarkupAttributes& attributes) {
    if (!within_a_line(name.text()) && !out_.empty() && out_.back() != '\n') out_ += '\n';
    out_ += '<';
    out_ += name.text();
    for (const MarkupAttribute& attribute : attributes) {
        out_ += ' ';
        out_ += attribute.name.text();
        out_ += "=\"";
        escaped(attribute.value);
        out_ += '"';
    }
}

void Markup::open(MarkupName name, const MarkupAttributes& attributes) {
    start(name, attributes);
    out_ += '>';
}

void Markup::close(MarkupName name) {
    out_ += "</";
    out_ += name.text();
    out_ += '>';
}

void Markup::element(MarkupName name, const MarkupAttributes& attributes, std::string_view inside) {
    open(name, attributes);
    escaped(inside);
    close(name);
}

void Markup::empty(MarkupName name, const MarkupAttributes& attributes) {
    start(name, attributes);
    out_ += form_ == Form::html && is_void(name.text()) ? ">" : "/>";
}

void Markup::text(std::string_view words) {
    escaped(words);
}

void Markup::style(const StyleSheet& sheet) {
    open("style", {});
    out_ += sheet.css;
    close("style");
}

void Markup::script(const Script& script) {
    open("script", {{"type", "module"}});
    out_ += script.js;
    close("script");
}

void Markup::fixed(const FixedMarkup& part) {
    if (!out_.empty() && out_.back() != '\n') out_ += '\n';
    out_ += part.html;
}

void Markup::data(const MarkupAttributes& attributes, std::string_view json) {
    open("script", attributes);
    for (const char c : json) {
        if (c == '<') {
            out_ += "\\u003c";
        } else {
            out_ += c;
        }
    }
    close("script");
}

void Markup::declaration() {
    out_ +=
        form_ == Form::html ? "<!DOCTYPE html>\n" : "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
}

} // namespace jarful::render
