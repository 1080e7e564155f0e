#include "engine/larder/fold.hpp"
#include "engine/larder/larder.hpp"

namespace jarful::larder {

std::string_view describe(Status status) {
    switch (status) {
    case Status::published:
        return "published";
    case Status::common_practice:
        return "common practice, no published figure";
    case Status::from_memory:
        return "from memory";
    case Status::house:
        return "the house's own";
    }
    return "";
}

std::string_view describe(Role role) {
    switch (role) {
    case Role::vegetable:
        return "vegetable";
    case Role::salt:
        return "salt";
    case Role::water:
        return "water";
    case Role::aromatic:
        return "aromatic";
    case Role::seasoning:
        return "seasoning";
    case Role::acid:
        return "acid";
    case Role::other:
        return "other";
    }
    return "";
}

std::optional<Role> find_role(std::string_view word) {
    const std::string folded = fold(word);
    for (const Role role : {Role::vegetable, Role::salt, Role::water, Role::aromatic,
                            Role::seasoning, Role::acid, Role::other}) {
        if (folded == describe(role)) return role;
    }
    return std::nullopt;
}

std::string_view describe(Basis basis) {
    switch (basis) {
    case Basis::of_vegetables:
        return "of the vegetables";
    case Basis::of_vegetables_and_water:
        return "of vegetables and water";
    case Basis::of_brine:
        return "of the brine";
    case Basis::of_evened_brine:
        return "of the brine once it has evened out";
    case Basis::of_everything:
        return "of everything in the jar";
    case Basis::of_water:
        return "of the water";
    case Basis::of_drained_brine:
        return "g per 100 mL of drained brine";
    }
    return "";
}

std::string_view key(Basis basis) {
    switch (basis) {
    case Basis::of_vegetables:
        return "of_vegetables";
    case Basis::of_vegetables_and_water:
        return "of_vegetables_and_water";
    case Basis::of_brine:
        return "of_brine";
    case Basis::of_evened_brine:
        return "of_evened_brine";
    case Basis::of_everything:
        return "of_everything";
    case Basis::of_water:
        return "of_water";
    case Basis::of_drained_brine:
        return "of_drained_brine";
    }
    return "";
}

std::string_view describe(RowRole role) {
    switch (role) {
    case RowRole::limit:
        return "limit";
    case RowRole::recommendation:
        return "recommendation";
    case RowRole::studied:
        return "studied, not advised";
    case RowRole::composition:
        return "measured in the finished food";
    case RowRole::recipe_derived:
        return "worked out from a published recipe";
    case RowRole::practice:
        return "practice";
    case RowRole::judgement:
        return "our own reading";
    }
    return "";
}

std::string_view standing(const RangeRow& row) {
    if (row.status == Status::house) return describe(Status::house);
    if (row.role == RowRole::judgement) return describe(RowRole::judgement);
    if (row.role == RowRole::studied) return "tried in a study";
    return describe(row.status);
}

} // namespace jarful::larder
