#include "engine/render/card_drawing.hpp"
#include "engine/render/card_pages.hpp"
#include "engine/render/lettering.hpp"
#include "engine/render/mark.hpp"

#include <algorithm>

namespace jarful::render {

namespace {

constexpr double page_width = 720;
constexpr double margin = 30;

/// A picture of a card. SVG does not break lines, so that is done here.
class CardPicture {
  public:
    explicit CardPicture(const Card& card)
        : card_(card) {}

    std::string written() {
        words(margin, card_.title, 24, true, page_width - 2 * margin);
        words(margin, card_.kind, 14, false, page_width - 2 * margin);
        words(margin, card_.made_from, 14, false, page_width - 2 * margin);
        for (const std::string& obstacle : card_.obstacles)
            words(margin, "Not like this: " + obstacle, 15, true, page_width - 2 * margin);
        y_ += 12;
        const double top = y_;
        numbers();
        const double below_numbers = y_;
        y_ = top;
        beside();
        y_ = std::max(y_, below_numbers) + margin;
        return page();
    }

  private:
    static constexpr double middle = 370; ///< where the right half begins
    static constexpr double figure_room = 124;
    static constexpr double figures_end = margin + figure_room; ///< where they end

    void words(double x, const std::string& text, double size, bool strong, double width) {
        for (const std::string& line : lines_of_words(text, width / size, strong)) {
            y_ += size * 1.3;
            MarkupAttributes attributes{
                {"x", coordinate(x)}, {"y", coordinate(y_)}, {"font-size", coordinate(size)}};
            if (strong) attributes.push_back({"font-weight", "700"});
            inside_.element("text", attributes, line);
        }
    }

    void numbers() {
        for (const CardNumbers& group : card_.numbers) {
            y_ += 8;
            words(margin, group.heading, 15, true, middle - margin - 20);
            for (const CardNumber& row : group.rows) {
                const double top = y_;
                y_ += 32;
                const std::string figure = (row.figure.empty() ? "……" : row.figure) +
                                           (row.unit.empty() ? "" : " " + row.unit);
                const double size = std::min(28.0, figure_room / width_of_words(figure, true));
                inside_.element("text",
                                {{"x", coordinate(figures_end)},
                                 {"y", coordinate(y_)},
                                 {"text-anchor", "end"},
                                 {"font-size", coordinate(size)},
                                 {"font-weight", "700"}},
                                figure);
                y_ = top + 9;
                words(figures_end + 14, row.name, 17, true, middle - figures_end - 24);
                if (!row.scale.empty())
                    words(figures_end + 14, "on " + row.scale, 12, false,
                          middle - figures_end - 24);
                words(figures_end + 14, row.beside, 12, false, middle - figures_end - 24);
                y_ = std::max(y_, top + 36);
            }
            words(margin, group.words, 12, false, middle - margin - 20);
        }
    }

    void beside() {
        y_ += 8;
        const double width = page_width - margin - middle;
        words(middle, "Salt: " + card_.salt.headline, 15, true, width);
        if (card_.salt.gauge) {
            y_ += 8;
            place(draw_gauge(*card_.salt.gauge), middle, y_, "gauge");
        }
        std::vector<JarFigure> jars;
        for (const CardJar& jar : card_.jars)
            jars.push_back(jar.figure);
        const double scale = jar_scale(jars);
        for (std::size_t i = 0; i < card_.jars.size(); ++i) {
            const CardJar& jar = card_.jars[i];
            y_ += 10;
            words(middle, jar.title, 14, true, width);
            if (jar.figure.width_cm > 0) {
                y_ += 8;
                place(draw_jar(jar.figure, scale, jar.title, card_.units), middle, y_,
                      "jar-" + std::to_string(i + 1));
            }
            words(middle, jar.level, 12, false, width);
        }
        if (card_.jars.empty()) words(middle, card_.room, 12, false, width);
    }

    void place(const Drawing& drawing, double x, double y, const std::string& id) {
        inside_.element("g",
                        {{"role", "img"},
                         {"aria-labelledby", id + "-title " + id + "-text"},
                         {"transform", "translate(" + coordinate(x) + " " + coordinate(y) + ")"}},
                        [&] {
                            inside_.element("title", {{"id", id + "-title"}}, drawing.title);
                            inside_.element("desc", {{"id", id + "-text"}}, drawing.description);
                            inside_.append(drawing.inside);
                        });
        y_ = y + drawing.height + 4;
    }

    [[nodiscard]] std::string page() const {
        Markup page(Markup::Form::xml);
        page.declaration();
        const std::string width = coordinate(page_width);
        const std::string height = coordinate(y_);
        page.element(
            "svg",
            {{"xmlns", "http://www.w3.org/2000/svg"},
             {"xml:lang", "en"},
             {"width", width},
             {"height", height},
             {"viewBox", "0 0 " + width + " " + height},
             {"color", "#000"},
             {"fill", "currentColor"},
             {"font-family", "system-ui, sans-serif"}},
            [&] {
                page.element("title", {}, card_.title);
                page.empty("rect", {{"width", width}, {"height", height}, {"fill", "#fff"}});
                page.append(inside_);
            });
        page.text("\n");
        return page.written();
    }

    const Card& card_;
    Markup inside_{Markup::Form::xml};
    double y_ = margin - 10;
};

} // namespace

std::string card_svg(const Card& card) {
    return with_mark(CardPicture(card).written(), made::picture, MarkForm::markup);
}

} // namespace jarful::render
