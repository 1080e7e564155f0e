#include "engine/render/card_pages.hpp"
#include "engine/render/card_parts.hpp"
#include "engine/render/mark.hpp"

#include <string_view>

namespace jarful::render {

namespace {

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/// A text that Markdown takes for words: no emphasis, link, picture, tag, table, heading, list or
/// address that turns into a link.
std::string escaped(std::string_view text) {
    std::string out;
    bool only_digits = true; // up to here, from the beginning
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        const bool begins = i == 0 && std::string_view("+-=").find(c) != std::string_view::npos;
        const bool numbers = i > 0 && only_digits && (c == '.' || c == ')') &&
                             (i + 1 == text.size() || text[i + 1] == ' ');
        const bool address = (c == ':' && text.substr(i).starts_with("://")) || c == '@' ||
                             (c == '.' && i >= 3 && text.substr(i - 3, 3) == "www") ||
                             (c == '.' && i >= 3 && text.substr(i - 3, 3) == "WWW");
        const bool marks = std::string_view("\\`*_[]<>|~&#!$").find(c) != std::string_view::npos;
        if (begins || numbers || address || marks) out += '\\';
        only_digits = only_digits && is_digit(c);
        out += c;
    }
    return out;
}

class MarkdownCard {
  public:
    explicit MarkdownCard(const Card& card)
        : card_(card) {}

    std::string text() {
        out_ = "# " + escaped(card_.title) + "\n";
        paragraph(card_.kind);
        paragraphs(card_.asked);
        paragraph(card_.made_from + " " + card_.kitchen);
        if (!card_.obstacles.empty()) {
            heading("Not like this");
            for (const std::string& words : card_.obstacles)
                strong(words);
        }
        for (const CardNumbers& group : card_.numbers)
            numbers(group);
        salt();
        jars();
        if (!card_.method.empty()) heading("Method");
        steps(card_.method, 1);
        dates();
        if (!card_.top_up.empty()) {
            heading("If the juice does not cover");
            paragraph(card_.top_up);
        }
        if (!card_.cautions.empty()) heading("Take care");
        for (const CardCaution& caution : card_.cautions)
            item("**" + escaped(caution.title) + ".** " + escaped(caution.text));
        list("Taken for granted", card_.assumptions);
        list("Sources", card_.sources);
        return out_;
    }

  private:
    /// An empty line above, unless an item follows an item.
    void block(bool is_item) {
        if (!is_item || !in_list_) out_ += "\n";
        in_list_ = is_item;
    }
    void heading(const std::string& words) {
        block(false);
        out_ += "## " + escaped(words) + "\n";
    }
    void paragraph(const std::string& words) {
        if (words.empty()) return;
        block(false);
        out_ += escaped(words) + "\n";
    }
    void strong(const std::string& words) {
        block(false);
        out_ += "**" + escaped(words) + "**\n";
    }
    void paragraphs(const std::vector<std::string>& texts) {
        for (const std::string& text : texts)
            paragraph(text);
    }
    void item(const std::string& markdown) {
        block(true);
        out_ += "- " + markdown + "\n";
    }
    void list(const std::string& title, const std::vector<std::string>& texts) {
        if (texts.empty()) return;
        heading(title);
        for (const std::string& text : texts)
            item(escaped(text));
    }
    void steps(const std::vector<std::string>& texts, std::size_t number) {
        for (const std::string& text : texts) {
            block(true);
            out_ += std::to_string(number++) + ". " + escaped(text) + "\n";
        }
    }

    void numbers(const CardNumbers& group) {
        heading(group.heading);
        if (!group.rows.empty()) {
            block(false);
            out_ += std::string("| ") + (group.weighed ? "wait for" : "pieces") +
                    " | what | on scale | to know |\n| ---: | --- | --- | --- |\n";
        }
        for (const CardNumber& row : group.rows) {
            const std::string figure = row.figure.empty() ? "……" : row.figure;
            out_ += "| **" + escaped(figure) + (row.unit.empty() ? "" : " " + row.unit) + "** | " +
                    escaped(row.name) + " | " + escaped(row.scale) + " | " + escaped(note_of(row)) +
                    " |\n";
        }
        paragraph(group.words);
    }

    void salt() {
        heading("Salt");
        strong(card_.salt.headline);
        paragraphs(card_.salt.words);
        paragraphs(card_.salt.bounds);
    }

    void jars() {
        heading(card_.jars.size() > 1 ? "Jars" : "Jar");
        for (const CardJar& jar : card_.jars) {
            std::string words = "**" + escaped(jar.title) + ".** " + escaped(jar.level);
            for (const CardPortion& portion : jar.portions) {
                words += " " + escaped(portion.title);
                for (std::size_t i = 0; i < portion.parts.size(); ++i)
                    words += (i == 0 ? " " : ", ") + escaped(portion.parts[i].figure) + " " +
                             escaped(portion.parts[i].name);
                words += ".";
            }
            for (const std::string& salt : jar.salt)
                words += " " + escaped(salt);
            item(words);
        }
        paragraph(card_.room);
    }

    void dates() {
        if (card_.dates.empty() && card_.afterwards.empty()) return;
        heading(card_.dates_heading);
        for (const CardDate& date : card_.dates)
            item((date.when.empty() ? "" : "**" + escaped(date.when) + ":** ") +
                 escaped(date.what));
        paragraphs(card_.date_words);
        if (card_.afterwards.empty()) return;
        paragraph("Then:");
        steps(card_.afterwards, card_.method.size() + 1);
    }

    const Card& card_;
    std::string out_;
    bool in_list_ = false;
};

} // namespace

std::string card_markdown(const Card& card, const CardAddress& address) {
    std::string out = MarkdownCard(card).text();
    if (!address.url.empty()) out += "\n<" + address.url + ">\n";
    // An empty line ends what stands before: a list takes in whatever follows it.
    return with_mark(out + "\n", made::card_text, MarkForm::markup);
}

} // namespace jarful::render
