#include "engine/load/load.hpp"

#include "engine/language/parse.hpp"

#include <iterator>

namespace jarful::load {

using language::FileKind;

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

void want_recipe(LoadedFile& file) {
    if (!file.ok() || file.document.kind == FileKind::recipe) return;
    file.findings.fault(
        "not-a-recipe", std::nullopt,
        file.document.kind == FileKind::house   ? "This is a house file, and a recipe is wanted."
        : file.document.kind == FileKind::batch ? "This is the record of a batch, and a recipe is "
                                                  "wanted."
                                                : "This is a kitchen, and a recipe is wanted.",
        "Name a file that begins with a `recipe` line; `jarful check` looks at kitchens too.");
}

LoadedHouse house_from(LoadedFile& file) {
    LoadedHouse out;
    if (file.ok() && file.document.kind != FileKind::house)
        file.findings.fault("not-a-house", std::nullopt, "This is not a house file.",
                            "Begin it with a line such as: house \"Quay Street\".");
    if (file.ok()) {
        out.house = larder::House::read(file.document, file.findings);
        out.materials = kitchen::house_materials(file.document, file.findings);
    }
    out.ok = file.ok();
    return out;
}

namespace {

/// A kitchen from a file that was parsed; one that is a recipe is a fault.
LoadedKitchen kitchen_from(std::string path, LoadedFile file) {
    LoadedKitchen out;
    out.path = std::move(path);
    out.file = std::move(file);
    if (!out.ok()) return out;
    if (out.file.document.kind != FileKind::kitchen) {
        out.file.findings.fault("not-a-kitchen", std::nullopt,
                                out.file.document.kind == FileKind::house
                                    ? "This is a house file, and a kitchen is wanted."
                                : out.file.document.kind == FileKind::batch
                                    ? "This is the record of a batch, and a kitchen is wanted."
                                    : "This is a recipe, and a kitchen is wanted.",
                                "Name a file that begins with a `kitchen` line.");
        return out;
    }
    out.kitchen = kitchen::read_kitchen(out.file.document, out.file.findings);
    out.file.findings.sort();
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

} // namespace

LoadedKitchen kitchen_of_files(const std::optional<std::string>& kitchen,
                               const std::optional<std::string>& house, const Load& load) {
    LoadedKitchen out;
    if (kitchen) {
        out = kitchen_from(*kitchen, load(*kitchen));
    } else {
        out.kitchen = kitchen::default_kitchen();
    }
    if (house) add_house(out, *house, load(*house));
    return out;
}

} // namespace jarful::load
