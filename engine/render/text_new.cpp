#include "engine/language/command_line.hpp"
#include "engine/render/new_report.hpp"
#include "engine/render/words.hpp"

namespace jarful::render {

std::string new_text(const NewRecipe& recipe, const TextStyle& style) {
    Page page(style);
    const book::WrittenRecipe& w = recipe.written;
    page.paragraph("Written: " + recipe.path, 0, 2, true);
    page.paragraph("A recipe for " + w.kind + (w.method.empty() ? "" : " " + w.method) +
                       " with salt at " + percent(w.salt_percent) + " % " +
                       std::string(larder::describe(w.basis)) + ".",
                   0, 0);
    page.paragraph(
        "Next: look into it, change what is yours, and then: " +
            language::command_line({"jarful", "weigh", language::path_word(recipe.path)}),
        0, 6, true);
    return page.text();
}

} // namespace jarful::render
