#include "engine/render/json_parts.hpp"
#include "engine/render/new_report.hpp"

#include <nlohmann/json.hpp>

namespace jarful::render {

using Json = nlohmann::ordered_json;

std::string new_json(const NewRecipe& recipe) {
    const book::WrittenRecipe& w = recipe.written;
    Json document;
    document["format"] = "jarful.new/1";
    document["path"] = recipe.path;
    document["title"] = recipe.title;
    document["kind"] = w.kind;
    document["method"] = json_text(w.method);
    document["salt"] = Json{{"percent", json_number(w.salt_percent)},
                            {"basis", std::string(larder::key(w.basis))}};
    document["text"] = w.text;
    return dumped(document);
}

} // namespace jarful::render
