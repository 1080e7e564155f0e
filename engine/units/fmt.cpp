// Here, and nowhere else, fmt's own code is compiled: it is two seconds of work, which header-only
// use would ask of every file again. The others include <fmt/core.h>, which only declares vformat.
#define FMT_HEADER_ONLY
// Nothing is printed by a locale, and so none is looked for.
#define FMT_STATIC_THOUSANDS_SEPARATOR ','
#include "engine/units/shortest.hpp"

#include <fmt/format.h>

namespace jarful::units {

// Header-only, vformat is an inline function: taking its address has it emitted.
extern std::string (*const formatting)(fmt::string_view, fmt::format_args);
std::string (*const formatting)(fmt::string_view, fmt::format_args) = &fmt::vformat;

std::string_view shortest(double value, ShortestText& room) {
    const auto written = fmt::format_to_n(room.data(), room.size(), "{}", value);
    return {room.data(), written.size};
}

} // namespace jarful::units
