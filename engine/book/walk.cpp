#include "engine/book/walk.hpp"

namespace jarful::book {

bool Walk::push(const git_oid& id) {
    return seen_.contains(id) || push_again(id);
}

bool Walk::push_again(const git_oid& id) {
    Held<git_commit> commit = inside_.commit_place();
    if (!inside_.is_at_most(id, limits::commit_bytes) ||
        inside_.git.commit_lookup(commit.out(), inside_.repository.get(), &id) != 0)
        return false;
    seen_.insert(id);
    waiting_.push({inside_.git.commit_committer(commit.get())->when.time, pushed_++, id});
    return true;
}

Held<git_commit> Walk::next() {
    Held<git_commit> commit = inside_.commit_place();
    if (waiting_.empty()) return commit;
    const git_oid id = waiting_.top().id;
    waiting_.pop();
    static_cast<void>(inside_.git.commit_lookup(commit.out(), inside_.repository.get(), &id));
    return commit;
}

unsigned Walk::push_parents(git_commit* commit) {
    unsigned there = 0;
    const unsigned count = inside_.git.commit_parentcount(commit);
    for (unsigned i = 0; i < count; ++i)
        there += push(*inside_.git.commit_parent_id(commit, i)) ? 1u : 0u;
    return there;
}

} // namespace jarful::book
