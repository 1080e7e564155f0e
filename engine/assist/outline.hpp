#pragma once

#include "engine/assist/session.hpp"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

/// How a file is built up, for lists, folds and colours. Private to the room.
namespace jarful::assist {

/// A line that has a name.
struct Symbol {
    enum class Sort : std::uint8_t { file, quantity, value, vessel, material, range };
    Sort sort = Sort::quantity;
    std::string name;
    std::string detail;    ///< the line's first word, or what it is
    language::Place place; ///< of the whole line
    language::Place name_place;
};
/// In the order of the file.
[[nodiscard]] std::vector<Symbol> symbols_of(const language::Document& document);

/// Lines from the first to the last, both from 0.
struct Fold {
    std::uint32_t first = 0, last = 0;
    bool comment = false;
};
/// Lines that stand together between blank ones, and comments of several lines.
[[nodiscard]] std::vector<Fold> folds_of(std::string_view text);

/// A word with what it is.
struct Token {
    enum class Sort : std::uint8_t {
        keyword,
        name,
        function,
        number,
        unit,
        material,
        kind,
        text,
        comment,
        op
    };
    Sort sort = Sort::keyword;
    language::Place place; ///< within one line
};
/// In the order of the text. What a line is made of is seen even where the line is at fault.
[[nodiscard]] std::vector<Token> tokens_of(const language::Document& document);

} // namespace jarful::assist
