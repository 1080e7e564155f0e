#include "engine/render/card_drawing.hpp"
#include "engine/render/lettering.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <regex>

namespace jarful::render {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

constexpr double pi = 3.14159265358979;

std::vector<double> numbers_in(const std::string& text) {
    std::vector<double> out;
    const std::regex number("-?[0-9]+(\\.[0-9]+)?");
    for (auto it = std::sregex_iterator(text.begin(), text.end(), number);
         it != std::sregex_iterator(); ++it)
        out.push_back(std::stod(it->str()));
    return out;
}

/// The coordinates of every path of a drawing.
std::vector<std::vector<double>> paths_of(const Drawing& drawing) {
    std::vector<std::vector<double>> out;
    const std::string& text = drawing.inside.written();
    const std::regex path("<path d=\"([^\"]*)\"");
    for (auto it = std::sregex_iterator(text.begin(), text.end(), path);
         it != std::sregex_iterator(); ++it)
        out.push_back(numbers_in((*it)[1].str()));
    return out;
}

/// A jar measured on its drawing with a ruler.
struct Measured {
    double width = 0, height = 0, level = 0, weights = 0;
};

Measured measured(const JarFigure& jar, double scale) {
    const auto paths = paths_of(draw_jar(jar, scale, "Jar", Units::metric));
    const bool weights = jar.weights_ml > 0;
    const std::vector<double>& slab = paths.front();
    const std::vector<double>& walls = paths[weights ? 1 : 0];
    const std::vector<double>& brine = paths.back();
    // Lip, rim, left wall, bend, bottom corner: M lip L rim L wall Q corner …
    const double rim = walls[3];
    const double left = walls[2];
    const double bottom = walls[7];
    Measured out;
    out.height = (bottom - rim) / scale;
    out.width = (brine[brine.size() - 2] - left) / scale;
    out.level = (bottom - brine[1]) / scale;
    if (weights) out.weights = (slab[5] - brine[1]) / scale;
    return out;
}

TEST(JarDrawing, isToScale) {
    for (const double width : {6.0, 9.0, 10.0, 22.0}) {
        for (const double brimful : {500.0, 750.0, 1500.0, 8000.0}) {
            for (const double full : {0.1, 0.5, 0.88, 1.0}) {
                JarFigure jar;
                jar.width_cm = width;
                jar.brimful_ml = brimful;
                const double height = brimful / (pi / 4 * width * width);
                jar.level_cm = full * height;
                EXPECT_NEAR(jar.height_cm(), height, 1e-9);
                const double scale = jar_scale({jar});
                const Measured drawn = measured(jar, scale);
                const double line = 0.02 / scale; // two decimals of a drawing's unit
                EXPECT_NEAR(drawn.width, width, line);
                EXPECT_NEAR(drawn.height, height, line);
                EXPECT_NEAR(drawn.level, full * height, line);
            }
        }
    }
}

TEST(JarDrawing, showsTheWeightsBelowTheBrineLine) {
    JarFigure crock{8000, 22, 14, 400, true};
    const double area = pi / 4 * 22 * 22;
    const double scale = jar_scale({crock});
    EXPECT_NEAR(measured(crock, scale).weights, 400 / area, 0.02 / scale);
}

TEST(JarDrawing, hasOneScaleForAllJarsOfABatch) {
    const JarFigure tall{1500, 10, 15, 0, false};
    const JarFigure squat{750, 9, 9, 0, false};
    const double scale = jar_scale({tall, squat});
    EXPECT_GT(scale, 0);
    EXPECT_NEAR(measured(tall, scale).width / measured(squat, scale).width, 10.0 / 9, 0.01);
    EXPECT_EQ(jar_scale({JarFigure{}}), 0) << "no width, no scale";
    EXPECT_EQ(jar_scale({JarFigure{}, squat}), jar_scale({squat, JarFigure{}}));
}

/// A line of words in a drawing, with the room that the widest font takes for it.
struct Words {
    std::string text;
    double left = 0, right = 0, line = 0;
};
std::vector<Words> words_in(const Drawing& drawing) {
    std::vector<Words> out;
    const std::string& text = drawing.inside.written();
    const std::regex words("<text x=\"([^\"]*)\" y=\"([^\"]*)\" text-anchor=\"([^\"]*)\" "
                           "font-size=\"([^\"]*)\"([^>]*)>([^<]*)<");
    for (auto it = std::sregex_iterator(text.begin(), text.end(), words);
         it != std::sregex_iterator(); ++it) {
        const auto& found = *it;
        const bool bold = found[5].str().find("700") != std::string::npos;
        const double x = std::stod(found[1]);
        const double room = std::stod(found[4]) * width_of_words(found[6].str(), bold);
        const double left = found[3] == "end" ? x - room : found[3] == "middle" ? x - room / 2 : x;
        out.push_back({found[6], left, left + room, std::stod(found[2])});
    }
    return out;
}

void expect_room(const Drawing& drawing) {
    const std::vector<Words> all = words_in(drawing);
    EXPECT_FALSE(all.empty());
    for (std::size_t i = 0; i < all.size(); ++i) {
        EXPECT_GE(all[i].left, 0) << all[i].text;
        EXPECT_LE(all[i].right, drawing.width) << all[i].text;
        for (std::size_t k = 0; k < i; ++k) {
            if (std::abs(all[i].line - all[k].line) > 10) continue;
            EXPECT_TRUE(all[i].left >= all[k].right || all[k].left >= all[i].right)
                << all[i].text << " over " << all[k].text;
        }
    }
}

TEST(JarDrawing, hasRoomForItsWordsInTheWidestFont) {
    for (const Units units : {Units::metric, Units::us, Units::both})
        for (const double width : {5.0, 10.0, 22.0, 40.0})
            for (const double brimful : {250.0, 1500.0, 1579.0, 8000.0, 20000.0})
                for (const double full : {0.0, 0.3, 0.88, 0.97, 1.0}) {
                    JarFigure jar{brimful, width, 0, 60, false};
                    jar.level_cm = full * jar.height_cm();
                    expect_room(draw_jar(jar, jar_scale({jar}), "Jar", units));
                }
}

TEST(JarDrawing, isSaidInWords) {
    const JarFigure tall{1500, 10, 15, 0, false};
    const Drawing drawing = draw_jar(tall, jar_scale({tall}), "Jar: <tall>", Units::metric);
    EXPECT_EQ(drawing.title, "Jar: <tall>, to scale");
    EXPECT_THAT(drawing.description, HasSubstr("10 cm wide and 19.1 cm high"));
    EXPECT_THAT(drawing.description, HasSubstr("stands 15 cm above the bottom; 4.1 cm stay free"));
    Markup page;
    put_drawing(page, drawing, "jar");
    EXPECT_THAT(page.written(), HasSubstr("role=\"img\" aria-labelledby=\"jar-title jar-text\""));
    EXPECT_THAT(page.written(), HasSubstr("<title id=\"jar-title\">Jar: &lt;tall&gt;, to scale"));
    const Drawing inches = draw_jar(tall, jar_scale({tall}), "Jar", Units::us);
    EXPECT_THAT(inches.inside.written(), HasSubstr(">in</text>"));
    EXPECT_THAT(inches.description, HasSubstr(" in high"));
}

TEST(JarDrawing, hasNoColour) {
    const JarFigure tall{1500, 10, 15, 100, false};
    const Drawing drawing = draw_jar(tall, jar_scale({tall}), "Jar", Units::metric);
    const Drawing gauge = draw_gauge({{2.17, 2.23}, 2, 3});
    const std::regex ink("(fill|stroke)=\"([^\"]*)\"");
    for (const std::string& text : {drawing.inside.written(), gauge.inside.written()}) {
        for (auto it = std::sregex_iterator(text.begin(), text.end(), ink);
             it != std::sregex_iterator(); ++it)
            EXPECT_TRUE((*it)[2] == "none" || (*it)[2] == "currentColor") << it->str();
    }
}

/// Where the words of a gauge begin, end or stand.
double x_of(const Drawing& gauge, const std::string& words) {
    const std::string& text = gauge.inside.written();
    const std::size_t end = text.find(">" + words + "</text>");
    EXPECT_NE(end, std::string::npos) << words;
    const std::size_t begin = text.rfind("x=\"", end) + 3;
    return std::stod(text.substr(begin));
}

TEST(Gauge, standsWhereTheFiguresAre) {
    const Drawing gauge = draw_gauge({{2.195, 2.205}, 2, 3});
    // Marks at 2.0 and 3.0 are under "low 2 %" and "high 3 %".
    EXPECT_NEAR(x_of(gauge, "2.0"), x_of(gauge, "low 2 %"), 0.01);
    EXPECT_NEAR(x_of(gauge, "3.0"), x_of(gauge, "high 3 %"), 0.01);
    const double low = x_of(gauge, "2.0");
    const double high = x_of(gauge, "3.0");
    const auto paths = paths_of(gauge);
    ASSERT_EQ(paths.size(), 2U) << "the ruler and a wedge for a stretch that is too short to draw";
    EXPECT_NEAR(paths[1][4], low + (high - low) * 0.2, 0.02) << "the wedge's tip at 2.2";
}

TEST(Gauge, drawsAWideBatchAsAStretch) {
    const Drawing gauge = draw_gauge({{2.2, 2.8}, 2, 3});
    EXPECT_EQ(paths_of(gauge).size(), 1U);
    const double low = x_of(gauge, "2.0");
    const double high = x_of(gauge, "3.0");
    EXPECT_NEAR(x_of(gauge, "this batch, 2.2 to 2.8 %"), (low + high) / 2, 0.02);
}

TEST(Gauge, isDrawnForWhateverIsKnown) {
    const double infinity = std::numeric_limits<double>::infinity();
    for (const GaugeFigure& figure :
         {GaugeFigure{{0, 0}, {}, {}}, GaugeFigure{{2, infinity}, 2, {}},
          GaugeFigure{{0, 100}, {}, 5}, GaugeFigure{{1.09, 1.11}, 2, 3},
          GaugeFigure{{26, 26}, 25, 30}}) {
        const std::string text = draw_gauge(figure).inside.written();
        EXPECT_THAT(text, Not(HasSubstr("unbounded")));
        EXPECT_THAT(text, Not(HasSubstr("not a number")));
        for (const char* attribute : {"x", "x1", "x2"}) {
            const std::regex at(std::string(" ") + attribute + "=\"([^\"]*)\"");
            for (auto it = std::sregex_iterator(text.begin(), text.end(), at);
                 it != std::sregex_iterator(); ++it) {
                EXPECT_GE(std::stod((*it)[1]), 0);
                EXPECT_LE(std::stod((*it)[1]), 340);
            }
        }
    }
    EXPECT_THAT(draw_gauge({{1, 1.1}, 2, 3}).description, HasSubstr("begins at 2 %"));
}

TEST(Gauge, hasRoomForItsWordsInTheWidestFont) {
    for (const double low : {0.0, 0.5, 1.8, 2.0, 9.75, 24.9})
        for (const double range : {0.05, 0.3, 1.0, 8.0})
            for (const double batch : {0.0, 0.02, 1.97, 2.2, 3.0, 11.111, 26.4})
                for (const double spread : {0.001, 0.07, 1.5}) {
                    const units::Interval bounds{batch, batch + spread};
                    expect_room(draw_gauge({bounds, low, low + range}));
                    expect_room(draw_gauge({bounds, {}, low + range}));
                    expect_room(draw_gauge({bounds, low, {}}));
                }
}

} // namespace
} // namespace jarful::render
