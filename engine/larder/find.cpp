#include "engine/larder/fold.hpp"
#include "engine/larder/larder.hpp"
#include "engine/larder/salt_words.hpp"
#include "engine/larder/tables.hpp"
#include "engine/units/nearest.hpp"

#include <algorithm>

namespace jarful::larder {

namespace {

using Words = std::span<const std::string_view>;

bool among(std::string_view word, Words list) {
    return std::find(list.begin(), list.end(), word) != list.end();
}

bool any_among(Words words, Words list) {
    return std::any_of(words.begin(), words.end(),
                       [&](std::string_view word) { return among(word, list); });
}

std::string joined(Words words) {
    std::string out;
    for (const std::string_view word : words) {
        if (!out.empty()) out.push_back(' ');
        out += word;
    }
    return out;
}

/// Names that stand for a material alone but not as part of a longer name ("black beans").
constexpr std::string_view exact_only[] = {"bean", "beans",     "squash",  "culture", "cure",
                                           "tea",  "vegetable", "produce", "veg",     "leaf"};

/// What makes another thing of the word before it: "carrot juice" is not carrot.
constexpr std::string_view changes_what_is_before[] = {
    "powder", "juice", "oil",   "seed",  "vinegar",  "sauce",      "paste",   "flake", "extract",
    "salt",   "wine",  "syrup", "stock", "sprout",   "granule",    "pickle",  "jam",   "chip",
    "kraut",  "brine", "soup",  "kefir", "chestnut", "substitute", "essence", "water"};

/// What makes another thing of the vegetable after it.
constexpr std::string_view changes_what_is_after[] = {
    "dried", "dry", "powdered", "pickled", "canned", "tinned", "dehydrated", "salted", "fermented"};

/// Words before "water" that leave it water.
constexpr std::string_view leaves_water[] = {
    "clean",    "pure",     "hot",           "boiling",  "lukewarm",    "cooled",
    "drinking", "still",    "more",          "extra",    "the",         "some",
    "well",     "soft",     "unchlorinated", "chlorine", "free",        "non",
    "good",     "tepid",    "plain",         "room",     "temperature", "chlorinated",
    "de",       "filtered", "boiled",        "warm",     "cold",        "cool",
    "fresh",    "spring",   "tap",           "bottled",  "distilled",   "dechlorinated"};

/// Salts that are something else besides: "smoked salt", "epsom salt".
constexpr std::string_view flavours_salt[] = {
    "seasoned",  "seasoning", "herb",   "herbed",     "smoked",   "smoke",    "truffle",
    "bath",      "epsom",     "road",   "dishwasher", "softener", "black",    "kala",
    "flavoured", "flavored",  "spiced", "popcorn",    "bamboo",   "vegetable"};

/// Where the thing itself ends and the remark begins: "salt for the brine".
constexpr std::string_view remark_begins[] = {"for",  "in",  "with", "from", "to",
                                              "plus", "per", "and",  "or"};

/// A known run of words within a name.
struct Run {
    std::size_t first = 0;
    std::size_t count = 0;
};

} // namespace

const Material* Larder::known(std::string_view folded) const {
    const std::string one = singular(folded);
    for (const std::string_view key : {folded, std::string_view(one)}) {
        if (const auto own = own_names_.find(key); own != own_names_.end()) return own->second;
        if (const auto index = jarful::larder::find(tables::material_names, key)) {
            return &tables::materials[*index];
        }
    }
    return nullptr;
}

const Material* Larder::named(std::string_view name) const {
    const std::string folded = fold(name);
    return folded.empty() ? nullptr : known(folded);
}

std::optional<Match> Larder::find(std::string_view name) const {
    const std::string folded = fold(name);
    if (folded.empty()) return std::nullopt;
    if (const Material* whole = known(folded)) return Match{whole, true};

    const std::string singular_name = singular(folded);
    const std::vector<std::string_view> all = words_of(singular_name);
    // Longer names than these are not names, and every run of words would be looked up.
    if (all.size() > 24) return std::nullopt;

    const auto fits = [&](const Material& material, Words words, Run run) {
        const Words before = words.first(run.first);
        const Words after = words.subspan(run.first + run.count);
        if (!after.empty() && among(after.front(), changes_what_is_before)) return false;
        switch (material.role) {
        case Role::vegetable:
            return before.empty() || !among(before.back(), changes_what_is_after);
        case Role::water:
            return after.empty() &&
                   std::all_of(before.begin(), before.end(),
                               [](std::string_view w) { return among(w, leaves_water); });
        case Role::salt:
            if (any_among(before, flavours_salt) || any_among(after, flavours_salt)) return false;
            // "lemon salt" holds less salt than it says.
            return std::all_of(before.begin(), before.end(), [&](std::string_view w) {
                const Material* other = known(w);
                return !other || other->role == Role::salt;
            });
        case Role::seasoning:
            // A reduced kind holds less salt than is written here, and how much less is not known.
            return salt_words::change_of(all, joined(words.subspan(run.first, run.count))) !=
                   SaltWarning::reduced_sodium;
        default:
            return true;
        }
    };

    // The longest run wins, the last of equals: a name ends with the thing itself.
    const auto longest = [&](Words words) -> const Material* {
        for (std::size_t count = words.size(); count > 0; --count) {
            for (std::size_t first = words.size() - count + 1; first-- > 0;) {
                const std::string part = joined(words.subspan(first, count));
                if (among(part, exact_only)) continue;
                const Material* material = known(part);
                if (!material || !fits(*material, words, {first, count})) continue;
                if (material->role != Role::salt) return material;
                switch (salt_words::change_of(all, part)) {
                case SaltWarning::reduced_sodium:
                    return known("reduced sodium salt");
                case SaltWarning::curing:
                    return known("curing salt");
                default:
                    return material;
                }
            }
        }
        return nullptr;
    };

    const std::string head_text = singular(fold(name.substr(0, name.find_first_of(",;("))));
    std::vector<std::string_view> head = words_of(head_text);
    const auto remark = std::find_if(head.begin(), head.end(),
                                     [](std::string_view w) { return among(w, remark_begins); });
    head.erase(remark, head.end());
    for (const Words words : {Words(head), Words(all)}) {
        if (const Material* material = longest(words)) return Match{material, false};
    }
    return std::nullopt;
}

std::vector<std::string_view> Larder::nearest(std::string_view misspelt, std::size_t limit) const {
    struct Near {
        int slips;
        std::string_view name;
        const Material* material;
    };
    std::vector<Near> found;
    const std::string wanted = fold(misspelt);
    if (wanted.empty()) return {};
    const int bound = units::forgiven_slips(wanted.size());
    const auto consider = [&](std::string_view key, const Material& material) {
        const int slips = units::edit_distance(wanted, key, bound);
        if (slips > bound ||
            static_cast<std::size_t>(slips) >= std::max(wanted.size(), key.size())) {
            return;
        }
        // Print the name as it is written; a key that is only an id is no name.
        std::string_view printed;
        if (fold(material.name) == key) printed = material.name;
        for (const std::string_view other : material.names) {
            if (printed.empty() && fold(other) == key) printed = other;
        }
        if (!printed.empty()) found.push_back({slips, printed, &material});
    };
    for (const auto& [key, material] : own_names_)
        consider(key, *material);
    const WordTable built_in(tables::material_names);
    for (const WordTable::Entry& entry : built_in.entries()) {
        if (own_names_.contains(entry.word)) continue;
        consider(entry.word, tables::materials[entry.number]);
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const Near& a, const Near& b) { return a.slips < b.slips; });
    std::vector<std::string_view> names;
    std::vector<const Material*> seen;
    for (const Near& near : found) {
        if (names.size() >= limit) break;
        if (std::find(seen.begin(), seen.end(), near.material) != seen.end()) continue;
        seen.push_back(near.material);
        names.push_back(near.name);
    }
    return names;
}

std::vector<std::string_view> Larder::offered(std::string_view unknown, std::size_t limit) const {
    std::vector<std::string_view> names;
    if (const auto part = find(unknown); part && limit > 0) names.push_back(part->material->name);
    for (const std::string_view name : nearest(unknown, limit)) {
        if (names.size() >= limit) break;
        if (names.empty() || named(name) != named(names.front())) names.push_back(name);
    }
    return names;
}

} // namespace jarful::larder
