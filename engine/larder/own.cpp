#include "engine/larder/fold.hpp"
#include "engine/larder/larder.hpp"
#include "engine/larder/salt_words.hpp"

#include <algorithm>

namespace jarful::larder {

namespace salt_words {

SaltWarning change_of(std::span<const std::string_view> words, std::string_view known_part) {
    static constexpr std::string_view cures[] = {"curing",   "cure",    "cured",     "pink",
                                                 "nitrite",  "nitrate", "saltpetre", "saltpeter",
                                                 "nitrited", "nitrated"};
    static constexpr std::string_view reduces[] = {"reduced", "reduce",  "low",       "lower",
                                                   "lite",    "light",   "sodium",    "potassium",
                                                   "less",    "lowered", "substitute"};
    const std::vector<std::string_view> known = words_of(known_part);
    const auto any_of = [&](std::span<const std::string_view> list) {
        return std::any_of(words.begin(), words.end(), [&](std::string_view word) {
            return std::find(list.begin(), list.end(), word) != list.end() &&
                   std::find(known.begin(), known.end(), word) == known.end();
        });
    };
    if (any_of(cures)) return SaltWarning::curing;
    if (any_of(reduces)) return SaltWarning::reduced_sodium;
    return SaltWarning::none;
}

} // namespace salt_words

std::string_view Larder::keep(std::string text) {
    if (text.empty()) return {};
    return strings_.emplace_back(std::move(text));
}

const Material& Larder::add(OwnMaterial own) {
    const std::string folded = fold(own.name);
    const Material* const base = known(folded);
    Material material = base ? *base : Material{};

    material.name = keep(std::move(own.name));
    if (!base) {
        material.id = material.name;
        material.role = own.role;
    } else if (own.role != Role::other) {
        material.role = own.role;
    }
    const std::string_view source = keep(std::move(own.source));
    const auto take = [&](std::optional<Figure>& into, const std::optional<Figure>& stated) {
        if (!stated) return;
        into = stated;
        if (!source.empty()) {
            into->source = source;
        } else {
            into->source = stated->source.empty() ? std::string_view("stated in the recipe")
                                                  : keep(std::string(stated->source));
        }
    };
    take(material.bulk_density, own.bulk_density);
    take(material.true_density, own.true_density);
    take(material.water, own.water);
    take(material.salt, own.salt);
    take(material.piece, own.piece);
    if (own.piece && material.piece_word.empty()) material.piece_word = "piece";
    // Whoever states how heavy a spoon of it is has said which one is meant.
    if (own.bulk_density) {
        material.vague = false;
        material.vague_hint = {};
    }
    if (!base && material.role == Role::salt) {
        const std::string one = singular(folded);
        const std::vector<std::string_view> words = words_of(one);
        material.warning = salt_words::change_of(words, {});
    }
    if (base) {
        std::vector<Text> names(base->names.begin(), base->names.end());
        names.push_back(base->name);
        std::erase_if(names, [&](std::string_view name) { return fold(name) == folded; });
        material.names = std::span<const Text>(name_lists_.emplace_back(std::move(names)));
    }

    const Material& kept = own_.emplace_back(material);
    const auto claim = [&](const std::string& key) { own_names_[key] = &kept; };
    if (base) {
        // Ids and singular forms among the base's names still lead here.
        claim(fold(base->id));
        for (const std::string_view name : kept.names) {
            claim(fold(name));
            claim(singular(fold(name)));
        }
    }
    claim(folded);
    claim(singular(folded));
    return kept;
}

} // namespace jarful::larder
