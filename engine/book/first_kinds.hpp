#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

/// What a first recipe of a kind begins with. For this room only.
namespace jarful::book {

/// How a ferment is made.
enum class Way : std::uint8_t {
    dry_salted,  ///< it makes its own brine
    in_brine,    ///< salt and water are weighed for this jar
    stock_brine, ///< a brine is made beforehand and poured
    soaked,      ///< in a bath that is poured off, then rinsed, weighed again and salted
    mash,        ///< ground with its salt
    whole_heads  ///< salt in the cores, the rest in the brine
};

/// How a kind is packed: figures of common practice, no source. Whoever makes it weighs a full jar
/// and writes down what that says.
struct Start {
    std::string_view kind;
    std::string_view method; ///< empty: whatever the method
    std::string_view name;   ///< of the produce
    std::string_view tail;   ///< what it is, where the name does not say so
    std::string_view amount;
    std::string_view packed; ///< as it lies in the jar
    /// The water as a line's right-hand side, where NAME stands for the produce; empty for what
    /// makes its own brine.
    std::string_view water;
    /// Where the kind has one of its own; otherwise it follows from the range's basis.
    std::optional<Way> way = {};
    /// What is done to the produce first: "Shred"; it goes before "the cabbage and weigh it".
    std::string_view first = {};
};

/// That of a kind and method; one for mixed vegetables where the kind is not known.
[[nodiscard]] const Start& start_of(std::string_view kind, std::string_view method);

} // namespace jarful::book
