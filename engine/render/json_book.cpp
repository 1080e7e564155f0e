#include "engine/render/book_report.hpp"
#include "engine/render/json_parts.hpp"

#include <nlohmann/json.hpp>

namespace jarful::render {

using Json = nlohmann::ordered_json;

namespace {

const char* word(book::Standing standing) {
    switch (standing) {
    case book::Standing::same:
        return "same";
    case book::Standing::changed:
        return "changed";
    case book::Standing::not_committed:
        return "not committed";
    case book::Standing::gone:
        return "gone";
    case book::Standing::conflict:
        break;
    }
    return "conflict";
}

} // namespace

std::string book_json(const BookReport& report) {
    Json list = Json::array();
    for (const BookRecipe& recipe : report.recipes) {
        Json out{
            {"path", recipe.path},
            {"title", json_text(recipe.title)},
            {"version", recipe.version ? Json(*recipe.version) : Json(nullptr)},
            {"kind", json_text(recipe.kind)},
            {"method", json_text(recipe.method)},
            {"faults", recipe.faults},
            {"verdict", recipe.verdict ? Json(plan::describe(*recipe.verdict)) : Json(nullptr)},
            {"salt", recipe.salt ? json_salt(*recipe.salt) : Json(nullptr)}};
        if (recipe.changed) {
            out["changed"] = Json{{"commit", recipe.changed->id},
                                  {"date", recipe.changed->date()},
                                  {"summary", recipe.changed->summary}};
        } else {
            out["changed"] = nullptr;
        }
        out["standing"] = recipe.standing ? Json(word(*recipe.standing)) : Json(nullptr);
        list.push_back(std::move(out));
    }
    Json document;
    document["format"] = "jarful.book/1";
    document["history"] = report.history;
    document["recipes"] = std::move(list);
    document["of"] = report.of;
    return dumped(document);
}

} // namespace jarful::render
