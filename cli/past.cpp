#include "cli/past.hpp"

#include "cli/files.hpp"
#include "cli/options.hpp"
#include "cli/terminal.hpp"
#include "engine/units/nearest.hpp"

#include <algorithm>

namespace jarful::cli {

namespace {

constexpr std::string_view kitchen_file = "kitchen.jarful";
constexpr std::string_view house_file = "house.jarful";

std::string joined(const std::string& folder, std::string_view name) {
    return folder.empty() ? std::string(name) : folder + "/" + std::string(name);
}

/// How a file below a folder is written when the folder was written so.
std::string as_written(std::string folder, std::string_view below) {
    if (folder == ".") return std::string(below);
    while (folder.size() > 1 && folder.ends_with('/'))
        folder.pop_back();
    return folder == "/" ? "/" + std::string(below) : joined(folder, below);
}

/// The file's name without folder and ending.
std::string stem_of(std::string_view path) {
    path = path.substr(path.find_last_of('/') + 1);
    constexpr std::string_view ending = ".jarful";
    if (path.ends_with(ending)) path.remove_suffix(ending.size());
    return std::string(path);
}

} // namespace

void complain_of(const book::Trouble& trouble) {
    complain(trouble.message + (trouble.advice.empty() ? "" : " " + trouble.advice));
}

std::optional<book::Repository> open_book(const std::string& path) {
    auto opened = book::Repository::open(path);
    if (!opened) {
        complain_of(opened.trouble());
        return std::nullopt;
    }
    return std::move(*opened);
}

book::Answer<std::string> recipe_called(const std::string& name, const book::Repository& repository,
                                        const book::Revision& revision, const std::string& said) {
    const auto entries = repository.list(revision);
    if (!entries) return entries.trouble();
    std::vector<std::string> found;
    std::vector<std::string> stems;
    for (const book::Entry& entry : *entries) {
        stems.push_back(stem_of(entry.path));
        if (entry.path == name || entry.path == name + ".jarful") return entry.path;
        if (stems.back() == name) found.push_back(entry.path);
    }
    if (found.size() == 1) return found.front();
    book::Trouble trouble;
    if (found.size() > 1) {
        trouble.code = "several-files";
        trouble.message =
            "There are several recipes called " + in_quotes(name) + " at " + said + ".";
        trouble.advice = "Name one by its path: " + found[0] + " or " + found[1] + ".";
        return trouble;
    }
    const std::vector<std::string_view> known(stems.begin(), stems.end());
    const auto near = units::nearest(name, known);
    trouble.code = "missing-file";
    trouble.message =
        "There is no recipe called " + in_quotes(name) + ", neither here nor at " + said + ".";
    trouble.advice = near ? "Did you mean " + in_quotes(*near) + "?"
                          : "`jarful book` lists the recipes that there are.";
    return trouble;
}

namespace {

/// A recipe that is no longer here, by the name that it had.
std::optional<std::vector<BookFile>> files_called(const std::string& name,
                                                  const book::Repository& repository,
                                                  const book::Revision& revision) {
    const auto path = recipe_called(name, repository, revision, revision.short_id);
    if (!path) {
        complain_of(path.trouble());
        return std::nullopt;
    }
    const auto entries = repository.list(revision, folder_of(*path));
    if (!entries) {
        complain_of(entries.trouble());
        return std::nullopt;
    }
    std::vector<BookFile> out;
    for (const book::Entry& entry : *entries)
        if (entry.path == *path) out.push_back({entry.path, entry.path, entry.blob});
    return out;
}

} // namespace

std::optional<std::vector<BookFile>> files_at(const book::Repository& repository,
                                              const book::Revision& revision,
                                              const std::string& path) {
    const auto inner = repository.path_of(path);
    if (!inner) {
        complain_of(inner.trouble());
        return std::nullopt;
    }
    std::vector<BookFile> out;
    if (inner->ends_with(".jarful")) {
        const auto then = repository.path_at(revision, *inner);
        if (!then) {
            complain_of(then.trouble());
            return std::nullopt;
        }
        const auto entries = repository.list(revision, folder_of(*then));
        if (!entries) {
            complain_of(entries.trouble());
            return std::nullopt;
        }
        for (const book::Entry& entry : *entries) {
            if (entry.path != *then) continue;
            // Under another name it is shown by that, from the repository's root.
            out.push_back({*then == *inner ? path : entry.path, entry.path, entry.blob});
        }
        return out;
    }
    const auto entries = repository.list(revision, *inner);
    const bool a_name = path.find('/') == std::string::npos && !is_folder(path);
    if (a_name && (!entries || entries->empty())) return files_called(path, repository, revision);
    if (!entries) {
        complain_of(entries.trouble());
        return std::nullopt;
    }
    const std::size_t skip = inner->empty() ? 0 : inner->size() + 1;
    for (const book::Entry& entry : *entries)
        out.push_back({as_written(path, entry.path.substr(skip)), entry.path, entry.blob});
    return out;
}

PastBook::PastBook(book::Repository repository, const book::Revision& revision,
                   const KitchenWords& kitchen)
    : repository_(std::move(repository))
    , revision_(revision)
    , named_(kitchen)
    , words_(kitchen) {
}

FileContent PastBook::read(const BookFile& file) const {
    FileContent out;
    auto bytes = repository_.read(book::Entry{file.inner, file.blob});
    if (bytes) {
        out.bytes = *std::move(bytes);
    } else {
        out.fault =
            FileFault{bytes.trouble().code, bytes.trouble().message, bytes.trouble().advice};
    }
    return out;
}

const LoadedKitchen& PastBook::kitchen_of(const BookFile& file) {
    if (words_.named) return named_.of(file.path);
    const std::string start = folder_of(file.inner);
    if (const auto known = by_folder_.find(start); known != by_folder_.end()) return known->second;
    const auto nearest = [&](std::string_view name) -> std::optional<std::string> {
        for (std::string folder = start;; folder = folder_of(folder)) {
            const std::string path = joined(folder, name);
            if (repository_.read(revision_, path)) return path;
            if (folder.empty()) return std::nullopt;
        }
    };
    LoadedKitchen kitchen = load::kitchen_of_files(
        nearest(kitchen_file), nearest(house_file), [&](const std::string& path) {
            auto bytes = repository_.read(revision_, path);
            return understood(path, {bytes ? *std::move(bytes) : std::string(), {}});
        });
    set_units(kitchen.kitchen, words_);
    return by_folder_.emplace(start, std::move(kitchen)).first->second;
}

language::FindBase PastBook::bases() const {
    return past_bases(repository_, revision_);
}

language::FindBase past_bases(const book::Repository& repository, const book::Revision& revision) {
    return [&repository, revision](std::string_view name, const std::string& from) {
        const auto has = [&](const std::string& path) {
            return static_cast<bool>(repository.read(revision, path));
        };
        const std::string own = folder_of(from);
        std::string home = own; // the book's folder
        while (!home.empty() && !has(joined(home, kitchen_file)) && !has(joined(home, house_file)))
            home = folder_of(home);
        std::string file(name);
        if (!file.ends_with(".jarful")) file += ".jarful";
        language::FoundBase out;
        for (const std::string& folder : {own, home, joined(home, "recipes")}) {
            auto bytes = repository.read(revision, joined(folder, file));
            if (!bytes) continue;
            out.path = joined(folder, file);
            out.bytes = *std::move(bytes);
            return out;
        }
        out.message = "There is no recipe \"" + std::string(name) + "\" at that revision.";
        out.advice = "It may have had another name then.";
        return out;
    };
}

bool ChangedSince::recipes() const {
    return std::any_of(paths_.begin(), paths_.end(),
                       [](const std::string& path) { return path.ends_with(".jarful"); });
}

std::optional<ChangedSince> ChangedSince::find(const book::Repository& repository,
                                               const book::Revision& since,
                                               const std::optional<book::Revision>& at) {
    ChangedSince out;
    if (at) {
        const auto before = repository.list(since);
        const auto after = repository.list(*at);
        if (!before || !after) {
            complain_of(before ? after.trouble() : before.trouble());
            return std::nullopt;
        }
        std::map<std::string_view, std::string_view> old;
        for (const book::Entry& entry : *before)
            old.emplace(entry.path, entry.blob);
        for (const book::Entry& entry : *after) {
            const auto found = old.find(entry.path);
            if (found == old.end() || found->second != entry.blob) out.paths_.insert(entry.path);
            if (found != old.end()) old.erase(found);
        }
        for (const auto& [path, blob] : old)
            out.paths_.emplace(path);
    } else {
        const auto changed = repository.changed_since(since);
        if (!changed) {
            complain_of(changed.trouble());
            return std::nullopt;
        }
        out.paths_.insert(changed->begin(), changed->end());
    }
    for (const std::string& path : out.paths_) {
        const std::string name = path.substr(path.rfind('/') + 1);
        if (name == kitchen_file || name == house_file) out.shared_folders_.insert(folder_of(path));
    }
    return out;
}

bool ChangedSince::concerns(const std::string& inner) const {
    if (paths_.contains(inner)) return true;
    if (shared_folders_.empty()) return false;
    // A kitchen further down may be the recipe's own instead; looking once too often does no harm.
    for (std::string folder = folder_of(inner);; folder = folder_of(folder)) {
        if (shared_folders_.contains(folder)) return true;
        if (folder.empty()) return false;
    }
}

} // namespace jarful::cli
