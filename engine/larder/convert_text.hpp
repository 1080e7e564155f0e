#pragma once

#include "engine/larder/convert.hpp"

/// The words of a conversion, taken apart. For this room.
namespace jarful::larder::conversion {

/// One side of `per`: an amount and what it is an amount of.
struct Portion {
    units::Amount amount;
    std::string words;    ///< the amount as written, tidied
    std::string material; ///< as written; empty if none
    std::string fill;     ///< "heaped", of spoons and cups; `amount` holds it already
};

/// The text in its parts.
struct Words {
    Portion what;
    std::optional<Portion> per;
    std::optional<units::CompoundUnit> to;
};

/// Takes a request apart; fills `fault` and returns empty if that cannot be done.
[[nodiscard]] std::optional<Words> take_apart(const ConversionRequest& request,
                                              const Larder& larder, ConversionFault& fault);

} // namespace jarful::larder::conversion
