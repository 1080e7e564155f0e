#include "engine/render/card.hpp"
#include "engine/render/card_drawing.hpp"
#include "engine/render/card_parts.hpp"
#include "engine/render/lettering.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace jarful::render {

namespace {

// Everything here is in rem and follows the style sheet's rules for paper, line by line; the tests
// in a browser hold both together.

constexpr double line_height = 1.28;
constexpr double note_size = 0.86;
constexpr double note_line = 1.3;
constexpr double between_halves = 1.6;
constexpr double method_size = 1.12;
constexpr double numbered = 2.2; ///< what the steps are indented by
constexpr double marked = 1.3;   ///< what other lists are indented by

double text(const std::string& words, double width, double size = 1, double line = line_height,
            bool bold = false) {
    return line_count(words, width / size, bold) * line * size;
}

double heading_height(const std::string& words, double width) {
    constexpr double rule = 0.1 + 0.1 + 0.25;
    return text(words, width, 1.05, 1.3, true) + rule;
}

/// What is laid out in columns: pieces that are not broken.
struct Pieces {
    double width = 0; ///< of a column
    std::vector<double> heights;
    double heading_before = 0; ///< stays with the next piece

    void heading(const std::string& words) { heading_before += heading_height(words, width); }
    void add(double height) {
        heights.push_back(heading_before + height);
        heading_before = 0;
    }
    void end_section() {
        add(0);
        heights.back() += 0.6;
    }
    void list(const std::vector<std::string>& items, double indent, double size, double line,
              double gap) {
        for (const std::string& words : items)
            add(text(words, width - indent, size, line) + gap);
    }
    /// The height of the columns when the pieces are spread over them as evenly as it goes.
    [[nodiscard]] double spread(std::size_t columns) const;
};

/// Whether the pieces go into so many columns of a height, in their order.
bool goes_in(const std::vector<double>& heights, std::size_t columns, double height) {
    double used = 0;
    for (const double piece : heights) {
        if (used > 0 && used + piece > height) {
            if (--columns == 0) return false;
            used = 0;
        }
        used += piece;
    }
    return true;
}

double Pieces::spread(std::size_t columns) const {
    double all = 0;
    double tallest = 0;
    for (const double piece : heights) {
        all += piece;
        tallest = std::max(tallest, piece);
    }
    double height = std::max(tallest, all / static_cast<double>(columns));
    constexpr double step = 0.25;
    while (height < all && !goes_in(heights, columns, height))
        height += step;
    return height;
}

double row_height(const CardNumber& row, double width) {
    constexpr double figure_size = 2.1;
    constexpr double unit_size = 0.55;
    const double figure = figure_size * (width_of_words(row.figure + " ", true) +
                                         unit_size * width_of_words(row.unit)) +
                          0.9;
    const double name_width = width - std::max(7.6, figure);
    constexpr double name_size = 1.3;
    constexpr double name_line = 1.2;
    double name = text(row.name + (row.scale.empty() ? "" : " on " + row.scale), name_width,
                       name_size, name_line, true);
    name += text(note_of(row), name_width, note_size, note_line);
    return std::max(2.31, name) + 0.44 + 0.06;
}

void add_numbers(Pieces& flow, const Card& card) {
    for (const CardNumbers& group : card.numbers) {
        flow.heading(group.heading);
        if (!group.rows.empty()) flow.heading_before += 1.2;
        for (const CardNumber& row : group.rows)
            flow.add(row_height(row, flow.width));
        if (!group.words.empty()) flow.add(0.3 + text(group.words, flow.width));
        flow.end_section();
    }
}

void add_salt(Pieces& flow, const Card& card) {
    flow.heading("Salt");
    double height = text(card.salt.headline, flow.width, 1.15, 1.3, true);
    if (card.salt.gauge) {
        const Drawing gauge = draw_gauge(*card.salt.gauge);
        constexpr double widest = 27;
        height += std::min(widest, flow.width) * gauge.height / gauge.width + 0.8;
    }
    for (const auto* words : {&card.salt.words, &card.salt.bounds})
        for (const std::string& each : *words)
            height += text(each, flow.width) + 0.3;
    flow.add(height);
    flow.end_section();
}

constexpr double caption_size = 0.92;

/// The words beside a jar, or below it.
double caption_height(const CardJar& jar, double width) {
    double height = 0.2 + text(jar.title, width, 0.95, 1.3, true);
    if (!(jar.figure.width_cm > 0))
        height += text("Not drawn: its width is not known.", width, caption_size, note_line);
    return height + text(jar.level, width, caption_size, note_line);
}

/// What goes into jars of a kind, below their drawing.
double portions_height(const CardJar& jar, double width) {
    double height = 0;
    for (const CardPortion& portion : jar.portions) {
        height += 0.2 + text(portion.title, width, caption_size, note_line, true);
        // Figures are bold and names are not; broken lines leave some room at their ends.
        constexpr double ragged = 1.08;
        double room = 0;
        for (const CardPart& part : portion.parts)
            room += width_of_words(part.figure, true) + width_of_words(" " + part.name + " · ");
        height += std::ceil(room * ragged * caption_size / width) * note_line * caption_size;
    }
    for (const std::string& words : jar.salt)
        height += text(words, width, caption_size, note_line);
    return height > 0 ? height + 0.4 : 0;
}

void add_jars(Pieces& flow, const Card& card) {
    flow.heading("Jars");
    std::vector<JarFigure> figures;
    for (const CardJar& jar : card.jars)
        figures.push_back(jar.figure);
    const double scale = jar_scale(figures);
    double height = 0;
    constexpr double units_to_a_rem = 16;
    constexpr double least_caption = 9;
    for (const CardJar& jar : card.jars) {
        if (height > 0) height += 0.8;
        if (!(jar.figure.width_cm > 0)) {
            height += caption_height(jar, flow.width) + portions_height(jar, flow.width);
            continue;
        }
        const Drawing drawing = draw_jar(jar.figure, scale, "", card.units);
        const double shrunk = std::min(1.0, flow.width * units_to_a_rem / drawing.width);
        const double wide = drawing.width / units_to_a_rem * shrunk;
        const double high = drawing.height / units_to_a_rem * shrunk;
        const double beside = flow.width - wide - 0.8;
        height += beside >= least_caption ? std::max(high, caption_height(jar, beside))
                                          : high + 0.4 + caption_height(jar, flow.width);
        height += portions_height(jar, flow.width);
    }
    if (!card.room.empty()) height += 0.4 + text(card.room, flow.width, note_size, note_line);
    flow.add(height);
    flow.end_section();
}

/// The days, in two columns under their heading.
double height_of_dates(const Card& card, double width) {
    if (card.dates.empty() && card.afterwards.empty()) return 0;
    Pieces days{(width - between_halves) / 2, {}, 0};
    double when = 0;
    for (const CardDate& date : card.dates)
        when = std::max(when, width_of_words(date.when, true));
    when = std::min(when, 0.4 * days.width);
    constexpr double gap = 0.8;
    for (const CardDate& date : card.dates)
        days.add(std::max(text(date.when, when + 0.01, 1, line_height, true),
                          text(date.what, days.width - when - gap)) +
                 0.2);
    for (const std::string& words : card.date_words)
        days.add(0.4 + text(words, days.width, note_size, note_line));
    if (!card.afterwards.empty()) {
        days.heading_before += 0.4 + 1.3;
        days.list(card.afterwards, numbered, method_size, line_height, 0.2);
    }
    return 0.5 + heading_height(card.dates_heading, width) + days.spread(2);
}

/// What is needed while it is packed: the head and the two columns.
double height_of_work(const Card& card, double width) {
    double height = text(card.title, width, 1.7, 1.2, true) + text(card.kind, width);
    for (const std::string& words : card.asked)
        height += text(words, width);
    height += text(card.made_from + " " + card.kitchen, width) + 0.5;
    if (!card.obstacles.empty()) {
        constexpr double frame = 2 * (0.25 + 0.8);
        height += 2 * (0.25 + 0.6) + 1.365 + 0.35 + 0.5;
        for (const std::string& words : card.obstacles)
            height += text(words, width - frame) + 0.3;
    }
    Pieces flow{(width - between_halves) / 2, {}, 0};
    add_numbers(flow, card);
    add_salt(flow, card);
    add_jars(flow, card);
    if (!card.method.empty()) {
        flow.heading("Method");
        flow.list(card.method, numbered, method_size, line_height, 0.2);
        flow.end_section();
    }
    if (!card.top_up.empty()) {
        flow.heading("If the juice does not cover");
        flow.add(text(card.top_up, flow.width));
        flow.end_section();
    }
    return height + flow.spread(2);
}

/// What is needed afterwards: the days, the cautions, and what all rests on.
double height_of_the_rest(const Card& card, double width, const CardAddress& address) {
    constexpr double between = 1.4;
    constexpr double small_line = 1.22;
    double height = height_of_dates(card, width);
    if (!card.cautions.empty()) {
        Pieces cautions{(width - 2 * between) / 3, {}, 0};
        // A paragraph may be broken, but for its first and last two lines.
        constexpr double size = 0.84;
        for (const CardCaution& caution : card.cautions) {
            const double whole =
                text(caution.title + ". " + caution.text, cautions.width, size, small_line) + 0.35;
            constexpr double least = 2 * small_line * size;
            const int parts = std::max(1, static_cast<int>(whole / least));
            for (int i = 0; i < parts; ++i)
                cautions.add(whole / parts);
        }
        height += 0.5 + heading_height("Take care", width) + cautions.spread(3);
    }
    if (!card.assumptions.empty() || !card.sources.empty()) {
        Pieces foot{(width - between) / 2, {}, 0};
        constexpr double size = 0.81;
        for (const auto* list : {&card.assumptions, &card.sources}) {
            if (list->empty()) continue;
            foot.heading("Sources");
            foot.list(*list, marked, size, small_line, 0.15);
            foot.end_section();
        }
        height += 0.5 + foot.spread(2);
    }
    if (address.url.empty()) return height;
    return height + 1 + (address.code ? 7 : text(address.url, width));
}

/// Type sizes of the style sheet, in points. At the last the method stands in 11.2 points and
/// nothing in less than 8.
constexpr std::array sizes{14.0, 13.2, 12.5, 11.9, 11.4, 10.9, 10.4, 10.0};

} // namespace

std::string CardSheets::html_class() const {
    return "fit-" + std::to_string(size) + (count > 1 ? " two-sheets" : "");
}

CardSheets card_sheets(const Card& card, const CardAddress& address) {
    // What is left within the margins, of A4 in its width and of Letter in its height.
    constexpr double points_to_a_mm = 72 / 25.4;
    constexpr double high = 261 * points_to_a_mm;
    constexpr double wide = 192 * points_to_a_mm;
    std::array<double, sizes.size()> work{};
    std::array<double, sizes.size()> rest{};
    for (std::size_t i = 0; i < sizes.size(); ++i) {
        const double width = wide / sizes[i];
        work[i] = height_of_work(card, width) * sizes[i];
        rest[i] = height_of_the_rest(card, width, address) * sizes[i];
        if (work[i] + rest[i] <= high) return {static_cast<int>(i), 1};
    }
    for (std::size_t i = 0; i < sizes.size(); ++i) {
        constexpr double heading = 2.5; // what says that there is another sheet, and of what it is
        const double words = heading * sizes[i];
        if (work[i] + words <= high && rest[i] + words <= high) return {static_cast<int>(i), 2};
    }
    return {static_cast<int>(sizes.size()) - 1, 3};
}

} // namespace jarful::render
