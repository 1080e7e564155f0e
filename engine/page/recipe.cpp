#include "engine/page/recipe.hpp"

#include "engine/language/inherit.hpp"
#include "engine/language/parse.hpp"

#include <algorithm>
#include <iterator>

namespace jarful::page {

namespace {

using language::FileKind;
using language::Findings;

struct Parsed {
    language::Document document;
    Findings findings;
};

Parsed parsed(const std::string& name, const std::string& text) {
    Parsed out;
    auto source = language::read_source(name, text, out.findings);
    out.document =
        source ? language::parse(std::move(*source), out.findings) : language::Document{};
    if (!source) out.document.source = language::Source(name, "");
    return out;
}

void wanted(Parsed& file, FileKind kind, const char* code, const char* message) {
    if (!file.findings.has_faults() && file.document.kind != kind)
        file.findings.fault(code, std::nullopt, message, "");
}

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
            out.message = "The page does not carry the recipe \"" + std::string(name) + "\".";
            out.advice = "Make the page anew.";
        }
        return out;
    };
}

kitchen::Kitchen kitchen_of(const LoadRequest& request, PageRecipe& out) {
    kitchen::Kitchen kitchen = kitchen::default_kitchen();
    const auto keep = [&out](Parsed& file) {
        file.findings.sort();
        out.sound = out.sound && !file.findings.has_faults();
        if (!file.findings.empty())
            out.found.push_back({std::move(file.document.source), std::move(file.findings)});
    };
    if (request.kitchen) {
        Parsed file = parsed("kitchen.jarful", *request.kitchen);
        wanted(file, FileKind::kitchen, "not-a-kitchen", "This is no kitchen.");
        if (!file.findings.has_faults())
            kitchen = kitchen::read_kitchen(file.document, file.findings);
        keep(file);
    }
    if (request.house) {
        Parsed file = parsed("house.jarful", *request.house);
        wanted(file, FileKind::house, "not-a-house", "This is not a house file.");
        if (!file.findings.has_faults()) {
            kitchen.house = larder::House::read(file.document, file.findings);
            auto own = kitchen::house_materials(file.document, file.findings);
            kitchen.materials.insert(kitchen.materials.begin(),
                                     std::make_move_iterator(own.begin()),
                                     std::make_move_iterator(own.end()));
        }
        keep(file);
    }
    return kitchen;
}

} // namespace

PageRecipe read_recipe(const LoadRequest& request) {
    PageRecipe out;
    out.sound = true;
    Parsed recipe = parsed("the recipe", request.recipe);
    if (!recipe.findings.has_faults())
        recipe.document = language::inherit(std::move(recipe.document), "the recipe",
                                            among(request.bases), recipe.findings);
    wanted(recipe, FileKind::recipe, "not-a-recipe", "This is no recipe.");
    recipe.findings.sort();
    out.sound = !recipe.findings.has_faults();
    if (!recipe.findings.empty())
        out.found.push_back({recipe.document.source, std::move(recipe.findings)});
    out.document = std::move(recipe.document);
    out.kitchen = kitchen_of(request, out);
    return out;
}

} // namespace jarful::page
