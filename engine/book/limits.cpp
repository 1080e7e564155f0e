#include "engine/book/git.hpp"
#include "engine/language/parse.hpp"

#include <algorithm>

/// What a commit holds, looked at with care: a repository may come from anybody.
namespace jarful::book {

namespace {

using Extent = Repository::Inside::Extent;

/// The extent of a tree, each of its folders looked at once however often it occurs. Empty if
/// something cannot be read or goes beyond the limits.
std::optional<Extent> extent_of(const Repository::Inside& inside, git_tree* tree,
                                std::size_t level) {
    if (level > limits::tree_depth) return std::nullopt;
    const Git& git = inside.git;
    const std::size_t count = git.tree_entrycount(tree);
    Extent out{count, 1};
    for (std::size_t i = 0; i < count && out.entries <= limits::tree_entries; ++i) {
        const git_tree_entry* entry = git.tree_entry_byindex(tree, i);
        if (git.tree_entry_type(entry) != GIT_OBJECT_TREE) continue;
        const git_oid id = *git.tree_entry_id(entry);
        auto known = inside.extents.find(id);
        if (known == inside.extents.end()) {
            const auto next = inside.list_of(id);
            const auto below = next ? extent_of(inside, next->get(), level + 1) : std::nullopt;
            if (!below) return std::nullopt;
            known = inside.extents.emplace(id, *below).first;
        }
        out.entries += known->second.entries;
        out.depth = std::max(out.depth, known->second.depth + 1);
    }
    if (out.entries > limits::tree_entries || level + out.depth > limits::tree_depth)
        return std::nullopt;
    return out;
}

} // namespace

bool Repository::Inside::is_at_most(const git_oid& id, std::size_t bytes) const {
    std::size_t size = 0;
    git_object_t type = GIT_OBJECT_INVALID;
    return git.odb_read_header(&size, &type, objects.get(), &id) == 0 && size <= bytes;
}

std::optional<Held<git_tree>> Repository::Inside::list_of(const git_oid& id) const {
    Held<git_tree> out = tree_place();
    if (!is_at_most(id, limits::tree_bytes) ||
        git.tree_lookup(out.out(), repository.get(), &id) != 0)
        return std::nullopt;
    return out;
}

std::optional<Trouble> Repository::Inside::beyond_limits(git_tree* root) const {
    if (extent_of(*this, root, 0)) return std::nullopt;
    return Trouble{"commit-too-large",
                   "A commit's folders cannot be read, or hold more than is looked at: " +
                       std::to_string(limits::tree_entries) + " files and folders, " +
                       std::to_string(limits::tree_depth) + " folders in each other.",
                   "Look whether it is the right repository; `git fsck` says whether it is sound."};
}

std::optional<FoundEntry> Repository::Inside::entry_at(git_tree* root,
                                                       std::string_view path) const {
    Held<git_tree> held;
    git_tree* tree = root;
    for (std::size_t level = 0; level <= limits::tree_depth; ++level) {
        const std::size_t stroke = path.find('/');
        const std::string name(path.substr(0, stroke));
        const git_tree_entry* entry = git.tree_entry_byname(tree, name.c_str());
        if (entry == nullptr) return std::nullopt;
        const FoundEntry found{*git.tree_entry_id(entry), git.tree_entry_filemode(entry)};
        if (stroke == std::string_view::npos) return found;
        if (found.mode != GIT_FILEMODE_TREE) return std::nullopt;
        auto next = list_of(found.id);
        if (!next) return std::nullopt;
        held = std::move(*next);
        tree = held.get();
        path.remove_prefix(stroke + 1);
    }
    return std::nullopt;
}

std::optional<Held<git_tree>> Repository::Inside::folder(git_tree* root,
                                                         std::string_view path) const {
    const auto found = entry_at(root, path);
    if (!found || found->mode != GIT_FILEMODE_TREE) return std::nullopt;
    return list_of(found->id);
}

Answer<std::string> Repository::Inside::blob(const git_oid& id) const {
    std::size_t size = 0;
    git_object_t type = GIT_OBJECT_INVALID;
    if (git.odb_read_header(&size, &type, objects.get(), &id) != 0) return failed("A file");
    if (size > language::limits::file_bytes)
        return Trouble{"file-too-large",
                       "This file has " + std::to_string(size) + " bytes; a recipe has at most " +
                           std::to_string(language::limits::file_bytes) + " (1 MiB).",
                       "Look whether it is the right file."};
    Held<git_blob> found(git.blob_free);
    if (git.blob_lookup(found.out(), repository.get(), &id) != 0) return failed("A file");
    return std::string(static_cast<const char*>(git.blob_rawcontent(found.get())),
                       static_cast<std::size_t>(git.blob_rawsize(found.get())));
}

} // namespace jarful::book
