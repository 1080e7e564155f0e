#include "cli/load.hpp"

#include "cli/bases.hpp"
#include "cli/files.hpp"
#include "cli/terminal.hpp"
#include "engine/language/explain.hpp"

namespace jarful::cli {

namespace {

std::string name_of(const std::string& path) {
    return path == "-" ? "standard input" : path;
}

} // namespace

LoadedFile load(const std::string& path) {
    return with_bases(understood(name_of(path), read_file(path)), path, find_base);
}

void set_units(kitchen::Kitchen& kitchen, const KitchenWords& words) {
    kitchen.shown = words.json ? units::Shown::metric : kitchen::shown_units(kitchen, words.units);
}

LoadedHouse load_house(const std::string& beside) {
    const std::optional<std::string> path = house_of(beside);
    if (!path) return {};
    LoadedFile file = load(*path);
    LoadedHouse out = load::house_from(file);
    explain_aside(file.document.source, file.findings);
    return out;
}

const LoadedKitchen& Kitchens::of(const std::string& recipe_path) {
    const std::size_t stroke = recipe_path.rfind('/');
    const std::string folder =
        stroke == std::string::npos ? std::string() : recipe_path.substr(0, stroke + 1);
    const LoadedKitchen*& here = by_folder_[folder];
    if (here != nullptr) return *here;
    const std::optional<std::string> path = words_.named ? words_.named : kitchen_of(recipe_path);
    const std::optional<std::string> house = house_of(recipe_path);
    const std::string key = path.value_or("") + '\n' + house.value_or("");
    if (const auto found = known_.find(key); found != known_.end()) return *(here = &found->second);
    LoadedKitchen kitchen = load::kitchen_of_files(path, house, load);
    set_units(kitchen.kitchen, words_);
    return *(here = &known_.emplace(key, std::move(kitchen)).first->second);
}

void explain_aside(const language::Source& source, const language::Findings& findings) {
    write_aside(language::explain_all(source, findings.all(), {.colour = aside_in_colour()}));
}

} // namespace jarful::cli
