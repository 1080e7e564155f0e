#pragma once

#include "engine/book/git.hpp"

#include <queue>
#include <unordered_set>

/// Commits from the newest to the oldest. For this room's .cpp files only.
namespace jarful::book {

/// A walk from a commit back through all of its parents: the newest of those waiting comes next, as
/// in `git log`. The library's own walk stops with an error where a shallow history ends; this one
/// takes the commit there for the first of all.
class Walk {
  public:
    explicit Walk(const Repository::Inside& inside)
        : inside_(inside) {}

    /// Lines a commit up, once; false if it is not in the repository.
    bool push(const git_oid& id);
    /// Lines it up whether it has been or not.
    bool push_again(const git_oid& id);
    /// The next one; nothing at the end. Its parents are not lined up by themselves.
    [[nodiscard]] Held<git_commit> next();
    /// Lines up those of a commit's parents that there are; how many there are.
    unsigned push_parents(git_commit* commit);

  private:
    struct Waiting {
        std::int64_t time;
        std::uint64_t order; ///< of those of one second, who came first goes first
        git_oid id;
        friend bool operator<(const Waiting& a, const Waiting& b) {
            return a.time != b.time ? a.time < b.time : a.order > b.order;
        }
    };
    const Repository::Inside& inside_;
    std::priority_queue<Waiting> waiting_;
    std::unordered_set<git_oid, OidHash, OidSame> seen_;
    std::uint64_t pushed_ = 0;
};

} // namespace jarful::book
