#pragma once

#include <concepts>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

/// HTML and SVG that is escaped by construction: there is no way to put a text in unescaped.
namespace jarful::render {

/// The name of an element or an attribute. Only a literal can be one, and a wrong letter in it does
/// not compile, so that no text of a recipe ever becomes a tag.
class MarkupName {
  public:
    // NOLINTNEXTLINE(google-explicit-constructor): a literal is to stand where a name is wanted
    consteval MarkupName(const char* literal)
        : text_(literal) {
        for (const char c : text_) {
            const bool good = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                              (c >= '0' && c <= '9') || c == '-' || c == ':';
            if (!good) throw "not a name of markup";
        }
    }
    [[nodiscard]] std::string_view text() const { return text_; }

  private:
    std::string_view text_;
};

struct MarkupAttribute {
    MarkupName name;
    std::string value;
};
using MarkupAttributes = std::vector<MarkupAttribute>;

/// A style sheet of the program's own. Only a constant can be one.
struct StyleSheet {
    std::string_view css;
    std::string_view sha256; ///< of `css`, in base64, as a content security policy names it
};

/// A script of the program's own. Only a constant can be one.
struct Script {
    std::string_view js;
    std::string_view sha256; ///< of `js`, in base64, as a content security policy names it
};

/// Markup of the program's own, into which no text is put. Only a constant can be one.
struct FixedMarkup {
    std::string_view html;
};

/// Writes elements into a text.
class Markup {
  public:
    enum class Form : std::uint8_t {
        html, ///< void elements as `<br>`
        xml   ///< as `<br/>`; a file by itself begins with declaration()
    };
    explicit Markup(Form form = Form::html)
        : form_(form) {}

    /// An element with what `inside` writes in it.
    template <std::invocable Inside>
    void element(MarkupName name, const MarkupAttributes& attributes, Inside&& inside) {
        open(name, attributes);
        inside();
        close(name);
    }
    /// An element with a text in it.
    void element(MarkupName name, const MarkupAttributes& attributes, std::string_view inside);
    /// An element with nothing in it.
    void empty(MarkupName name, const MarkupAttributes& attributes = {});
    /// Words. What XML and HTML forbid comes out as the replacement character.
    void text(std::string_view words);
    /// What another has written.
    void append(const Markup& part) { out_ += part.out_; }
    /// A `style` element.
    void style(const StyleSheet& sheet);
    /// A `script` element with a module in it.
    void script(const Script& script);
    /// As it is.
    void fixed(const FixedMarkup& part);
    /// JSON, or base64, for a script to read: a `script` element of a type that is not run. What
    /// could end the element is written as JSON writes it by number.
    void data(const MarkupAttributes& attributes, std::string_view json);
    /// The first line of an HTML page, or of an XML file.
    void declaration();

    [[nodiscard]] const std::string& written() const { return out_; }

  private:
    void open(MarkupName name, const MarkupAttributes& attributes);
    void close(MarkupName name);
    void start(MarkupName name, const MarkupAttributes& attributes);
    void escaped(std::string_view words);

    Form form_;
    std::string out_;
};

} // namespace jarful::render
