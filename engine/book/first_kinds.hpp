#pragma once

#include <string_view>

/// What a first recipe of a kind begins with. For this room only.
namespace jarful::book {

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
};

/// That of a kind and method; one for mixed vegetables where the kind is not known.
[[nodiscard]] const Start& start_of(std::string_view kind, std::string_view method);

} // namespace jarful::book
