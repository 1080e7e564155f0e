#include "cli/revision.hpp"

#include "cli/files.hpp"
#include "cli/options.hpp"
#include "cli/past.hpp"
#include "cli/terminal.hpp"

namespace jarful::cli {

namespace {

std::string where_it_lies(const std::string& path) {
    const std::size_t slash = path.find_last_of('/');
    if (slash == std::string::npos) return ".";
    return slash == 0 ? "/" : path.substr(0, slash);
}

std::string at_words(const RevisionWords& words, const book::Revision& revision) {
    return words.name + " at " + *words.revision + " (" + revision.short_id + ", " +
           revision.date() + ")";
}

std::optional<Recipe> load_at(const RevisionWords& words) {
    const FoundRecipe here = find_recipe(words.name);
    const bool found = !here.path.empty() && is_file(here.path);
    const auto repository = open_book(found ? where_it_lies(here.path) : ".");
    if (!repository) return std::nullopt;
    const auto failed = [](const book::Trouble& trouble) -> std::optional<Recipe> {
        complain_of(trouble);
        return std::nullopt;
    };
    const auto revision = repository->resolve(*words.revision);
    if (!revision) return failed(revision.trouble());
    book::Answer<std::string> path = std::string();
    if (found) {
        path = repository->path_of(here.path);
        if (path) path = repository->path_at(*revision, *path);
    } else {
        path = recipe_called(words.name, *repository, *revision, *words.revision);
    }
    if (!path) return failed(path.trouble());
    auto bytes = repository->read(*revision, *path);
    if (!bytes) return failed(bytes.trouble());
    Recipe out;
    out.shown = at_words(words, *revision);
    out.path = found ? here.path : *path;
    out.file = with_bases(understood(*path + " at " + *words.revision, {std::move(*bytes), {}}),
                          *path, past_bases(*repository, *revision));
    return out;
}

std::optional<Recipe> load_here(const std::string& name) {
    const FoundRecipe found = find_recipe(name);
    if (found.fault) {
        complain(found.fault->message + " " + found.fault->advice);
        return std::nullopt;
    }
    Recipe out;
    out.path = found.path;
    out.shown = name == "-" ? "standard input" : found.path + " as it is here";
    out.file = load(found.path);
    return out;
}

} // namespace

RevisionWords revision_words(const std::string& text) {
    const std::size_t at = text.find('@', 1);
    if (at == std::string::npos || at + 1 == text.size() || is_file(text)) return {text, {}};
    return {text.substr(0, at), text.substr(at + 1)};
}

std::optional<Recipe> load_recipe(const RevisionWords& words) {
    auto out = words.revision ? load_at(words) : load_here(words.name);
    if (!out) return std::nullopt;
    language::Findings& findings = out->file.findings;
    if (out->file.ok() && out->file.document.kind != language::FileKind::recipe)
        findings.fault("not-a-recipe", std::nullopt, "This is no recipe, and a recipe is wanted.",
                       "Name a file that begins with a `recipe` line.");
    if (out->file.ok()) return out;
    findings.sort();
    explain_aside(out->file.document.source, findings);
    return std::nullopt;
}

} // namespace jarful::cli
