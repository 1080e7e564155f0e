#pragma once

#include "engine/book/repository.hpp"

#include <cstring>
#include <git2.h>
#include <git2/odb.h>
#include <memory>
#include <unordered_map>

/// The room's door to libgit2: its functions, looked up when they are needed. For this room's .cpp
/// files only.
namespace jarful::book {

/// Every function that this room calls. Linked in plainly, the library would cost each start of the
/// program a millisecond, with or without a book.
#define JARFUL_GIT_FUNCTIONS(USE)                                                                  \
    USE(blob_free)                                                                                 \
    USE(blob_lookup)                                                                               \
    USE(blob_rawcontent)                                                                           \
    USE(blob_rawsize)                                                                              \
    USE(buf_dispose)                                                                               \
    USE(commit_committer)                                                                          \
    USE(commit_free)                                                                               \
    USE(commit_id)                                                                                 \
    USE(commit_lookup)                                                                             \
    USE(commit_parent_id)                                                                          \
    USE(commit_parentcount)                                                                        \
    USE(commit_summary)                                                                            \
    USE(commit_tree)                                                                               \
    USE(commit_tree_id)                                                                            \
    USE(config_free)                                                                               \
    USE(config_get_string_buf)                                                                     \
    USE(config_open_level)                                                                         \
    USE(config_set_string)                                                                         \
    USE(diff_find_similar)                                                                         \
    USE(diff_find_options_init)                                                                    \
    USE(diff_free)                                                                                 \
    USE(diff_get_delta)                                                                            \
    USE(diff_num_deltas)                                                                           \
    USE(diff_options_init)                                                                         \
    USE(diff_tree_to_tree)                                                                         \
    USE(diff_tree_to_workdir_with_index)                                                           \
    USE(error_last)                                                                                \
    USE(index_entrycount)                                                                          \
    USE(index_free)                                                                                \
    USE(index_get_byindex)                                                                         \
    USE(libgit2_init)                                                                              \
    USE(odb_free)                                                                                  \
    USE(odb_read_header)                                                                           \
    USE(object_free)                                                                               \
    USE(object_id)                                                                                 \
    USE(object_peel)                                                                               \
    USE(object_short_id)                                                                           \
    USE(oid_fromstr)                                                                               \
    USE(oid_tostr)                                                                                 \
    USE(repository_commondir)                                                                      \
    USE(repository_config)                                                                         \
    USE(repository_free)                                                                           \
    USE(repository_head)                                                                           \
    USE(repository_index)                                                                          \
    USE(repository_is_bare)                                                                        \
    USE(repository_is_shallow)                                                                     \
    USE(repository_odb)                                                                            \
    USE(repository_open_ext)                                                                       \
    USE(repository_workdir)                                                                        \
    USE(reference_free)                                                                            \
    USE(reference_list)                                                                            \
    USE(reference_peel)                                                                            \
    USE(revparse_single)                                                                           \
    USE(status_byindex)                                                                            \
    USE(status_list_entrycount)                                                                    \
    USE(status_list_free)                                                                          \
    USE(status_list_new)                                                                           \
    USE(status_options_init)                                                                       \
    USE(strarray_dispose)                                                                          \
    USE(tree_entry_byindex)                                                                        \
    USE(tree_entry_byname)                                                                         \
    USE(tree_entry_filemode)                                                                       \
    USE(tree_entry_id)                                                                             \
    USE(tree_entry_name)                                                                           \
    USE(tree_entry_type)                                                                           \
    USE(tree_entrycount)                                                                           \
    USE(tree_free)                                                                                 \
    USE(tree_lookup)

/// The functions, without their "git_".
struct Git {
#define JARFUL_GIT_MEMBER(name) decltype(&::git_##name) name = nullptr;
    JARFUL_GIT_FUNCTIONS(JARFUL_GIT_MEMBER)
#undef JARFUL_GIT_MEMBER
};

/// The library, loaded and made ready by the first call; nullptr if it is not there, or is another
/// release than the program was built with (its structures change between releases).
[[nodiscard]] const Git* git_library();
/// Which file is looked for.
inline constexpr const char* git_library_file = "libgit2.so." LIBGIT2_SOVERSION;

/// A thing of the library's, given back in the end.
template <class T>
class Held {
  public:
    using Free = void (*)(T*);
    Held() = default;
    explicit Held(Free free)
        : free_(free) {}
    ~Held() { reset(); }
    Held(const Held&) = delete;
    Held& operator=(const Held&) = delete;
    Held(Held&& other) noexcept
        : thing_(std::exchange(other.thing_, nullptr))
        , free_(other.free_) {}
    Held& operator=(Held&& other) noexcept {
        std::swap(thing_, other.thing_);
        std::swap(free_, other.free_);
        return *this;
    }
    [[nodiscard]] T* get() const { return thing_; }
    /// Where the library puts a new one.
    [[nodiscard]] T** out() {
        reset();
        return &thing_;
    }

  private:
    void reset() {
        if (thing_ != nullptr) free_(thing_);
        thing_ = nullptr;
    }
    T* thing_ = nullptr;
    Free free_ = nullptr;
};

struct OidHash {
    std::size_t operator()(const git_oid& id) const {
        std::size_t hash = 0;
        std::memcpy(&hash, id.id, sizeof hash); // an id is evenly spread as it is
        return hash;
    }
};
struct OidSame {
    bool operator()(const git_oid& a, const git_oid& b) const {
        return std::memcmp(a.id, b.id, GIT_OID_RAWSZ) == 0;
    }
};

/// What a repository of somebody else's is not allowed to cost: a book needs a small part of each.
namespace limits {
inline constexpr std::size_t tree_depth = 100;         ///< folders in folders
inline constexpr std::size_t tree_entries = 1'000'000; ///< of a commit, with those of its folders
inline constexpr std::size_t tree_bytes = 64U << 20U;  ///< of one folder's list
inline constexpr std::size_t commit_bytes = 1U << 20U;
} // namespace limits

/// A file or folder of a commit.
struct FoundEntry {
    git_oid id{};
    git_filemode_t mode = GIT_FILEMODE_UNREADABLE;
};

struct Repository::Inside {
    const Git& git;
    Held<git_repository> repository;
    std::string work_tree, git_folder;
    Held<git_odb> objects{};
    /// What is in a folder, its folders' folders included.
    struct Extent {
        std::size_t entries = 0;
        std::size_t depth = 0;
    };
    mutable std::unordered_map<git_oid, Extent, OidHash, OidSame> extents{};

    [[nodiscard]] Held<git_commit> commit_place() const {
        return Held<git_commit>(git.commit_free);
    }
    [[nodiscard]] Held<git_tree> tree_place() const { return Held<git_tree>(git.tree_free); }

    /// What the library said last, as a trouble of ours.
    [[nodiscard]] Trouble failed(const std::string& what) const;
    [[nodiscard]] Revision describe(git_commit* commit) const;
    [[nodiscard]] Answer<Held<git_commit>> commit(const Revision& revision) const;
    [[nodiscard]] Answer<Held<git_tree>> tree(const Revision& revision) const;
    /// Whether an object is there and has at most so many bytes, by its header: the object itself
    /// is not unpacked for it.
    [[nodiscard]] bool is_at_most(const git_oid& id, std::size_t bytes) const;
    /// Nothing if a commit's content keeps to the limits; else what to say.
    [[nodiscard]] std::optional<Trouble> beyond_limits(git_tree* root) const;
    /// A folder whose list keeps to the limit; empty if it cannot be read.
    [[nodiscard]] std::optional<Held<git_tree>> list_of(const git_oid& id) const;
    /// What has a path in a commit; empty if nothing has.
    [[nodiscard]] std::optional<FoundEntry> entry_at(git_tree* root, std::string_view path) const;
    /// The tree of a folder; empty if there is no folder of that name.
    [[nodiscard]] std::optional<Held<git_tree>> folder(git_tree* root, std::string_view path) const;
    /// A file's bytes. Trouble: `file-too-large`, `git-failed`.
    [[nodiscard]] Answer<std::string> blob(const git_oid& id) const;
    /// Whether a path is one of a book's files: it ends in .jarful, lies in the folder, and no
    /// folder below that one is hidden.
    [[nodiscard]] static bool belongs(std::string_view path, std::string_view folder);
};

} // namespace jarful::book
