#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// A folder of recipes and its git history, which is read and never written (but for a setting of
/// the repository's configuration, where that is asked for). The library that reads git
/// repositories is loaded by Repository::open() and by nothing else, so that a command without a
/// book does not wait for it.
namespace jarful::book {

/// Why something could not be done: a code as in docs/diagnostics.md, and two whole sentences.
struct Trouble {
    std::string code;
    std::string message;
    std::string advice; ///< may be empty
};

/// A value, or why there is none.
template <class T>
class Answer {
  public:
    Answer(T value)
        : value_(std::move(value)) {}
    Answer(Trouble trouble)
        : trouble_(std::move(trouble)) {}

    [[nodiscard]] explicit operator bool() const { return value_.has_value(); }
    [[nodiscard]] T& operator*() & { return *value_; }
    [[nodiscard]] const T& operator*() const& { return *value_; }
    /// By value, so that what a function has just answered lives as long as it is looked at.
    [[nodiscard]] T operator*() && { return std::move(*value_); }
    [[nodiscard]] T* operator->() { return &*value_; }
    [[nodiscard]] const T* operator->() const { return &*value_; }
    /// Only where there is no value.
    [[nodiscard]] const Trouble& trouble() const { return trouble_; }

  private:
    std::optional<T> value_;
    Trouble trouble_;
};

/// A commit.
struct Revision {
    std::string id;        ///< all hexadecimal digits
    std::string short_id;  ///< as many as tell it from the others, 7 at least
    std::int64_t time = 0; ///< when it was committed, in seconds since 1970-01-01 00:00 UTC
    int zone_minutes = 0;  ///< what the committer's clock was ahead of UTC
    std::string summary;   ///< the first line of its message
    /// The committer's own date, "2026-09-01".
    [[nodiscard]] std::string date() const;
};

/// A recipe's or kitchen's file in a commit or in what is staged.
struct Entry {
    std::string path; ///< from the repository's root, with "/"
    std::string blob; ///< its content's id: the same for the same bytes
};

/// How a file of the work tree stands to the last commit.
enum class Standing : std::uint8_t {
    same,
    changed,       ///< not as committed
    not_committed, ///< not in the last commit
    gone,          ///< in the last commit, no longer here
    conflict       ///< a merge is not finished
};

/// The door to one repository. May be moved, not copied. One object belongs to one thread at a
/// time; several threads open the same repository several times.
///
/// Paths within a repository are written from its root, with "/" and without "./"; "" is the root.
class Repository {
  public:
    /// Opens the repository that a folder (or a file's folder) lies in: a work tree or any folder
    /// below it, a bare repository, one with a shallow history or with no commits yet.
    /// Trouble: `no-git-library`, `not-a-repository`, `not-your-repository`, `git-failed`.
    [[nodiscard]] static Answer<Repository> open(const std::string& folder);

    Repository(Repository&&) noexcept;
    Repository& operator=(Repository&&) noexcept;
    Repository(const Repository&) = delete;
    Repository& operator=(const Repository&) = delete;
    ~Repository();

    /// The work tree's folder without "/" at its end; empty in a bare repository.
    [[nodiscard]] const std::string& work_tree() const;
    /// The folder of the repository's own files (".git", or a bare repository), without "/" at its
    /// end; for a linked work tree the one that all of them share.
    [[nodiscard]] const std::string& git_folder() const;
    /// The path within the repository of a path as the user wrote it, which need not exist. A bare
    /// repository's own folder stands for the root.
    /// Trouble: `outside-repository`.
    [[nodiscard]] Answer<std::string> path_of(const std::string& path) const;

    /// The last commit. Trouble: `no-commits`.
    [[nodiscard]] Answer<Revision> head() const;
    /// The commit that a word names: `HEAD~3`, a tag, a branch, the beginning of an id, whatever
    /// gitrevisions(7) offers for a commit; or a date, `2026-09-01`: the newest commit of the
    /// history of HEAD whose committer's own date is that day or before it. A branch or tag of that
    /// name goes before a date.
    /// Trouble: `no-commits`, `unknown-revision`, `ambiguous-revision`.
    [[nodiscard]] Answer<Revision> resolve(std::string_view word) const;

    /// The bytes of a file in a commit. Trouble: `not-in-revision`, `git-failed`.
    [[nodiscard]] Answer<std::string> read(const Revision& revision, std::string_view path) const;
    /// Likewise, of the commit that a word names.
    [[nodiscard]] Answer<std::string> read(std::string_view word, std::string_view path) const;
    /// The bytes of an entry of list() or staged().
    [[nodiscard]] Answer<std::string> read(const Entry& entry) const;
    /// The path that a file of the last commit had in an earlier one, followed back through
    /// renames (git's own measure of likeness, one half). The same path if it was there by then.
    /// Trouble: `not-in-revision`.
    [[nodiscard]] Answer<std::string> path_at(const Revision& revision,
                                              std::string_view path) const;

    /// The .jarful files in a folder of a commit and in the folders below it, by path; hidden
    /// folders are passed over. Empty where the folder is not there.
    [[nodiscard]] Answer<std::vector<Entry>> list(const Revision& revision,
                                                  std::string_view folder = "") const;
    /// The .jarful files as they stand in the index, ready to be committed.
    [[nodiscard]] Answer<std::vector<Entry>> staged(std::string_view folder = "") const;

    /// Paths of .jarful files in a folder that differ between a commit and the work tree (in a bare
    /// repository: the last commit), with those that are not committed; by path. Files that are
    /// gone are among them.
    [[nodiscard]] Answer<std::vector<std::string>>
    changed_since(const Revision& revision, std::string_view folder = "") const;
    /// How the .jarful files of a folder stand to the last commit: those of the commit and those
    /// that git would take in. A file that is not named is one that git is told to ignore. In a
    /// bare repository all are the same as committed.
    [[nodiscard]] Answer<std::map<std::string, Standing>>
    standings(std::string_view folder = "") const;
    /// For each .jarful file of a folder in a commit, the commit that last changed its bytes. A
    /// file that was only moved keeps the commit from before; at a merge it follows the side from
    /// which its bytes came. Where a shallow history ends, its oldest commit. One walk for all
    /// files.
    [[nodiscard]] Answer<std::map<std::string, Revision>>
    last_changes(const Revision& revision, std::string_view folder = "") const;

    struct Inside; ///< of this room's own

    /// A setting of git's ("core.hooksPath"), wherever it was set; empty if it is not.
    [[nodiscard]] Answer<std::string> setting(const std::string& name) const;
    /// Sets it in the repository's own configuration, and nowhere else.
    [[nodiscard]] std::optional<Trouble> set(const std::string& name,
                                             const std::string& value) const;

  private:
    explicit Repository(std::unique_ptr<Inside> inside);
    std::unique_ptr<Inside> inside_;
};

} // namespace jarful::book
