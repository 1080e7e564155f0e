#pragma once

#include "engine/larder/timing.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What is published of how long a kind of ferment takes at a room's temperature.
namespace jarful::tend {

/// The pH that a fermented vegetable must have come down to. Source: 21 CFR 114.3, as far as the
/// larder's cautions carry it.
inline constexpr double ph_limit = 4.6;
inline constexpr std::string_view ph_limit_source = "21 CFR 114.3";

/// A window of days, whole ones, the low rounded down and the high up.
struct Days {
    int from = 0;
    int to = 0;
};

/// The published window at a temperature, or one between two published windows of the same source.
struct Window {
    Days days;
    const larder::TimingRow* row = nullptr;   ///< the row that says so
    const larder::TimingRow* other = nullptr; ///< of an estimate: the warmer of the two rows
    [[nodiscard]] bool estimate() const { return other != nullptr; }
};

/// When the pH should have come down to 4.6 or below.
struct PhBy {
    int day = 0;
    const larder::TimingRow* row = nullptr;
    bool general = false; ///< a row for ferments of any kind, for want of one of this kind
};

struct Outlook {
    std::optional<Window> window; ///< empty: nothing ruling is published at this temperature
    std::optional<PhBy> ph_by;    ///< empty: no published row says by when
    std::vector<const larder::TimingRow*> ruling;   ///< windows of this kind, at any temperature
    std::vector<const larder::TimingRow*> beside;   ///< other windows of this kind
    std::vector<const larder::TimingRow*> warnings; ///< too cold or too warm, and the room is
    std::vector<const larder::TimingRow*> store;    ///< how it keeps
};

/// @param kind as in larder::find_kind(); one that is not known has an empty outlook, but for the
///   rows of ferments of any kind.
/// @param method of the kind; empty: its default.
/// @param celsius of the room; empty: not known, and then only windows without a temperature count.
[[nodiscard]] Outlook outlook(std::string_view kind, std::string_view method,
                              std::optional<double> celsius);

/// Whether a temperature lies in a window. The sources print whole degrees Fahrenheit, so half of
/// one either way is inside: 24 °C is inside 70 to 75 °F.
[[nodiscard]] bool covers(std::optional<double> low, std::optional<double> high, double celsius);

} // namespace jarful::tend
