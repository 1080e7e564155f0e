#include "engine/book/git.hpp"
#include "engine/book/repository.hpp"
#include "engine/book/walk.hpp"

#include <algorithm>
#include <unordered_map>

/// What became of files over the commits.
namespace jarful::book {

namespace {

/// Files looked for, by the path that they have in some commit. Two files of today may have been
/// one once.
using Wanted = std::unordered_map<std::string, std::vector<std::size_t>>;

Held<git_diff> difference(const Repository::Inside& inside, git_commit* parent,
                          git_commit* commit) {
    const Git& git = inside.git;
    Held<git_tree> before = inside.tree_place();
    Held<git_tree> after = inside.tree_place();
    Held<git_diff> diff(git.diff_free);
    if (git.commit_tree(before.out(), parent) != 0 || git.commit_tree(after.out(), commit) != 0 ||
        inside.beyond_limits(before.get()) || inside.beyond_limits(after.get())) {
        return diff;
    }
    git_diff_options options{};
    git.diff_options_init(&options, GIT_DIFF_OPTIONS_VERSION);
    static_cast<void>(git.diff_tree_to_tree(diff.out(), inside.repository.get(), before.get(),
                                            after.get(), &options));
    return diff;
}

/// One walk over a history, which hands every file back from commit to commit until it comes to the
/// one that changed it.
class LastChanges {
  public:
    LastChanges(const Repository::Inside& inside, std::vector<Entry> files)
        : inside_(inside)
        , files_(std::move(files))
        , walk_(inside) {}

    std::map<std::string, Revision> run(const git_oid& start) {
        Wanted& wanted = waiting_[start];
        for (std::size_t i = 0; i < files_.size(); ++i)
            wanted[files_[i].path].push_back(i);
        walk_.push(start);
        while (!waiting_.empty()) {
            const Held<git_commit> commit = walk_.next();
            if (commit.get() == nullptr) break;
            const auto found = waiting_.find(*inside_.git.commit_id(commit.get()));
            if (found == waiting_.end()) continue;
            Wanted here = std::move(found->second);
            waiting_.erase(found);
            look_at(commit.get(), std::move(here));
        }
        return std::move(out_);
    }

  private:
    struct Side {
        Held<git_commit> commit;
        Held<git_diff> diff;
    };

    /// The parents that are there, each with what it differs in.
    std::vector<Side> sides_of(git_commit* commit) const {
        const Git& git = inside_.git;
        std::vector<Side> out;
        for (unsigned i = 0; i < git.commit_parentcount(commit); ++i) {
            Held<git_commit> parent = inside_.commit_place();
            if (git.commit_lookup(parent.out(), inside_.repository.get(),
                                  git.commit_parent_id(commit, i)) != 0) {
                continue; // a shallow history ends here
            }
            Held<git_diff> diff = difference(inside_, parent.get(), commit);
            if (diff.get() != nullptr) out.push_back({std::move(parent), std::move(diff)});
        }
        return out;
    }

    void look_at(git_commit* commit, Wanted here) {
        const std::vector<Side> sides = sides_of(commit);
        for (const Side& side : sides) {
            if (!here.empty()) hand_on_same(side, here);
        }
        for (const Side& side : sides) {
            if (!here.empty()) hand_on_moved(side, here);
        }
        if (here.empty()) return;
        const Revision revision = inside_.describe(commit);
        for (const auto& [path, files] : here) {
            for (const std::size_t file : files)
                out_.emplace(files_[file].path, revision);
        }
    }

    /// What is waiting for a commit. Where clocks were wrong, one may be waited for once more when
    /// its turn has been.
    Wanted& waiting_for(const Side& side) {
        const git_oid id = *inside_.git.commit_id(side.commit.get());
        const auto [place, fresh] = waiting_.try_emplace(id);
        if (fresh) walk_.push_again(id);
        return place->second;
    }

    void give(const Side& side, std::string path, const std::vector<std::size_t>& files) {
        std::vector<std::size_t>& there = waiting_for(side)[std::move(path)];
        there.insert(there.end(), files.begin(), files.end());
    }

    /// What a parent has just so goes to it; the rest stays.
    void hand_on_same(const Side& side, Wanted& here) {
        const Git& git = inside_.git;
        Wanted rest;
        for (std::size_t i = 0; i < git.diff_num_deltas(side.diff.get()); ++i) {
            const git_diff_delta* delta = git.diff_get_delta(side.diff.get(), i);
            if (auto node = here.extract(delta->new_file.path)) rest.insert(std::move(node));
        }
        if (!here.empty()) {
            Wanted& there = waiting_for(side);
            if (there.empty()) {
                there = std::move(here);
            } else {
                for (const auto& [path, files] : here)
                    give(side, path, files);
            }
        }
        here = std::move(rest);
    }

    /// What a parent has byte for byte under a name that is gone was only moved.
    void hand_on_moved(const Side& side, Wanted& here) {
        const Git& git = inside_.git;
        std::unordered_map<git_oid, std::string, OidHash, OidSame> gone;
        const std::size_t count = git.diff_num_deltas(side.diff.get());
        for (std::size_t i = 0; i < count; ++i) {
            const git_diff_delta* delta = git.diff_get_delta(side.diff.get(), i);
            if (delta->status == GIT_DELTA_DELETED) {
                gone.emplace(delta->old_file.id, delta->old_file.path);
            }
        }
        if (gone.empty()) return;
        for (std::size_t i = 0; i < count; ++i) {
            const git_diff_delta* delta = git.diff_get_delta(side.diff.get(), i);
            if (delta->status != GIT_DELTA_ADDED) continue;
            const auto from = gone.find(delta->new_file.id);
            if (from == gone.end()) continue;
            if (auto node = here.extract(delta->new_file.path)) {
                give(side, from->second, node.mapped());
            }
        }
    }

    const Repository::Inside& inside_;
    std::vector<Entry> files_;
    Walk walk_;
    std::unordered_map<git_oid, Wanted, OidHash, OidSame> waiting_;
    std::map<std::string, Revision> out_;
};

/// Whether a commit has a file of that path.
bool has(const Repository::Inside& inside, git_commit* commit, const std::string& path) {
    const auto tree = inside.list_of(*inside.git.commit_tree_id(commit));
    return tree && inside.entry_at(tree->get(), path);
}

/// The name that a file had before a commit gave it its present one; empty if it was new.
std::string renamed_from(const Repository::Inside& inside, git_commit* parent, git_commit* commit,
                         const std::string& path) {
    const Git& git = inside.git;
    const Held<git_diff> diff = difference(inside, parent, commit);
    if (diff.get() == nullptr) return {};
    git_diff_find_options options{};
    git.diff_find_options_init(&options, GIT_DIFF_FIND_OPTIONS_VERSION);
    options.flags = GIT_DIFF_FIND_RENAMES;
    if (git.diff_find_similar(diff.get(), &options) != 0) return {};
    for (std::size_t i = 0; i < git.diff_num_deltas(diff.get()); ++i) {
        const git_diff_delta* delta = git.diff_get_delta(diff.get(), i);
        if (delta->status == GIT_DELTA_RENAMED && path == delta->new_file.path) {
            return delta->old_file.path;
        }
    }
    return {};
}

/// If a commit gave a file its name: the name from before, or none if it was new then.
std::optional<std::string> before_commit(const Repository::Inside& inside, git_commit* commit,
                                         const std::string& path) {
    const Git& git = inside.git;
    if (!has(inside, commit, path)) return std::nullopt;
    std::vector<Held<git_commit>> parents;
    for (unsigned i = 0; i < git.commit_parentcount(commit); ++i) {
        Held<git_commit> parent = inside.commit_place();
        if (git.commit_lookup(parent.out(), inside.repository.get(),
                              git.commit_parent_id(commit, i)) != 0) {
            continue;
        }
        if (has(inside, parent.get(), path)) return std::nullopt;
        parents.push_back(std::move(parent));
    }
    for (const Held<git_commit>& parent : parents) {
        std::string from = renamed_from(inside, parent.get(), commit, path);
        if (!from.empty()) return from;
    }
    return std::string();
}

} // namespace

Answer<std::map<std::string, Revision>> Repository::last_changes(const Revision& revision,
                                                                 std::string_view folder) const {
    auto files = list(revision, folder);
    if (!files) return files.trouble();
    auto start = inside_->commit(revision);
    if (!start) return start.trouble();
    return LastChanges(*inside_, std::move(*files)).run(*inside_->git.commit_id(start->get()));
}

Answer<std::string> Repository::path_at(const Revision& revision, std::string_view path) const {
    const Git& git = inside_->git;
    std::string name(path);
    auto goal = inside_->commit(revision);
    if (!goal) return goal.trouble();
    if (has(*inside_, goal->get(), name)) return name;
    const Answer<Revision> last = head();
    if (!last) return last.trouble();
    auto start = inside_->commit(*last);
    if (!start) return start.trouble();
    Walk walk(*inside_);
    walk.push(*git.commit_id(start->get()));
    while (true) {
        const Held<git_commit> commit = walk.next();
        if (commit.get() == nullptr ||
            OidSame()(*git.commit_id(commit.get()), *git.commit_id(goal->get()))) {
            break;
        }
        if (const auto from = before_commit(*inside_, commit.get(), name)) {
            if (from->empty()) break;
            name = *from;
            if (has(*inside_, goal->get(), name)) return name;
        }
        walk.push_parents(commit.get());
    }
    return Trouble{"not-in-revision",
                   "\"" + std::string(path) + "\" is not in the commit " + revision.short_id +
                       " of " + revision.date() + ", under this name or an earlier one.",
                   "It may have come later; `git log --follow` shows since when it is there."};
}

} // namespace jarful::book
