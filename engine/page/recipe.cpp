#include "engine/page/recipe.hpp"

namespace jarful::page {

PageRecipe read_recipe(const load::Texts& texts) {
    load::Together all = load::put_together(texts);
    load::want_recipe(all.recipe);
    all.recipe.findings.sort();
    PageRecipe out;
    out.sound = all.recipe.ok() && all.kitchen.ok();
    for (load::LoadedFile* file : {&all.recipe, &all.kitchen.file})
        if (!file->findings.empty())
            out.found.push_back({file->document.source, std::move(file->findings)});
    out.document = std::move(all.recipe.document);
    out.kitchen = std::move(all.kitchen.kitchen);
    return out;
}

} // namespace jarful::page
