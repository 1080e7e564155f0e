#pragma once

#include "engine/appraise/method.hpp"
#include "engine/appraise/reading.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// A pasted text in its parts: title, lists, method. For this room only.
namespace jarful::appraise {

enum class Section : std::uint8_t { main, brine, soak, top_up, serving, equipment, method, notes };

struct Document {
    std::string title;
    std::vector<Reading> readings; ///< every line that is not empty, in order
    std::vector<Section> sections; ///< of each reading
    Account account;               ///< what the method says of salt, water and vessels
    bool unread = false;           ///< in a language that is not read
    Concepts says;                 ///< what its words mean, in whatever language
    bool cooks = false;            ///< speaks of an oven or a pan, in its own language
    std::size_t method_lines = 0;
    bool rinsed = false;   ///< salt is for a bath that is poured off again, or the method rinses
    bool unsoaked = false; ///< says that nothing is soaked or rinsed
    Tongue tongue = nullptr;
    Concepts title_says; ///< what the words of the title mean
};

[[nodiscard]] Document read_document(std::string_view text, const larder::Material* salt);

} // namespace jarful::appraise
