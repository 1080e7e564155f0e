#pragma once

#include "engine/appraise/tokens.hpp"
#include "engine/larder/larder.hpp"

#include <span>
#include <string>
#include <string_view>
#include <vector>

/// What the words of a line stand for. For this room only.
namespace jarful::appraise {

struct Item {
    std::string words;                          ///< without preparation
    const larder::Material* material = nullptr; ///< nothing: not understood
    /// Every material that was named with "or"; the first is `material`.
    std::vector<const larder::Material*> choices;
    Tongue tongue = nullptr;
    bool trimmed = false;     ///< the words say that the weight is what goes in the jar
    bool untrimmed = false;   ///< the words say that it is as bought
    bool salty_words = false; ///< has the word salt, whatever else: could be salt
    bool several = false;     ///< named with "and": more than one thing for one amount
    bool one_noun = false;    ///< of several: the names share their noun, "red and green cabbage"
    /// Other things that the words behind the first name: "cabbage, carrots", "water with salt".
    std::vector<const larder::Material*> besides;
};

/// What words (those of a line without its amount) stand for. Words that say how it is cut, how
/// fresh, how big are set aside; a word that is not known makes the item not understood wherever
/// it could change what the thing is.
[[nodiscard]] Item item_of(std::span<const Token> tokens, Tongue tongue);

/// Whether a folded word only says how a thing is prepared, cut or picked.
[[nodiscard]] bool is_preparation(std::string_view folded);

} // namespace jarful::appraise
