#pragma once

#include "engine/render/card.hpp"
#include "engine/render/html.hpp"

#include <string>
#include <vector>

/// The drawings of a card as SVG, from plain numbers. They are in one ink, the colour of the text
/// around them, so that they are the same on paper, on a dark screen and in black and white.
namespace jarful::render {

struct Drawing {
    Markup inside{Markup::Form::xml};
    double width = 0, height = 0; ///< in sixteenths of the text's size
    std::string title;            ///< what it is, in a few words
    std::string description;      ///< what is to be seen on it, in sentences
};

/// How many of a drawing's units one centimetre takes, so that jars of one batch can be compared
/// and the highest of them has a good height. 0 if no width is known.
[[nodiscard]] double jar_scale(const std::vector<JarFigure>& jars);

/// A jar from the side, to scale: its walls, what is in it, the brine line, the headspace, the
/// weights, and a ruler beside it.
/// @param jar with a width above 0 and a level between 0 and its height.
/// @param name of it, for those who cannot see the drawing.
[[nodiscard]] Drawing draw_jar(const JarFigure& jar, double scale, const std::string& name,
                               Units units);

/// The salt on a kitchen ruler: the range's ends as marks through it, the batch as a stretch above.
[[nodiscard]] Drawing draw_gauge(const GaugeFigure& gauge);

/// A drawing as an element of a page, which a reader of screens takes for one picture with its
/// title and description.
/// @param id unlike any other on the page.
void put_drawing(Markup& page, const Drawing& drawing, const std::string& id);

/// Where the page of a card's batch stands, in words and as a code, as an element of a page.
/// Nothing for an empty address.
void put_address(Markup& page, const CardAddress& address);

/// A coordinate: two decimals at most.
[[nodiscard]] std::string coordinate(double value);

} // namespace jarful::render
