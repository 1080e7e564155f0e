#include "engine/render/book_report.hpp"
#include "engine/render/csv.hpp"
#include "engine/units/amount.hpp"

namespace jarful::render {

std::string book_csv(const BookReport& report) {
    std::string out;
    csv_line(out, {"path", "title", "version", "kind", "method", "verdict", "salt_percent",
                   "salt_of", "faults", "changed", "commit", "standing"});
    for (const BookRecipe& recipe : report.recipes) {
        const auto& salt = recipe.salt;
        csv_line(out,
                 {recipe.path, recipe.title, recipe.version ? std::to_string(*recipe.version) : "",
                  recipe.kind, recipe.method,
                  recipe.verdict ? std::string(plan::describe(*recipe.verdict)) : "",
                  salt ? units::print_number(salt->figure.percent, 9) : "",
                  salt ? std::string(larder::describe(salt->figure.basis)) : "",
                  std::to_string(recipe.faults), recipe.changed ? recipe.changed->date() : "",
                  recipe.changed ? recipe.changed->id : "",
                  recipe.standing ? std::string(describe(*recipe.standing)) : ""});
    }
    return out;
}

} // namespace jarful::render
