#pragma once

#include "engine/plan/compare.hpp"

/// Private to the room: what was added to a list of texts, taken from it, or changed in it.
namespace jarful::plan {

/// A text with the word that it begins with: only lines of the same word can be one that changed.
struct KeyedText {
    std::string key;
    std::string text;
    friend bool operator==(const KeyedText&, const KeyedText&) = default;
};

/// @param ordered whether a text that stands elsewhere has moved; otherwise order is passed over.
[[nodiscard]] std::vector<ComparedText> compare_texts(std::vector<KeyedText> before,
                                                      std::vector<KeyedText> after, bool ordered);

} // namespace jarful::plan
