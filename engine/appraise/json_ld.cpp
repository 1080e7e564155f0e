#include "engine/appraise/page.hpp"
#include "engine/appraise/text.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>

/// The one file of this room that knows the JSON library. The vocabulary is schema.org/Recipe.
namespace jarful::appraise {

namespace {

using nlohmann::json;

constexpr int deepest = 60;

/// Depth of brackets, so that a hostile nesting is refused before it is parsed.
bool too_deep(const std::string& text) {
    int depth = 0;
    bool in_string = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (in_string) {
            if (c == '\\')
                ++i;
            else if (c == '"')
                in_string = false;
            continue;
        }
        if (c == '"')
            in_string = true;
        else if (c == '{' || c == '[') {
            if (++depth > 200) return true;
        } else if (c == '}' || c == ']')
            --depth;
    }
    return false;
}

/// The usual mistakes mended: comments and CDATA around it, raw line breaks and tabs in strings,
/// commas before a closing bracket, a stop at the end.
std::string mended(const std::string& text) {
    std::string out;
    out.reserve(text.size());
    bool in_string = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (in_string) {
            if (c == '\\' && i + 1 < text.size()) {
                const char next = text[i + 1];
                if (std::string_view("\"\\/bfnrtu").find(next) == std::string_view::npos) {
                    out += "\\\\";
                    continue;
                }
                out += c;
                out += next;
                ++i;
                continue;
            }
            if (c == '"') in_string = false;
            if (static_cast<unsigned char>(c) < 0x20) {
                out += c == '\n' ? "\\n" : " ";
                continue;
            }
            out += c;
            continue;
        }
        if (c == '"') in_string = true;
        if (c == ',') {
            const std::size_t next = text.find_first_not_of(" \t\r\n,", i + 1);
            if (next != std::string::npos && (text[next] == '}' || text[next] == ']')) continue;
        }
        out += c;
    }
    return out;
}

json parse(std::string text) {
    const std::size_t begin = text.find_first_of("{[");
    const std::size_t end = text.find_last_of("}]");
    if (begin == std::string::npos || end == std::string::npos || end < begin)
        return json(json::value_t::discarded);
    text = text.substr(begin, end - begin + 1);
    if (too_deep(text)) return json(json::value_t::discarded);
    json value = json::parse(text, nullptr, false, true);
    if (value.is_discarded()) value = json::parse(mended(text), nullptr, false, true);
    return value;
}

bool is_recipe(const json& node) {
    const auto named = [](const json& type) {
        if (!type.is_string()) return false;
        const std::string word = lower(type.get<std::string>());
        return word == "recipe" || word.ends_with("/recipe") || word.ends_with(":recipe");
    };
    for (const char* key : {"@type", "type"}) {
        const auto type = node.find(key);
        if (type == node.end()) continue;
        if (named(*type)) return true;
        if (type->is_array() && std::any_of(type->begin(), type->end(), named)) return true;
    }
    return false;
}

/// Every string in a value, in order: of strings, lists, HowToStep, HowToSection, ItemList.
void strings(const json& value, std::vector<std::string>& out, int depth = 0) {
    if (depth > deepest || out.size() > 2000) return;
    if (value.is_string()) {
        std::string text = plain_text(value.get<std::string>());
        for (const std::string_view line : lines_of(text)) {
            if (!trimmed(line).empty()) out.emplace_back(trimmed(line));
        }
    } else if (value.is_array()) {
        for (const json& one : value)
            strings(one, out, depth + 1);
    } else if (value.is_object()) {
        const auto list = value.find("itemListElement");
        if (const auto name = value.find("name"); list != value.end() && name != value.end())
            strings(*name, out, depth + 1);
        bool any = false;
        for (const char* key : {"text", "itemListElement", "item", "description"}) {
            const auto found = value.find(key);
            if (found == value.end()) continue;
            strings(*found, out, depth + 1);
            any = true;
            break;
        }
        if (!any) {
            if (const auto name = value.find("name"); name != value.end())
                strings(*name, out, depth + 1);
        }
    }
}

std::string first_string(const json& node, const char* key) {
    const auto value = node.find(key);
    if (value == node.end()) return {};
    std::vector<std::string> all;
    strings(*value, all);
    return all.empty() ? std::string() : all.front();
}

void read_recipe(const json& node, std::vector<Found>& out, std::vector<std::string>& remarks) {
    Found found;
    found.name = first_string(node, "name");
    if (found.name.empty()) found.name = first_string(node, "headline");
    std::vector<std::string> ingredients;
    for (const char* key : {"recipeIngredient", "ingredients", "recipeIngredients"}) {
        if (const auto value = node.find(key); value != node.end() && ingredients.empty())
            strings(*value, ingredients);
    }
    if (ingredients.empty()) {
        remarks.push_back("The page's recipe data" +
                          (found.name.empty() ? "" : " for \"" + found.name + "\"") +
                          " lists no ingredients.");
        return;
    }
    std::vector<std::string> method;
    if (const auto value = node.find("recipeInstructions"); value != node.end())
        strings(*value, method);
    const std::string yield = first_string(node, "recipeYield");
    if (!found.name.empty()) found.text += "# " + found.name + "\n\n";
    found.text += "Ingredients:\n";
    for (const std::string& line : ingredients)
        found.text += line + "\n";
    if (!yield.empty()) found.text += "\nYield: " + yield + "\n";
    if (!method.empty()) found.text += "\nMethod:\n";
    for (const std::string& line : method)
        found.text += line + "\n";
    out.push_back(std::move(found));
}

void search(const json& value, std::vector<Found>& out, std::vector<std::string>& remarks,
            int depth = 0) {
    if (depth > deepest || out.size() >= 50) return;
    if (value.is_array()) {
        for (const json& one : value)
            search(one, out, remarks, depth + 1);
        return;
    }
    if (!value.is_object()) return;
    if (is_recipe(value)) {
        read_recipe(value, out, remarks);
        return;
    }
    for (const auto& [key, inner] : value.items()) {
        if (inner.is_structured()) search(inner, out, remarks, depth + 1);
    }
}

} // namespace

std::vector<Found> recipes_in(const std::string& text, std::vector<std::string>& remarks) {
    std::vector<Found> out;
    const json value = parse(text);
    if (value.is_discarded()) {
        if (lower(text).find("recipe") != std::string::npos)
            remarks.emplace_back("Recipe data in the page is broken and could not be used.");
        return out;
    }
    search(value, out, remarks);
    return out;
}

} // namespace jarful::appraise
