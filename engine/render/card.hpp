#pragma once

#include "engine/plan/weigh_out.hpp"
#include "engine/render/page.hpp"
#include "engine/tend/schedule.hpp"

#include <optional>
#include <string>
#include <vector>

/// A card to cook from, as plain data: in words and figures that a renderer has only to lay out.
/// Every text in it is fit to be shown: control characters are visible, and writing that runs from
/// right to left is isolated. It still has to be escaped for HTML, SVG or Markdown.
namespace jarful::render {

/// A text from a recipe or a kitchen, fit to be shown: see above.
[[nodiscard]] std::string shown(std::string_view text);

/// A number to wait for.
struct CardNumber {
    std::string figure; ///< "42.9", "2" for whole pieces; empty where it is written in by hand
    std::string unit;   ///< "g"; empty for pieces
    std::string name;   ///< "salt", "salt, go 1 of 2"
    std::string beside; ///< what is to be known of it; may be empty
    std::string scale;  ///< may be empty
    std::string truth;  ///< "42.6 to 43.2 g"; may be empty
};

/// Numbers that belong together, in the order in which they are waited for.
struct CardNumbers {
    std::string heading;
    bool weighed = true; ///< false for pieces to count
    std::vector<CardNumber> rows;
    std::string words; ///< below; may be empty
};

/// What a drawing of a jar needs, as plain numbers. All heights are those of a straight cylinder
/// with the jar's inner width and brimful volume.
struct JarFigure {
    double brimful_ml = 0;
    double width_cm = 0;   ///< inner; 0: not known, and then nothing is drawn
    double level_cm = 0;   ///< of what is in it, weights included
    double weights_ml = 0; ///< room that the weights take, at the top of what is in it
    bool crock = false;
    /// Brimful volume over area.
    [[nodiscard]] double height_cm() const;
    [[nodiscard]] double headspace_cm() const { return height_cm() - level_cm; }
};

/// What of one thing goes into a jar.
struct CardPart {
    std::string figure; ///< "1258 g", "2", "a pinch"
    std::string name;
};

/// What goes into each of some jars that get the same.
struct CardPortion {
    std::string title; ///< "Into jar 1", "Into each of jars 1 to 3"
    std::vector<CardPart> parts;
};

/// A kind of jar that the batch goes into, all filled to the same height.
struct CardJar {
    JarFigure figure;
    int count = 1;
    std::string title;                 ///< "2 jars: tall, 1.5 L brimful"
    std::string level;                 ///< how far each is filled, in words
    std::vector<CardPortion> portions; ///< none if the whole batch goes into this one jar
    std::vector<std::string> salt;     ///< each jar's own, if there are several; each said once
};

/// What a drawing of a salt gauge needs, as plain numbers. Percent.
struct GaugeFigure {
    units::Interval batch; ///< low and high may be infinite
    std::optional<double> low, high;
};

struct CardSalt {
    bool judged = false;
    std::string headline; ///< "2.2 % of the vegetables, inside the published range"
    std::optional<GaugeFigure> gauge;
    std::string basis;               ///< "of the vegetables"
    std::vector<std::string> words;  ///< sentences
    std::vector<std::string> bounds; ///< of the house, with their verdicts
};

/// A line of the calendar.
struct CardDate {
    std::string when; ///< "Thu 26 Nov 2026", "day 1 to day 7"
    std::string what; ///< a sentence
};

struct CardCaution {
    std::string title, text;
};

struct Card {
    Units units = Units::metric; ///< that its figures are in
    std::string title, kind, made_from;
    std::string kitchen;            ///< a sentence
    std::vector<std::string> asked; ///< what was asked backwards, and what is left out
    /// What stands in the way of packing this batch; empty if nothing does.
    std::vector<std::string> obstacles;
    std::vector<CardNumbers> numbers;
    CardSalt salt;
    std::vector<CardJar> jars;
    std::string room; ///< how much room it takes, and why no jar is shown if none is
    std::vector<std::string> method;
    std::vector<std::string> afterwards; ///< steps for when it has been looked after
    std::string top_up;                  ///< may be empty
    std::string dates_heading;
    std::vector<CardDate> dates;
    std::vector<std::string> date_words; ///< on what the dates rest
    std::vector<CardCaution> cautions;
    std::vector<std::string> assumptions;
    std::vector<std::string> sources; ///< the recipe's own, and those of the range and the cautions
};

/// Squares of a code that a telephone's camera reads, row by row; width times width of them.
struct SquareCode {
    std::size_t width = 0;
    std::vector<bool> dark;
};

/// Where the page of a card's batch stands. Empty: nowhere.
struct CardAddress {
    std::string url;
    std::optional<SquareCode> code; ///< of the url
};

/// The days of a batch.
struct CardTimes {
    tend::Schedule schedule;
    bool dated = false; ///< false: no day of packing was said, so days are told by their numbers
};

/// The days of a weigh-out.
/// @param room_celsius empty: not known. @param start the day of packing; empty: not said.
[[nodiscard]] CardTimes card_times(const plan::WeighOut& out, std::optional<double> room_celsius,
                                   std::optional<tend::Date> start);

/// The card of a weigh-out. Jars are shown if it has any.
[[nodiscard]] Card make_card(const plan::WeighOut& out, const CardTimes& times, Units units);

/// How a card is printed, so that it has room on A4 and on Letter.
struct CardSheets {
    int size = 0; ///< of the style sheet's sizes, the largest first: 0 to 7
    /// 1: all of it on one sheet. 2: on the second the days, the cautions and what it rests on. 3:
    /// likewise, but one of both is more than a sheet takes, and it runs over three or more.
    int count = 1;
    /// What the style sheet knows that by, for the `class` of a page's `html` element.
    [[nodiscard]] std::string html_class() const;
};
/// The largest size at which a card has room on one sheet, or else on two, whichever of the usual
/// fonts it is printed in.
/// @param address is printed below.
[[nodiscard]] CardSheets card_sheets(const Card& card, const CardAddress& address = {});

/// What stands on a label on one jar.
struct CardLabel {
    std::string title;
    std::string jar;      ///< "tall, 1.5 L"; empty if no jar is known
    std::string contents; ///< by weight, most first
    std::string salt;     ///< "2.2 % of the vegetables"; empty if nothing is judged
    std::string packed;   ///< a date; empty: to be written by hand
    std::string ready;    ///< "day 21 to 28", or dates; empty if the recipe says nothing
    std::string keep;     ///< "cold, 6 months"; may be empty
    int copies = 1;       ///< jars that are alike
};
/// A label for each kind of jar; one for the whole batch if no jar is known.
[[nodiscard]] std::vector<CardLabel> make_labels(const plan::WeighOut& out, const CardTimes& times,
                                                 Units units);

} // namespace jarful::render
