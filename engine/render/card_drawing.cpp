#include "engine/render/card_drawing.hpp"

#include "engine/render/lettering.hpp"
#include "engine/render/ruler.hpp"
#include "engine/render/weigh_words.hpp"
#include "engine/render/words.hpp"
#include "engine/units/amount.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::render {

namespace {

constexpr double cm_per_inch = 2.54; // exactly
/// Of all words in a drawing, in its units, sixteenths of the text's size: a card is printed in 10
/// points and more, and nothing on it is smaller than 8.
constexpr double letters = 13;

/// A screen may set every letter on a whole pixel, which makes a small one wider by up to a half.
double room_of(const std::string& words, bool strong = false) {
    constexpr double whole_pixel = 0.6;
    return letters * width_of_words(words, strong) + whole_pixel * columns(words);
}

struct Point {
    double x = 0, y = 0;
};

class Pen {
  public:
    explicit Pen(Markup& markup)
        : markup_(markup) {}

    void line(Point from, Point to, double width, const std::string& dashes = "") {
        MarkupAttributes attributes{
            {"x1", coordinate(from.x)}, {"y1", coordinate(from.y)},
            {"x2", coordinate(to.x)},   {"y2", coordinate(to.y)},
            {"stroke", "currentColor"}, {"stroke-width", coordinate(width)}};
        if (!dashes.empty()) attributes.push_back({"stroke-dasharray", dashes});
        markup_.empty("line", attributes);
    }
    void outline(const std::string& path, double width) {
        markup_.empty("path", {{"d", path},
                               {"fill", "none"},
                               {"stroke", "currentColor"},
                               {"stroke-width", coordinate(width)}});
    }
    void solid(const std::string& path) {
        markup_.empty("path", {{"d", path}, {"fill", "currentColor"}});
    }
    void words(Point at, const std::string& text, const char* anchor = "start",
               bool strong = false) {
        MarkupAttributes attributes{{"x", coordinate(at.x)},
                                    {"y", coordinate(at.y)},
                                    {"text-anchor", anchor},
                                    {"font-size", coordinate(letters)},
                                    {"fill", "currentColor"}};
        if (strong) attributes.push_back({"font-weight", "700"});
        markup_.element("text", attributes, text);
    }

  private:
    Markup& markup_;
};

std::string at(const char* command, Point p) {
    return std::string(command) + coordinate(p.x) + " " + coordinate(p.y);
}

/// A jar from the side on paper.
class JarPicture {
  public:
    JarPicture(const JarFigure& jar, double scale, Units units, Markup& markup)
        : jar_(jar)
        , scale_(scale)
        , units_(units)
        , pen_(markup)
        , left_(std::max(36.0, 20 + room_of(units::print_fixed(jar.height_cm(), 0))))
        , right_(left_ + jar.width_cm * scale)
        , bottom_(top + jar.height_cm() * scale)
        , brine_(bottom_ - jar.level_cm * scale)
        , brim_words_("brim " + length(jar.height_cm(), units))
        , free_words_(length(jar.headspace_cm(), units) + " free")
        , high_words_(length(jar.level_cm, units) + " high") {}

    void draw() {
        ruler();
        contents();
        weights();
        walls();
        brine_line();
        labels();
    }
    [[nodiscard]] double width() const {
        const double widest = std::max({room_of(brim_words_), room_of(free_words_),
                                        room_of(brine_words, true), room_of(high_words_)});
        return right_ + words_off + widest + 2;
    }
    [[nodiscard]] double height() const { return std::max(bottom_ + 8, lowest_label_ + 6); }

  private:
    static constexpr double top = 20;
    static constexpr double words_off = 16; ///< from the wall to the words beside it
    static constexpr double line_height = 16;
    static constexpr const char* brine_words = "brine line";

    void ruler() {
        const bool inches = units_ == Units::us;
        const double step_cm = inches ? cm_per_inch / 2 : 1;
        const int in_a_unit = inches ? 2 : 1;
        int per_figure = inches ? 2 : 5;
        // On a high jar, or a small drawing, fewer of them.
        const int per_mark = step_cm * scale_ < 2.5 ? per_figure : 1;
        while (per_figure * step_cm * scale_ < line_height)
            per_figure *= 2;
        const double edge = left_ - 10;
        const int steps = static_cast<int>(jar_.height_cm() / step_cm + 1e-9);
        pen_.line({edge, top}, {edge, bottom_}, 1);
        for (int i = 0; i <= steps; i += per_mark) {
            const double y = bottom_ - i * step_cm * scale_;
            const bool figure = i % per_figure == 0;
            pen_.line({edge - (figure ? 7 : 4), y}, {edge, y}, 1);
            if (figure) pen_.words({edge - 9, y + 4}, std::to_string(i / in_a_unit), "end");
        }
        pen_.words({edge, top - 8}, inches ? "in" : "cm", "end");
    }

    void walls() {
        const double bend = std::min(8.0, (right_ - left_) / 4);
        pen_.outline(at("M", {left_ - 4, top}) + at(" L", {left_, top}) +
                         at(" L", {left_, bottom_ - bend}) + at(" Q", {left_, bottom_}) +
                         at(" ", {left_ + bend, bottom_}) + at(" L", {right_ - bend, bottom_}) +
                         at(" Q", {right_, bottom_}) + at(" ", {right_, bottom_ - bend}) +
                         at(" L", {right_, top}) + at(" L", {right_ + 4, top}),
                     jar_.crock ? 4 : 2.5);
    }

    [[nodiscard]] double weights_height() const {
        const double area = jar_.brimful_ml / jar_.height_cm();
        return std::min(jar_.weights_ml / area * scale_, bottom_ - brine_);
    }

    /// Rows of short strokes: what is packed.
    void contents() {
        bool shifted = false;
        for (double y = brine_ + weights_height() + 8; y < bottom_ - 5; y += 9) {
            pen_.line({left_ + (shifted ? 11 : 5), y}, {right_ - 5, y}, 0.8, "7 6");
            shifted = !shifted;
        }
    }

    void weights() {
        const double height = weights_height();
        if (height < 1) return;
        const Point a{left_ + 5, brine_ + 2};
        const Point b{right_ - 5, brine_ + height};
        pen_.outline(at("M", a) + at(" L", {b.x, a.y}) + at(" L", b) + at(" L", {a.x, b.y}) + " Z",
                     1.2);
        if (height >= line_height && b.x - a.x > room_of("weights") + 4)
            pen_.words({(a.x + b.x) / 2, (a.y + b.y) / 2 + 4}, "weights", "middle");
    }

    void brine_line() {
        std::string path = at("M", {left_, brine_});
        const int waves = std::max(2, static_cast<int>((right_ - left_) / 12));
        const double length = (right_ - left_) / waves;
        for (int i = 0; i < waves; ++i) {
            const double x = left_ + i * length;
            path += at(" Q", {x + length / 4, brine_ - 3}) + at(" ", {x + length / 2, brine_}) +
                    at(" Q", {x + length * 3 / 4, brine_ + 3}) + at(" ", {x + length, brine_});
        }
        pen_.outline(path, 2);
    }

    /// What stands at the brim, between it and the brine, and at the brine line; one under the
    /// other where there is little room between them.
    void labels() {
        const double x = right_ + words_off;
        const double brim = top + 4;
        const double free = std::max((top + brine_) / 2 + 4, brim + line_height);
        const double brine = std::max(brine_ + 4, free + line_height);
        pen_.words({x, brim}, brim_words_);
        if (jar_.headspace_cm() * scale_ > 2) {
            const double arrow = right_ + 9;
            pen_.line({arrow, top + 1}, {arrow, brine_ - 1}, 1);
            for (const double y : {top + 1, brine_ - 1})
                pen_.line({arrow - 3, y}, {arrow + 3, y}, 1);
        }
        pen_.words({x, free}, free_words_);
        pen_.line({right_ + 2, brine_}, {x - 3, brine - 4}, 1);
        pen_.words({x, brine}, brine_words, "start", true);
        pen_.words({x, brine + line_height}, high_words_);
        lowest_label_ = brine + line_height;
    }

    const JarFigure& jar_;
    double scale_;
    Units units_;
    Pen pen_;
    double left_, right_, bottom_, brine_;
    std::string brim_words_, free_words_, high_words_;
    double lowest_label_ = 0;
};

/// The ruler on paper.
class GaugePicture {
  public:
    GaugePicture(const GaugeFigure& gauge, Markup& markup)
        : gauge_(gauge)
        , pen_(markup)
        , ruler_(shown_figures(gauge), 86) {}

    void draw() {
        body();
        batch();
        range();
    }

    static constexpr double width = 340;
    static constexpr double height = 100;

  private:
    static constexpr double left = 18;
    static constexpr double right = width - 38;
    static constexpr double top = 38;
    static constexpr double bottom = 68;

    static std::vector<double> shown_figures(const GaugeFigure& gauge) {
        std::vector<double> figures{gauge.batch.low, gauge.batch.high};
        if (gauge.low) figures.push_back(*gauge.low);
        if (gauge.high) figures.push_back(*gauge.high);
        return figures;
    }

    [[nodiscard]] double x_of(double percent) const {
        const double share = (percent - ruler_.first()) / (ruler_.step() * ruler_.steps());
        return left + std::clamp(share, 0.0, 1.0) * (right - left);
    }

    void body() {
        pen_.outline(at("M", {left - 14, top}) + at(" L", {right + 34, top}) +
                         at(" L", {right + 34, bottom}) + at(" L", {left - 14, bottom}) + " Z",
                     1.5);
        const int decimals = ruler_.step() < 0.1 ? 1 : 0;
        for (int i = 0; i <= ruler_.steps(); ++i) {
            const double percent = ruler_.first() + i * ruler_.step();
            const double x = x_of(percent);
            const bool is_long = i % 10 == 0;
            pen_.line({x, top},
                      {x, top + (is_long      ? 12
                                 : i % 5 == 0 ? 9
                                              : 5)},
                      is_long ? 1.4 : 0.8);
            if (is_long) pen_.words({x, top + 25}, units::print_fixed(percent, decimals), "middle");
        }
        pen_.words({right + 18, top + 25}, "%");
    }

    void batch() {
        const double low = x_of(gauge_.batch.low);
        const double high = x_of(gauge_.batch.high);
        const double middle = (low + high) / 2;
        if (high - low < 7) {
            pen_.solid(at("M", {middle - 6, top - 14}) + at(" L", {middle + 6, top - 14}) +
                       at(" L", {middle, top - 2}) + " Z");
        } else {
            pen_.line({low, top - 8}, {high, top - 8}, 3);
            for (const double x : {low, high})
                pen_.line({x, top - 14}, {x, top - 2}, 2);
        }
        const std::string words = "this batch, " + percents(gauge_.batch);
        pen_.words({within(middle, room_of(words, true)), top - 20}, words, "middle", true);
    }

    /// Where the middle of words has to stand so that they do not run out of the drawing.
    static double within(double middle, double room) {
        return std::clamp(middle, room / 2 + 2, std::max(width - room / 2 - 2, room / 2 + 2));
    }

    void range() {
        const double y = bottom + 8;
        const double from = gauge_.low ? x_of(*gauge_.low) : left;
        const double to = gauge_.high ? x_of(*gauge_.high) : right;
        if (gauge_.low || gauge_.high) pen_.line({from, y}, {to, y}, 1.5);
        if (gauge_.low) {
            through(from, y + 4);
        } else if (gauge_.high) {
            pen_.line({left, y}, {left + 6, y - 4}, 1.5);
            pen_.line({left, y}, {left + 6, y + 4}, 1.5);
        }
        if (gauge_.high) {
            through(to, y + 4);
        } else if (gauge_.low) {
            pen_.line({right, y}, {right - 6, y - 4}, 1.5);
            pen_.line({right, y}, {right - 6, y + 4}, 1.5);
        }
        end_words(from, to);
    }

    /// A mark through the ruler that leaves its figures to be read.
    void through(double x, double to) {
        pen_.line({x, top - 3}, {x, top + 13}, 3);
        pen_.line({x, bottom - 2}, {x, to}, 3);
    }

    /// The ends of the range in words, each under its mark; where they would touch, they give way
    /// to both sides.
    void end_words(double from, double to) {
        const std::string low = gauge_.low ? "low " + percent(*gauge_.low) + " %" : "";
        const std::string high = gauge_.high ? "high " + percent(*gauge_.high) + " %" : "";
        const double low_room = room_of(low);
        const double high_room = room_of(high);
        from = within(from, low_room);
        to = within(to, high_room);
        if (gauge_.low && gauge_.high) {
            const double apart = (low_room + high_room) / 2 + letters;
            const double lacking = std::max(0.0, apart - (to - from));
            from = within(from - lacking / 2, low_room);
            to = within(std::max(to, from + apart), high_room);
            from = within(std::min(from, to - apart), low_room);
        }
        if (gauge_.low) pen_.words({from, bottom + 26}, low, "middle");
        if (gauge_.high) pen_.words({to, bottom + 26}, high, "middle");
    }

    const GaugeFigure& gauge_;
    Pen pen_;
    Ruler ruler_;
};

} // namespace

std::string coordinate(double value) {
    return units::print_number(std::round(value * 100) / 100);
}

double jar_scale(const std::vector<JarFigure>& jars) {
    double highest = 0;
    double widest = 0;
    int drawn = 0;
    for (const JarFigure& jar : jars) {
        if (!(jar.width_cm > 0)) continue;
        ++drawn;
        highest = std::max(highest, jar.height_cm());
        widest = std::max(widest, jar.width_cm);
    }
    if (!(highest > 0)) return 0;
    return std::min((drawn > 1 ? 150 : 176) / highest, 200 / widest);
}

Drawing draw_jar(const JarFigure& jar, double scale, const std::string& name, Units units) {
    Drawing drawing;
    JarPicture picture(jar, scale, units, drawing.inside);
    picture.draw();
    drawing.width = picture.width();
    drawing.height = picture.height();
    drawing.title = name + ", to scale";
    drawing.description =
        "Seen from the side, as a straight cylinder " + length(jar.width_cm, units) + " wide and " +
        length(jar.height_cm(), units) + " high up to the brim. The brine line stands " +
        length(jar.level_cm, units) + " above the bottom; " + length(jar.headspace_cm(), units) +
        " stay free above it.";
    if (jar.weights_ml > 0)
        drawing.description +=
            " The weights take " + volume(jar.weights_ml, units) + " below the brine line.";
    return drawing;
}

Drawing draw_gauge(const GaugeFigure& gauge) {
    Drawing drawing;
    GaugePicture(gauge, drawing.inside).draw();
    drawing.width = GaugePicture::width;
    drawing.height = GaugePicture::height;
    drawing.title = "Salt on a ruler";
    drawing.description = "This batch stands at " + percents(gauge.batch) + ".";
    if (gauge.low) drawing.description += " The range begins at " + percent(*gauge.low) + " %.";
    if (gauge.high) drawing.description += " The range ends at " + percent(*gauge.high) + " %.";
    if (!gauge.low && !gauge.high) drawing.description += " There is no range to hold it to.";
    return drawing;
}

void put_drawing(Markup& page, const Drawing& drawing, const std::string& id) {
    const auto rem = [](double units) { return coordinate(units / 16) + "rem"; };
    page.element(
        "svg",
        {{"role", "img"},
         {"aria-labelledby", id + "-title " + id + "-text"},
         {"width", rem(drawing.width)},
         {"height", rem(drawing.height)},
         {"viewBox", "0 0 " + coordinate(drawing.width) + " " + coordinate(drawing.height)}},
        [&] {
            page.element("title", {{"id", id + "-title"}}, drawing.title);
            page.element("desc", {{"id", id + "-text"}}, drawing.description);
            page.append(drawing.inside);
        });
}

} // namespace jarful::render
