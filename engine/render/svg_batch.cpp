#include "engine/render/batch_compare_report.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace jarful::render {

namespace {

constexpr double width = 760;
constexpr double left = 64;
constexpr double right = 24;
constexpr double panel_height = 190;
constexpr double ph_top = 64;
constexpr double celsius_top = 320;

std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : visible(text)) {
        switch (c) {
        case '&':
            out += "&amp;";
            break;
        case '<':
            out += "&lt;";
            break;
        case '>':
            out += "&gt;";
            break;
        case '"':
            out += "&quot;";
            break;
        default:
            out += c;
        }
    }
    return out;
}

struct Point {
    int day = 0;
    double value = 0;
};

/// @param us temperatures in °F.
std::vector<Point> points(const BatchReport& report, bool ph, bool us) {
    std::vector<Point> out;
    for (const tend::Note* note : report.record.by_date()) {
        const auto& value = ph ? note->ph : note->celsius;
        if (!value) continue;
        const double shown = us && !ph ? *value * 1.8 + 32 : *value;
        out.push_back({tend::days_between(report.record.begun, note->date), shown});
    }
    return out;
}

/// A panel's scale: whole steps that take in every value.
struct Scale {
    double low = 0, high = 1, step = 1;
    double top = 0;
    [[nodiscard]] double at(double value) const {
        return top + panel_height * (high - value) / (high - low);
    }
};

class Plot {
  public:
    explicit Plot(const std::vector<const BatchReport*>& reports)
        : reports_(reports)
        , us_(!reports.empty() && reports.front()->shown == Units::us) {
        for (const BatchReport* report : reports_)
            for (const bool ph : {true, false})
                for (const Point& point : points(*report, ph, us_))
                    last_day_ = std::max(last_day_, point.day);
    }

    std::string svg() {
        out_ = fmt::format(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0} {1}\" width=\"{0}\" "
            "height=\"{1}\" role=\"img\" aria-labelledby=\"title desc\" font-family=\"sans-serif\" "
            "font-size=\"14\">\n<title id=\"title\">{2}</title>\n<desc id=\"desc\">{3}</desc>\n"
            "<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n",
            width, height(), escaped(title()), escaped(description()));
        text(left, 24, title(), "start", true);
        panel("pH", scale_of(true), true);
        panel(us_ ? "Temperature, °F" : "Temperature, °C", scale_of(false), false);
        legend();
        return out_ + "</svg>\n";
    }

  private:
    [[nodiscard]] double height() const {
        return celsius_top + panel_height + 64 + 24 * static_cast<double>(reports_.size());
    }

    [[nodiscard]] std::string title() const {
        std::string names;
        for (const BatchReport* report : reports_)
            names += (names.empty() ? "" : " and ") + report->name;
        return "pH and temperature over the days: " + names;
    }

    /// Everything that the drawing shows, in words.
    [[nodiscard]] std::string description() const {
        std::string out;
        for (const BatchReport* report : reports_) {
            for (const bool ph : {true, false}) {
                out += report->name + (ph    ? ", pH:"
                                       : us_ ? ", temperature in °F:"
                                             : ", temperature in °C:");
                const auto list = points(*report, ph, us_);
                if (list.empty()) out += " none noted";
                for (std::size_t i = 0; i < list.size(); ++i)
                    out += fmt::format("{} day {} {}", i == 0 ? "" : ",", list[i].day,
                                       units::print_number(list[i].value, 4));
                out += ". ";
            }
        }
        return out + "The dotted line is pH 4.6, below which it has to come.";
    }

    [[nodiscard]] Scale scale_of(bool ph) const {
        Scale scale;
        scale.top = ph ? ph_top : celsius_top;
        scale.low = ph ? 3 : us_ ? 60 : 15;
        scale.high = ph ? 6.5 : us_ ? 80 : 25;
        scale.step = ph ? 0.5 : us_ ? 5 : 2.5;
        for (const BatchReport* report : reports_) {
            for (const Point& point : points(*report, ph, us_)) {
                scale.low = std::min(scale.low, std::floor(point.value / scale.step) * scale.step);
                scale.high = std::max(scale.high, std::ceil(point.value / scale.step) * scale.step);
            }
        }
        while ((scale.high - scale.low) / scale.step > 10)
            scale.step *= 2;
        return scale;
    }

    [[nodiscard]] double x(int day) const {
        return left + (width - left - right) * day / std::max(last_day_, 7);
    }

    void text(double at_x, double at_y, std::string_view words, const char* anchor,
              bool bold = false) {
        out_ +=
            fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"{}\"{}>{}</text>\n", at_x,
                        at_y, anchor, bold ? " font-weight=\"bold\"" : "", escaped(words));
    }

    void line(double x1, double y1, double x2, double y2, const char* look) {
        out_ += fmt::format("<line x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\" "
                            "stroke=\"#000\" {}/>\n",
                            x1, y1, x2, y2, look);
    }

    void panel(const char* name, const Scale& scale, bool ph) {
        const double bottom = scale.top + panel_height;
        text(left, scale.top - 10, name, "start", true);
        for (double value = scale.low; value <= scale.high + 1e-9; value += scale.step) {
            line(left - 5, scale.at(value), left, scale.at(value), "");
            text(left - 9, scale.at(value) + 5, units::print_number(value, 4), "end");
        }
        line(left, scale.top, left, bottom, "");
        line(left, bottom, width - right, bottom, "");
        const int days = std::max(last_day_, 7);
        const int every = days <= 14 ? 1 : days <= 60 ? 7 : 28;
        for (int day = 0; day <= days; day += every) {
            line(x(day), bottom, x(day), bottom + 5, "");
            text(x(day), bottom + 20, std::to_string(day), "middle");
        }
        text(width - right, bottom + 38, "day", "end");
        if (ph) {
            line(left, scale.at(tend::ph_limit), width - right, scale.at(tend::ph_limit),
                 "stroke-dasharray=\"1 4\" stroke-width=\"2\"");
            text(width - right, scale.at(tend::ph_limit) - 6, "4.6", "end");
        }
        for (std::size_t i = 0; i < reports_.size(); ++i)
            curve(points(*reports_[i], ph, us_), scale, i);
    }

    void curve(const std::vector<Point>& list, const Scale& scale, std::size_t which) {
        if (list.size() > 1) {
            out_ += "<polyline fill=\"none\" stroke=\"#000\" stroke-width=\"2\"" + dashes(which) +
                    " points=\"";
            for (const Point& point : list)
                out_ += fmt::format("{:.1f},{:.1f} ", x(point.day), scale.at(point.value));
            out_ += "\"/>\n";
        }
        for (const Point& point : list)
            mark(x(point.day), scale.at(point.value), which);
    }

    static std::string dashes(std::size_t which) {
        static constexpr const char* patterns[] = {"", "8 5", "2 4", "12 4 2 4"};
        const std::string pattern = patterns[which % 4];
        return pattern.empty() ? "" : " stroke-dasharray=\"" + pattern + "\"";
    }

    /// Full and empty circles and squares.
    void mark(double at_x, double at_y, std::size_t which) {
        const char* fill = which % 2 == 0 ? "#000" : "#fff";
        if (which < 2)
            out_ += fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"5\" fill=\"{}\" "
                                "stroke=\"#000\" stroke-width=\"2\"/>\n",
                                at_x, at_y, fill);
        else
            out_ += fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"10\" height=\"10\" "
                                "fill=\"{}\" stroke=\"#000\" stroke-width=\"2\"/>\n",
                                at_x - 5, at_y - 5, fill);
    }

    void legend() {
        for (std::size_t i = 0; i < reports_.size(); ++i) {
            const double y = celsius_top + panel_height + 64 + 24 * static_cast<double>(i);
            out_ += fmt::format("<line x1=\"{}\" y1=\"{:.1f}\" x2=\"{}\" y2=\"{:.1f}\" "
                                "stroke=\"#000\" stroke-width=\"2\"{}/>\n",
                                left, y - 5, left + 60, y - 5, dashes(i));
            mark(left + 30, y - 5, i);
            text(left + 72, y, reports_[i]->name, "start");
        }
    }

    const std::vector<const BatchReport*>& reports_;
    bool us_; ///< temperatures in °F
    std::string out_;
    int last_day_ = 0;
};

} // namespace

std::string batch_plot_svg(const std::vector<const BatchReport*>& reports) {
    return Plot(reports).svg();
}

} // namespace jarful::render
