#include "engine/appraise/page.hpp"

#include "engine/appraise/text.hpp"

#include <algorithm>
#include <gumbo.h>

/// The one file that knows the HTML parser.
namespace jarful::appraise {

namespace {

constexpr unsigned deepest = 400; ///< what is nested further is passed over

bool block(GumboTag tag) {
    switch (tag) {
    case GUMBO_TAG_P:
    case GUMBO_TAG_DIV:
    case GUMBO_TAG_LI:
    case GUMBO_TAG_UL:
    case GUMBO_TAG_OL:
    case GUMBO_TAG_BR:
    case GUMBO_TAG_TR:
    case GUMBO_TAG_H1:
    case GUMBO_TAG_H2:
    case GUMBO_TAG_H3:
    case GUMBO_TAG_H4:
    case GUMBO_TAG_H5:
    case GUMBO_TAG_H6:
    case GUMBO_TAG_SECTION:
    case GUMBO_TAG_ARTICLE:
    case GUMBO_TAG_TABLE:
    case GUMBO_TAG_DT:
    case GUMBO_TAG_DD:
    case GUMBO_TAG_LABEL:
    case GUMBO_TAG_BLOCKQUOTE:
    case GUMBO_TAG_PRE:
        return true;
    default:
        return false;
    }
}

bool hidden(GumboTag tag) {
    switch (tag) {
    case GUMBO_TAG_SCRIPT:
    case GUMBO_TAG_STYLE:
    case GUMBO_TAG_NOSCRIPT:
    case GUMBO_TAG_TEMPLATE:
    case GUMBO_TAG_HEAD:
    case GUMBO_TAG_NAV:
    case GUMBO_TAG_FOOTER:
    case GUMBO_TAG_SVG:
    case GUMBO_TAG_BUTTON:
    case GUMBO_TAG_SELECT:
        return true;
    default:
        return false;
    }
}

bool is_data(const GumboElement& element) {
    const GumboAttribute* type = gumbo_get_attribute(&element.attributes, "type");
    return type != nullptr && lower(type->value).find("ld+json") != std::string::npos;
}

constexpr bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f';
}

constexpr bool is_letter(char c) {
    return (c | 0x20) >= 'a' && (c | 0x20) <= 'z';
}

/// How deep elements that must be closed are nested, by their tags alone: the parser takes the
/// square of that in time.
bool nested_too_deep(std::string_view bytes) {
    static constexpr std::string_view closing_by_itself[] = {
        "p",    "li",  "br",     "img",   "input", "meta",     "link",   "hr",  "td",
        "tr",   "th",  "option", "dt",    "dd",    "path",     "source", "col", "area",
        "base", "wbr", "embed",  "param", "track", "!doctype", "tbody"};
    int depth = 0;
    for (std::size_t i = 0; i + 1 < bytes.size(); ++i) {
        if (bytes[i] != '<') continue;
        const bool close = bytes[i + 1] == '/';
        std::size_t end = i + (close ? 2 : 1);
        const std::size_t begin = end;
        while (end < bytes.size() && end - begin < 12 && is_letter(bytes[end]))
            ++end;
        if (end == begin) continue;
        const std::string name = lower(bytes.substr(begin, end - begin));
        if (std::find(std::begin(closing_by_itself), std::end(closing_by_itself),
                      std::string_view(name)) != std::end(closing_by_itself))
            continue;
        depth = close ? std::max(0, depth - 1) : depth + 1;
        if (depth > 2000) return true;
        i = end - 1;
    }
    return false;
}

/// A page without the attributes of a tag beyond the first so many, which nobody reads: the parser
/// compares each with all before it.
class FewAttributes {
  public:
    explicit FewAttributes(std::string_view page)
        : page_(page) {}

    std::string written() {
        while (at_ < page_.size()) {
            if (page_[at_] != '<') {
                ++at_;
            } else if (page_.substr(at_, 4) == "<!--") {
                skip_to("-->");
            } else if (at_ + 1 < page_.size() && is_letter(page_[at_ + 1])) {
                tag();
            } else {
                ++at_;
            }
        }
        out_ += page_.substr(kept_);
        return std::move(out_);
    }

  private:
    static constexpr std::size_t most = 200;

    void tag() {
        const std::size_t begin = ++at_;
        while (at_ < page_.size() && !is_blank(page_[at_]) && page_[at_] != '/' &&
               page_[at_] != '>')
            ++at_;
        const std::string name = lower(page_.substr(begin, std::min<std::size_t>(at_ - begin, 12)));
        std::size_t count = 0;
        std::size_t too_many = 0;
        while (at_ < page_.size() && page_[at_] != '>') {
            if (is_blank(page_[at_]) || page_[at_] == '/') {
                ++at_;
                continue;
            }
            if (++count == most + 1) too_many = at_;
            attribute();
        }
        if (count > most) {
            out_ += page_.substr(kept_, too_many - kept_);
            kept_ = at_;
        }
        // What stands in these is text, whatever it looks like.
        for (const std::string_view plain : {"script", "style", "textarea", "title"})
            if (name == plain) skip_to("</" + name);
    }

    /// HTML, "Tokenization": a name up to a blank, "/", ">" or "=", and a value in quotes or up to
    /// a blank or ">".
    void attribute() {
        const auto until = [&](auto&& ends) {
            while (at_ < page_.size() && !ends(page_[at_]))
                ++at_;
        };
        ++at_; // may be anything, "=" too
        until([](char c) { return is_blank(c) || c == '/' || c == '>' || c == '='; });
        until([](char c) { return !is_blank(c); });
        if (at_ >= page_.size() || page_[at_] != '=') return;
        ++at_;
        until([](char c) { return !is_blank(c); });
        if (at_ >= page_.size() || page_[at_] == '>') return;
        const char quote = page_[at_];
        if (quote != '"' && quote != '\'') {
            until([](char c) { return is_blank(c) || c == '>'; });
            return;
        }
        ++at_;
        until([&](char c) { return c == quote; });
        if (at_ < page_.size()) ++at_;
    }

    void skip_to(std::string_view end) {
        const auto same = [](char a, char b) {
            return a == b || (is_letter(a) && (a | 0x20) == (b | 0x20));
        };
        const auto found = std::search(page_.begin() + static_cast<std::ptrdiff_t>(at_),
                                       page_.end(), end.begin(), end.end(), same);
        at_ = static_cast<std::size_t>(found - page_.begin());
    }

    std::string_view page_;
    std::size_t at_ = 0;
    std::size_t kept_ = 0; ///< where what is not yet written begins
    std::string out_;
};

class Walker {
  public:
    explicit Walker(PageParts& parts)
        : parts_(parts) {}

    void walk(const GumboNode* node, unsigned depth, bool show) {
        if (depth > deepest) return;
        switch (node->type) {
        case GUMBO_NODE_TEXT:
        case GUMBO_NODE_CDATA:
        case GUMBO_NODE_WHITESPACE:
            if (show) text(node->v.text.text);
            return;
        case GUMBO_NODE_ELEMENT:
        case GUMBO_NODE_TEMPLATE:
            break;
        case GUMBO_NODE_DOCUMENT:
        case GUMBO_NODE_COMMENT:
            return;
        }
        const GumboElement& element = node->v.element;
        if (element.tag == GUMBO_TAG_SCRIPT && is_data(element)) {
            std::string json;
            for (unsigned i = 0; i < element.children.length; ++i) {
                const auto* child = static_cast<const GumboNode*>(element.children.data[i]);
                if (child->type == GUMBO_NODE_TEXT || child->type == GUMBO_NODE_CDATA ||
                    child->type == GUMBO_NODE_WHITESPACE)
                    json += child->v.text.text;
            }
            parts_.data.push_back(std::move(json));
            return;
        }
        const bool shown = show && !hidden(element.tag);
        if (shown && block(element.tag)) line();
        for (unsigned i = 0; i < element.children.length; ++i)
            walk(static_cast<const GumboNode*>(element.children.data[i]), depth + 1, shown);
        if (shown && block(element.tag)) line();
        if (shown && (element.tag == GUMBO_TAG_TD || element.tag == GUMBO_TAG_TH)) text(" ");
    }

  private:
    void text(std::string_view words) {
        for (const char c : words) {
            if (!is_blank(c)) {
                parts_.visible += c;
            } else if (!parts_.visible.empty() && parts_.visible.back() != ' ' &&
                       parts_.visible.back() != '\n') {
                parts_.visible += ' ';
            }
        }
    }
    void line() {
        if (!parts_.visible.empty() && parts_.visible.back() != '\n') parts_.visible += '\n';
    }

    PageParts& parts_;
};

} // namespace

PageParts parts_of_page(std::string_view bytes) {
    PageParts parts;
    if (nested_too_deep(bytes)) return parts;
    GumboOptions options = kGumboDefaultOptions;
    options.max_errors = 0;
    const std::string page = FewAttributes(bytes).written();
    GumboOutput* output = gumbo_parse_with_options(&options, page.data(), page.size());
    if (output == nullptr) return parts;
    Walker(parts).walk(output->root, 0, true);
    gumbo_destroy_output(&options, output);
    return parts;
}

std::string plain_text(const std::string& marked) {
    if (marked.find_first_of("<&") == std::string::npos) return marked;
    std::string text = parts_of_page("<body>" + marked).visible;
    // "&amp;frac12;": escaped twice is a usual mistake.
    if (text.find('&') != std::string::npos && text.find(';') != std::string::npos)
        text = parts_of_page("<body>" + text).visible;
    while (!text.empty() && (text.back() == '\n' || text.back() == ' '))
        text.pop_back();
    return text;
}

Page read_page(std::string_view bytes) {
    Page page;
    const PageParts parts = parts_of_page(bytes);
    for (const std::string& json : parts.data) {
        for (Found& found : recipes_in(json, page.remarks)) {
            const bool known = std::any_of(page.recipes.begin(), page.recipes.end(),
                                           [&](const Found& f) { return f.text == found.text; });
            if (!known && page.recipes.size() < 50) page.recipes.push_back(std::move(found));
        }
    }
    page.from_data = !page.recipes.empty();
    if (!page.from_data) page.recipes.push_back({"", parts.visible});
    return page;
}

} // namespace jarful::appraise
