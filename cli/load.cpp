#include "cli/load.hpp"

#include "cli/files.hpp"
#include "cli/terminal.hpp"
#include "engine/language/explain.hpp"
#include "engine/language/parse.hpp"

namespace jarful::cli {

namespace {

std::string name_of(const std::string& path) {
    return path == "-" ? "standard input" : path;
}

} // namespace

LoadedFile load(const std::string& path) {
    LoadedFile out;
    FileContent content = read_file(path);
    if (content.fault) {
        out.read = false;
        out.document.source = language::Source(name_of(path), "");
        out.findings.fault(content.fault->code, std::nullopt, content.fault->message,
                           content.fault->advice);
        return out;
    }
    // The copy is for showing the place where the text is not fit to be parsed.
    std::string raw = content.bytes;
    auto source = language::read_source(name_of(path), std::move(content.bytes), out.findings);
    if (!source) {
        out.document.source = language::Source(name_of(path), std::move(raw));
        return out;
    }
    out.document = language::parse(std::move(*source), out.findings);
    return out;
}

LoadedKitchen load_kitchen(const std::string& path) {
    LoadedKitchen out;
    out.path = path;
    out.file = load(path);
    if (!out.ok()) return out;
    if (out.file.document.kind != language::FileKind::kitchen) {
        out.file.findings.fault("not-a-kitchen", std::nullopt,
                                "This is a recipe, and a kitchen is wanted.",
                                "Name a file that begins with a `kitchen` line.");
        return out;
    }
    out.kitchen = kitchen::read_kitchen(out.file.document, out.file.findings);
    out.file.findings.sort();
    return out;
}

const LoadedKitchen& Kitchens::of(const std::string& recipe_path) {
    const std::optional<std::string> path = named_ ? named_ : kitchen_of(recipe_path);
    const std::string key = path.value_or("");
    if (const auto found = known_.find(key); found != known_.end()) return found->second;
    LoadedKitchen kitchen;
    if (path) {
        kitchen = load_kitchen(*path);
    } else {
        kitchen.kitchen = kitchen::default_kitchen();
    }
    return known_.emplace(key, std::move(kitchen)).first->second;
}

void explain_aside(const language::Source& source, const language::Findings& findings) {
    std::string out;
    for (const language::Diagnostic& found : findings.all()) {
        out += language::explain(source, found, {.colour = aside_in_colour()});
        out += '\n';
    }
    write_aside(out);
}

} // namespace jarful::cli
