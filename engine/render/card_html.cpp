#include "engine/render/card_drawing.hpp"
#include "engine/render/card_pages.hpp"
#include "engine/render/card_parts.hpp"
#include "engine/render/html_style.hpp"
#include "engine/render/mark.hpp"

namespace jarful::render {

namespace {

class CardBody {
  public:
    explicit CardBody(const Card& card)
        : card_(card) {}

    Markup written() {
        head();
        obstacles();
        out_.element("div", {{"class", "flow"}}, [&] {
            numbers();
            salt();
            jars();
            method();
            top_up();
        });
        turn();
        dates();
        cautions();
        foot();
        return out_;
    }

  private:
    /// A section named by its heading.
    template <class Inside>
    void section(const char* id, const std::string& kind, const std::string& heading,
                 Inside&& inside) {
        const std::string name = "card-" + std::string(id);
        out_.element("section", {{"class", kind}, {"aria-labelledby", name}}, [&] {
            out_.element("h2", {{"id", name}}, heading);
            inside();
        });
    }
    void paragraphs(const std::vector<std::string>& texts) {
        for (const std::string& text : texts)
            out_.element("p", {}, text);
    }
    void list(const std::vector<std::string>& texts) {
        out_.element("ul", {}, [&] {
            for (const std::string& text : texts)
                out_.element("li", {{"dir", "auto"}}, text);
        });
    }

    void head() {
        out_.element("header", {{"class", "head"}}, [&] {
            out_.element("h1", {{"dir", "auto"}}, card_.title);
            if (!card_.kind.empty()) out_.element("p", {}, card_.kind);
            paragraphs(card_.asked);
            out_.element("p", {{"class", "soft"}}, card_.made_from + " " + card_.kitchen);
        });
    }

    void obstacles() {
        if (card_.obstacles.empty()) return;
        section("stop", "stop", "Not like this", [&] { paragraphs(card_.obstacles); });
    }

    void numbers() {
        for (std::size_t i = 0; i < card_.numbers.size(); ++i) {
            const CardNumbers& group = card_.numbers[i];
            section(("numbers-" + std::to_string(i + 1)).c_str(), "numbers", group.heading, [&] {
                if (!group.rows.empty()) table(group, "card-numbers-" + std::to_string(i + 1));
                if (!group.words.empty()) out_.element("p", {}, group.words);
            });
        }
    }

    void table(const CardNumbers& group, const std::string& name) {
        out_.element("table", {{"aria-labelledby", name}}, [&] {
            out_.element("thead", {}, [&] {
                out_.element("tr", {}, [&] {
                    out_.element("th", {{"scope", "col"}, {"class", "figure"}},
                                 group.weighed ? "wait for" : "pieces");
                    out_.element("th", {{"scope", "col"}}, "what");
                });
            });
            out_.element("tbody", {}, [&] {
                for (const CardNumber& row : group.rows)
                    number(row);
            });
        });
    }

    void number(const CardNumber& row) {
        out_.element("tr", {}, [&] {
            out_.element("td", {{"class", "figure"}}, [&] {
                if (row.figure.empty()) {
                    out_.element("span", {{"class", "blank"}}, "write here");
                } else {
                    out_.text(row.figure);
                }
                if (row.unit.empty()) return;
                out_.text(" ");
                out_.element("span", {{"class", "unit"}}, row.unit);
            });
            out_.element("th", {{"scope", "row"}}, [&] {
                out_.element("span", {{"class", "name"}}, row.name);
                if (!row.scale.empty()) out_.element("span", {{"class", "on"}}, " on " + row.scale);
                const std::string note = note_of(row);
                if (!note.empty()) out_.element("span", {{"class", "note"}}, note);
            });
        });
    }

    void salt() {
        section("salt", "salt", "Salt", [&] {
            out_.element("p", {{"class", "headline"}}, card_.salt.headline);
            if (card_.salt.gauge) put_drawing(out_, draw_gauge(*card_.salt.gauge), "card-gauge");
            out_.element("div", {{"class", "words"}}, [&] {
                paragraphs(card_.salt.words);
                paragraphs(card_.salt.bounds);
            });
        });
    }

    void jars() {
        section("jars", "jars", card_.jars.size() > 1 ? "Jars" : "Jar", [&] {
            std::vector<JarFigure> figures;
            for (const CardJar& jar : card_.jars)
                figures.push_back(jar.figure);
            const double scale = jar_scale(figures);
            if (!card_.jars.empty()) {
                out_.element("div", {{"class", "kinds"}}, [&] {
                    for (std::size_t i = 0; i < card_.jars.size(); ++i)
                        jar(card_.jars[i], scale, "card-jar-" + std::to_string(i + 1));
                });
            }
            if (!card_.room.empty()) out_.element("p", {{"class", "note"}}, card_.room);
        });
    }

    void jar(const CardJar& jar, double scale, const std::string& id) {
        out_.element("div", {{"class", "one-jar"}}, [&] {
            drawing(jar, scale, id);
            if (jar.portions.empty() && jar.salt.empty()) return;
            out_.element("div", {{"class", "portions"}}, [&] {
                for (const CardPortion& portion : jar.portions)
                    parts(portion);
                paragraphs(jar.salt);
            });
        });
    }

    void drawing(const CardJar& jar, double scale, const std::string& id) {
        out_.element("figure", {}, [&] {
            const bool drawn = jar.figure.width_cm > 0;
            if (drawn) put_drawing(out_, draw_jar(jar.figure, scale, jar.title, card_.units), id);
            out_.element("figcaption", {}, [&] {
                out_.element("h3", {}, jar.title);
                if (!drawn) out_.element("p", {}, "Not drawn: its width is not known.");
                out_.element("p", {}, jar.level);
            });
        });
    }

    void parts(const CardPortion& portion) {
        out_.element("p", {{"class", "into"}}, portion.title);
        out_.element("ul", {{"class", "parts"}}, [&] {
            for (const CardPart& part : portion.parts) {
                out_.element("li", {}, [&] {
                    out_.element("b", {}, part.figure);
                    out_.text(" " + part.name + " ");
                });
            }
        });
    }

    void method() {
        if (card_.method.empty()) return;
        section("method", "method", "Method", [&] { steps(card_.method, 1); });
    }

    void steps(const std::vector<std::string>& texts, std::size_t first) {
        MarkupAttributes attributes;
        if (first > 1) attributes.push_back({"start", std::to_string(first)});
        out_.element("ol", attributes, [&] {
            for (const std::string& text : texts)
                out_.element("li", {{"dir", "auto"}}, text);
        });
    }

    void dates() {
        if (card_.dates.empty() && card_.afterwards.empty()) return;
        section("dates", "dates", card_.dates_heading, [&] {
            out_.element("dl", {}, [&] {
                for (const CardDate& date : card_.dates) {
                    out_.element("dt", {}, date.when);
                    out_.element("dd", {}, date.what);
                }
            });
            for (const std::string& words : card_.date_words)
                out_.element("p", {{"class", "note"}}, words);
            if (card_.afterwards.empty()) return;
            out_.element("h3", {}, "Then");
            steps(card_.afterwards, card_.method.size() + 1);
        });
    }

    void top_up() {
        if (card_.top_up.empty()) return;
        section("top-up", "top-up", "If the juice does not cover",
                [&] { out_.element("p", {}, card_.top_up); });
    }

    /// Where a card is printed on two sheets: what the other one has on it, and whose it is.
    void turn() {
        out_.element("p", {{"class", "turn"}},
                     "Afterwards, cautions and sources: on the next sheet.");
        out_.element("p", {{"class", "turned"}, {"dir", "auto"}}, card_.title);
    }

    void cautions() {
        if (card_.cautions.empty()) return;
        section("cautions", "cautions", "Take care", [&] {
            out_.element("div", {{"class", "words"}}, [&] {
                for (const CardCaution& caution : card_.cautions) {
                    out_.element("p", {}, [&] {
                        out_.element("strong", {}, caution.title + ".");
                        out_.text(" " + caution.text);
                    });
                }
            });
        });
    }

    void foot() {
        if (card_.sources.empty() && card_.assumptions.empty()) return;
        out_.element("div", {{"class", "foot"}}, [&] {
            if (!card_.assumptions.empty())
                section("assumptions", "granted", "Taken for granted",
                        [&] { list(card_.assumptions); });
            if (!card_.sources.empty())
                section("sources", "sources", "Sources", [&] { list(card_.sources); });
        });
    }

    const Card& card_;
    Markup out_;
};

} // namespace

Markup card_body(const Card& card) {
    return CardBody(card).written();
}

std::string card_html(const Card& card, const CardAddress& address) {
    Markup page;
    page.declaration();
    const std::string fit = card_sheets(card, address).html_class();
    page.element("html", {{"lang", "en"}, {"class", fit}}, [&] {
        put_head(page, card.title, card_style());
        page.element("body", {}, [&] {
            page.element("main", {{"class", "card"}}, [&] { page.append(card_body(card)); });
            put_address(page, address);
        });
    });
    page.text("\n");
    return with_mark(page.written(), made::card, MarkForm::markup);
}

} // namespace jarful::render
