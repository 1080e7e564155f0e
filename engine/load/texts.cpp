#include "engine/load/texts.hpp"

#include <algorithm>

namespace jarful::load {

namespace {

/// A base by the name that a `based on` line calls it.
language::FindBase among(const std::vector<NamedText>& bases) {
    return [&bases](std::string_view name, const std::string&) {
        constexpr std::string_view ending = ".jarful";
        const std::string_view plain =
            name.ends_with(ending) ? name.substr(0, name.size() - ending.size()) : name;
        language::FoundBase out;
        const auto found = std::find_if(bases.begin(), bases.end(), [&](const NamedText& base) {
            return base.name == name || base.name == plain;
        });
        if (found != bases.end()) {
            out.path = found->name;
            out.bytes = found->text;
        } else {
            out.message = "The recipe \"" + std::string(name) + "\" was not given with this one.";
            out.advice = "Give its text among the bases; a page has to be made anew.";
        }
        return out;
    };
}

std::optional<std::string> name_if(bool given, const char* name) {
    return given ? std::optional<std::string>(name) : std::nullopt;
}

} // namespace

LoadedKitchen kitchen_of(const Texts& texts) {
    constexpr const char* kitchen = "kitchen.jarful";
    constexpr const char* house = "house.jarful";
    return kitchen_of_files(
        name_if(texts.kitchen.has_value(), kitchen), name_if(texts.house.has_value(), house),
        [&](const std::string& name) {
            return understood(name, {name == house ? *texts.house : *texts.kitchen, {}});
        });
}

Together put_together(const Texts& texts) {
    return {with_bases(understood(texts.name, {texts.recipe, {}}), texts.name, among(texts.bases)),
            kitchen_of(texts)};
}

} // namespace jarful::load
