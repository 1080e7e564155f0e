#include "cli/load.hpp"

#include "cli/bases.hpp"
#include "cli/files.hpp"
#include "cli/terminal.hpp"
#include "engine/language/explain.hpp"
#include "engine/language/parse.hpp"

#include <iterator>

namespace jarful::cli {

namespace {

std::string name_of(const std::string& path) {
    return path == "-" ? "standard input" : path;
}

/// What a house file says; what is wrong with it is put with its findings.
LoadedHouse house_from(LoadedFile& file) {
    LoadedHouse out;
    if (file.ok() && file.document.kind != language::FileKind::house)
        file.findings.fault("not-a-house", std::nullopt, "This is not a house file.",
                            "Begin it with a line such as: house \"Quay Street\".");
    if (file.ok()) {
        out.house = larder::House::read(file.document, file.findings);
        out.materials = kitchen::house_materials(file.document, file.findings);
    }
    out.ok = file.ok();
    return out;
}

} // namespace

LoadedFile load(const std::string& path) {
    return with_bases(understood(name_of(path), read_file(path)), path, find_base);
}

LoadedFile understood(std::string name, FileContent content) {
    LoadedFile out;
    if (content.fault) {
        out.read = false;
        out.document.source = language::Source(std::move(name), "");
        out.findings.fault(content.fault->code, std::nullopt, content.fault->message,
                           content.fault->advice);
        return out;
    }
    // Where the text is not fit to be parsed it is kept, for showing the place.
    std::string raw;
    if (content.bytes.size() > language::limits::file_bytes) raw = content.bytes;
    auto source = language::read_source(name, std::move(content.bytes), out.findings);
    if (!source) {
        out.document.source = language::Source(std::move(name), std::move(raw));
        return out;
    }
    out.document = language::parse(std::move(*source), out.findings);
    return out;
}

LoadedFile with_bases(LoadedFile file, const std::string& path, const language::FindBase& find) {
    if (file.ok())
        file.document = language::inherit(std::move(file.document), path, find, file.findings);
    return file;
}

void set_units(kitchen::Kitchen& kitchen, const KitchenWords& words) {
    kitchen.shown = words.json ? units::Shown::metric : kitchen::shown_units(kitchen, words.units);
}

LoadedKitchen load_kitchen(const std::string& path) {
    return kitchen_from(path, load(path));
}

LoadedKitchen kitchen_from(std::string path, LoadedFile file) {
    LoadedKitchen out;
    out.path = std::move(path);
    out.file = std::move(file);
    if (!out.ok()) return out;
    if (out.file.document.kind != language::FileKind::kitchen) {
        out.file.findings.fault("not-a-kitchen", std::nullopt,
                                out.file.document.kind == language::FileKind::house
                                    ? "This is a house file, and a kitchen is wanted."
                                : out.file.document.kind == language::FileKind::batch
                                    ? "This is the record of a batch, and a kitchen is wanted."
                                    : "This is a recipe, and a kitchen is wanted.",
                                "Name a file that begins with a `kitchen` line.");
        return out;
    }
    out.kitchen = kitchen::read_kitchen(out.file.document, out.file.findings);
    out.file.findings.sort();
    return out;
}

LoadedHouse load_house(const std::string& beside) {
    const std::optional<std::string> path = house_of(beside);
    if (!path) return {};
    LoadedFile file = load(*path);
    LoadedHouse out = house_from(file);
    explain_aside(file.document.source, file.findings);
    return out;
}

void add_house(LoadedKitchen& kitchen, const std::string& path, LoadedFile file) {
    const bool sound = kitchen.ok();
    LoadedHouse house = house_from(file);
    kitchen.kitchen.house = std::move(house.house);
    auto& all = kitchen.kitchen.materials;
    all.insert(all.begin(), std::make_move_iterator(house.materials.begin()),
               std::make_move_iterator(house.materials.end()));
    if (sound && !house.ok) kitchen.path = path;
    if (!file.findings.empty())
        language::take_along(kitchen.file.document, kitchen.file.findings, file.document.source,
                             file.findings.all());
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
    LoadedKitchen kitchen;
    if (path) {
        kitchen = load_kitchen(*path);
    } else {
        kitchen.kitchen = kitchen::default_kitchen();
    }
    if (house) add_house(kitchen, *house, load(*house));
    set_units(kitchen.kitchen, words_);
    return *(here = &known_.emplace(key, std::move(kitchen)).first->second);
}

void explain_aside(const language::Source& source, const language::Findings& findings) {
    write_aside(language::explain_all(source, findings.all(), {.colour = aside_in_colour()}));
}

} // namespace jarful::cli
