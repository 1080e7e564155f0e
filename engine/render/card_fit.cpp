#include "engine/render/card.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace jarful::render {

namespace {

/// Heights on paper, in rem, as the style sheet has them; only as exact as one size from the next.
struct Column {
    double letters_to_a_line = 70; ///< of text of the usual size
    double height = 0;

    void text(const std::string& words, double size = 1) {
        const double lines =
            std::ceil(static_cast<double>(columns(words)) * size / letters_to_a_line);
        height += std::max(1.0, lines) * 1.3 * size;
    }
    void texts(const std::vector<std::string>& all, double size, double gap) {
        for (const std::string& words : all) {
            text(words, size);
            height += gap;
        }
    }
    void heading() { height += 2.5; }
};

void add_numbers(Column& column, const Card& card) {
    for (const CardNumbers& group : card.numbers) {
        column.heading();
        if (!group.rows.empty()) column.height += 1.2;
        for (const CardNumber& row : group.rows) {
            Column beside{column.letters_to_a_line * 0.72};
            beside.text(row.beside + row.truth, 0.86);
            column.height += std::max(2.3, 1.6 + beside.height) + 0.5;
        }
        if (!group.words.empty()) column.text(group.words);
    }
}

void add_salt(Column& column, const Card& card) {
    column.heading();
    column.text(card.salt.headline, 1.15);
    if (card.salt.gauge) column.height += 8.2;
    column.texts(card.salt.words, 1, 0.15);
    column.texts(card.salt.bounds, 1, 0.15);
}

void add_jars(Column& column, const Card& card) {
    column.heading();
    for (const CardJar& jar : card.jars) {
        const bool drawn = jar.figure.width_cm > 0;
        Column caption{column.letters_to_a_line * 0.5};
        caption.text(jar.title);
        caption.text(jar.level, 0.92);
        for (const CardPortion& portion : jar.portions) {
            caption.text(portion.title);
            std::string parts;
            for (const CardPart& part : portion.parts)
                parts += part.figure + part.name + " - ";
            caption.text(parts, 0.92);
        }
        caption.texts(jar.salt, 0.92, 0);
        column.height += std::max(drawn ? 13.0 : 0.0, caption.height) + 0.8;
    }
    if (!card.room.empty()) column.text(card.room, 0.86);
}

void add_dates_to(Column& column, const Card& card) {
    column.heading();
    Column what{column.letters_to_a_line * 0.66};
    for (const CardDate& date : card.dates) {
        what.text(date.what);
        what.height += 0.2;
    }
    column.height += what.height;
    column.texts(card.date_words, 0.86, 0);
    column.texts(card.afterwards, 1.12, 0.2);
}

/// The whole card on a sheet that is so many letters wide.
double height_of(const Card& card, double letters) {
    Column flow{letters * 0.48};
    add_numbers(flow, card);
    add_salt(flow, card);
    add_jars(flow, card);
    flow.heading();
    flow.texts(card.method, 1.12, 0.25);
    if (!card.top_up.empty()) {
        flow.heading();
        flow.text(card.top_up);
    }
    add_dates_to(flow, card);

    Column page{letters};
    page.text(card.title, 1.8);
    page.text(card.kind);
    page.texts(card.asked, 1, 0);
    page.text(card.made_from + card.kitchen);
    if (!card.obstacles.empty()) page.height += 4;
    page.texts(card.obstacles, 1, 0.3);
    // The two columns never come out quite alike.
    constexpr double uneven = 4;
    page.height += flow.height / 2 + uneven;
    Column cautions{letters * 0.31};
    for (const CardCaution& caution : card.cautions) {
        cautions.text(caution.title + caution.text, 0.84);
        cautions.height += 0.35;
    }
    page.height += cautions.height / 3 + 3;
    Column foot{letters * 0.48};
    foot.texts(card.assumptions, 0.78, 0.15);
    foot.texts(card.sources, 0.78, 0.15);
    page.height += foot.height / 2 + 3;
    return page.height;
}

} // namespace

int card_fit(const Card& card) {
    // What is left of a Letter sheet within its margins, the lower and the wider of the two: 261 mm
    // high; A4 is 192 mm wide. A letter is taken as half as wide as it is high.
    constexpr double points_to_a_mm = 72 / 25.4;
    constexpr double high = 261 * points_to_a_mm;
    constexpr double wide = 192 * points_to_a_mm;
    constexpr std::array sizes{11.4, 10.9, 10.4, 10.0, 9.6, 9.2, 8.8,
                               8.4,  8.0,  7.6,  7.2,  6.8, 6.4}; // as in the style sheet
    for (std::size_t i = 0; i + 1 < sizes.size(); ++i) {
        const double letters = wide / (sizes[i] * 0.54);
        if (height_of(card, letters) * sizes[i] < high) return static_cast<int>(i);
    }
    return static_cast<int>(sizes.size()) - 1;
}

} // namespace jarful::render
