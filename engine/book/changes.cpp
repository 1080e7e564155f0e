#include "engine/book/git.hpp"
#include "engine/book/repository.hpp"

#include <algorithm>
#include <array>
#include <set>

/// Which files there are in a commit, in the index and in the work tree, and how they differ.
namespace jarful::book {

namespace {

constexpr std::string_view ending = ".jarful";

std::string below(std::string_view folder, std::string_view name) {
    return folder.empty() ? std::string(name) : std::string(folder) + "/" + std::string(name);
}

bool is_file(git_filemode_t mode) {
    return mode == GIT_FILEMODE_BLOB || mode == GIT_FILEMODE_BLOB_EXECUTABLE;
}

std::string hex(const Git& git, const git_oid& id) {
    char digits[GIT_OID_HEXSZ + 1];
    return git.oid_tostr(digits, sizeof digits, &id);
}

/// Every file of a tree that belongs to a book, folders inside folders; the tree keeps to the
/// limits.
bool collect(const Repository::Inside& inside, git_tree* tree, const std::string& folder,
             std::vector<Entry>& out) {
    const Git& git = inside.git;
    const std::size_t count = git.tree_entrycount(tree);
    for (std::size_t i = 0; i < count; ++i) {
        const git_tree_entry* entry = git.tree_entry_byindex(tree, i);
        const std::string_view name = git.tree_entry_name(entry);
        if (name.starts_with('.')) continue;
        if (git.tree_entry_type(entry) == GIT_OBJECT_TREE) {
            const auto next = inside.list_of(*git.tree_entry_id(entry));
            if (!next || !collect(inside, next->get(), below(folder, name), out)) return false;
        } else if (is_file(git.tree_entry_filemode(entry)) && name.ends_with(ending)) {
            out.push_back({below(folder, name), hex(git, *git.tree_entry_id(entry))});
        }
    }
    return true;
}

/// A list of one path for the library to keep to.
class Only {
  public:
    explicit Only(std::string_view folder)
        : folder_(folder) {}
    void limit(git_strarray& paths) {
        if (folder_.empty()) return;
        pointers_[0] = folder_.data();
        paths = {pointers_.data(), 1};
    }

  private:
    std::string folder_;
    std::array<char*, 1> pointers_{};
};

Standing standing_of(unsigned status) {
    if ((status & GIT_STATUS_CONFLICTED) != 0) return Standing::conflict;
    if ((status & GIT_STATUS_INDEX_NEW) != 0 && (status & GIT_STATUS_WT_DELETED) == 0) {
        return Standing::not_committed;
    }
    if ((status & GIT_STATUS_WT_NEW) != 0) {
        // Taken out of the index, but still here: committed, and about to be forgotten.
        return (status & GIT_STATUS_INDEX_DELETED) != 0 ? Standing::changed
                                                        : Standing::not_committed;
    }
    if ((status & (GIT_STATUS_WT_DELETED | GIT_STATUS_INDEX_DELETED)) != 0) return Standing::gone;
    return Standing::changed;
}

} // namespace

bool Repository::Inside::belongs(std::string_view path, std::string_view folder) {
    if (!path.ends_with(ending)) return false;
    if (!folder.empty()) {
        if (!path.starts_with(folder)) return false;
        path.remove_prefix(folder.size());
        if (!path.starts_with('/')) return false;
        path.remove_prefix(1);
    }
    return !path.starts_with('.') && path.find("/.") == std::string_view::npos;
}

Answer<std::vector<Entry>> Repository::list(const Revision& revision,
                                            std::string_view folder) const {
    auto root = inside_->tree(revision);
    if (!root) return root.trouble();
    if (auto trouble = inside_->beyond_limits(root->get())) return *trouble;
    std::vector<Entry> out;
    bool whole = true;
    if (folder.empty()) {
        whole = collect(*inside_, root->get(), "", out);
    } else if (const auto tree = inside_->folder(root->get(), folder)) {
        whole = collect(*inside_, tree->get(), std::string(folder), out);
    }
    if (!whole) return inside_->failed("A folder of the commit " + revision.short_id);
    std::sort(out.begin(), out.end(),
              [](const Entry& a, const Entry& b) { return a.path < b.path; });
    return out;
}

Answer<std::vector<Entry>> Repository::staged(std::string_view folder) const {
    const Git& git = inside_->git;
    Held<git_index> index(git.index_free);
    if (git.repository_index(index.out(), inside_->repository.get()) != 0) {
        return inside_->failed("What is staged");
    }
    std::vector<Entry> out;
    const std::size_t count = git.index_entrycount(index.get());
    for (std::size_t i = 0; i < count; ++i) {
        const git_index_entry* entry = git.index_get_byindex(index.get(), i);
        const bool settled = GIT_INDEX_ENTRY_STAGE(entry) == 0;
        if (settled && is_file(static_cast<git_filemode_t>(entry->mode)) &&
            Inside::belongs(entry->path, folder)) {
            out.push_back({entry->path, hex(git, entry->id)});
        }
    }
    return out;
}

Answer<std::vector<std::string>> Repository::changed_since(const Revision& revision,
                                                           std::string_view folder) const {
    const Git& git = inside_->git;
    auto old_tree = inside_->tree(revision);
    if (!old_tree) return old_tree.trouble();
    if (auto trouble = inside_->beyond_limits(old_tree->get())) return *trouble;
    Only only(folder);
    git_diff_options options{};
    git.diff_options_init(&options, GIT_DIFF_OPTIONS_VERSION);
    options.flags = GIT_DIFF_INCLUDE_UNTRACKED | GIT_DIFF_RECURSE_UNTRACKED_DIRS |
                    GIT_DIFF_DISABLE_PATHSPEC_MATCH;
    only.limit(options.pathspec);
    git_repository* repository = inside_->repository.get();
    Held<git_diff> diff(git.diff_free);
    int code = 0;
    if (git.repository_is_bare(repository) != 0) {
        const Answer<Revision> last = head();
        if (!last) return last.trouble();
        auto new_tree = inside_->tree(*last);
        if (!new_tree) return new_tree.trouble();
        if (auto trouble = inside_->beyond_limits(new_tree->get())) return *trouble;
        code = git.diff_tree_to_tree(diff.out(), repository, old_tree->get(), new_tree->get(),
                                     &options);
    } else {
        code =
            git.diff_tree_to_workdir_with_index(diff.out(), repository, old_tree->get(), &options);
    }
    if (code != 0) return inside_->failed("What changed since " + revision.short_id);
    std::set<std::string> out;
    for (std::size_t i = 0; i < git.diff_num_deltas(diff.get()); ++i) {
        const git_diff_delta* delta = git.diff_get_delta(diff.get(), i);
        for (const git_diff_file* file : {&delta->old_file, &delta->new_file}) {
            if (file->path != nullptr && Inside::belongs(file->path, folder)) {
                out.insert(file->path);
            }
        }
    }
    return std::vector<std::string>(out.begin(), out.end());
}

Answer<std::map<std::string, Standing>> Repository::standings(std::string_view folder) const {
    const Git& git = inside_->git;
    std::map<std::string, Standing> out;
    const Answer<Revision> last = head();
    if (!last && last.trouble().code != "no-commits") return last.trouble();
    if (last) {
        auto committed = list(*last, folder);
        if (!committed) return committed.trouble();
        for (Entry& entry : *committed)
            out.emplace_hint(out.end(), std::move(entry.path), Standing::same);
    }
    if (git.repository_is_bare(inside_->repository.get()) != 0) return out;
    Only only(folder);
    git_status_options options{};
    git.status_options_init(&options, GIT_STATUS_OPTIONS_VERSION);
    options.show = GIT_STATUS_SHOW_INDEX_AND_WORKDIR;
    options.flags = GIT_STATUS_OPT_INCLUDE_UNTRACKED | GIT_STATUS_OPT_RECURSE_UNTRACKED_DIRS |
                    GIT_STATUS_OPT_DISABLE_PATHSPEC_MATCH;
    only.limit(options.pathspec);
    Held<git_status_list> status(git.status_list_free);
    if (git.status_list_new(status.out(), inside_->repository.get(), &options) != 0) {
        return inside_->failed("What is not committed");
    }
    for (std::size_t i = 0; i < git.status_list_entrycount(status.get()); ++i) {
        const git_status_entry* entry = git.status_byindex(status.get(), i);
        const git_diff_delta* delta =
            entry->index_to_workdir != nullptr ? entry->index_to_workdir : entry->head_to_index;
        if (delta == nullptr || entry->status == GIT_STATUS_CURRENT) continue;
        const char* path =
            delta->new_file.path != nullptr ? delta->new_file.path : delta->old_file.path;
        if (Inside::belongs(path, folder)) out[path] = standing_of(entry->status);
    }
    return out;
}

Answer<std::string> Repository::setting(const std::string& name) const {
    const Git& git = inside_->git;
    Held<git_config> config(git.config_free);
    if (git.repository_config(config.out(), inside_->repository.get()) != 0) {
        return inside_->failed("The configuration");
    }
    git_buf value{};
    const int code = git.config_get_string_buf(&value, config.get(), name.c_str());
    std::string out = code == 0 ? value.ptr : "";
    git.buf_dispose(&value);
    if (code != 0 && code != GIT_ENOTFOUND) return inside_->failed("The setting " + name);
    return out;
}

std::optional<Trouble> Repository::set(const std::string& name, const std::string& value) const {
    const Git& git = inside_->git;
    Held<git_config> every(git.config_free);
    Held<git_config> own(git.config_free);
    if (git.repository_config(every.out(), inside_->repository.get()) != 0 ||
        git.config_open_level(own.out(), every.get(), GIT_CONFIG_LEVEL_LOCAL) != 0 ||
        git.config_set_string(own.get(), name.c_str(), value.c_str()) != 0) {
        const git_error* last = git.error_last();
        return Trouble{"git-failed",
                       "The setting " + name + " could not be written: " +
                           (last != nullptr && last->message != nullptr ? last->message : "") + ".",
                       "Set it with `git config`."};
    }
    return std::nullopt;
}

} // namespace jarful::book
