#pragma once

#include "cli/load.hpp"
#include "engine/book/repository.hpp"

#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

/// A book's git history as commands want it.
namespace jarful::cli {

/// A file to look at: of the work tree, or of a commit.
struct BookFile {
    std::string path;  ///< as the user would write it
    std::string inner; ///< from the repository's root; empty where there is no history to look into
    std::string blob;  ///< the content's id, of a file of a commit
};

/// Says on standard error what was wrong.
void complain_of(const book::Trouble& trouble);

/// Opens the repository of a path; complains if there is none.
[[nodiscard]] std::optional<book::Repository> open_book(const std::string& path);

/// The path of a recipe in a commit, from the repository's root, by its path or its file's name
/// without the ending there.
/// @param said what the user calls the commit.
[[nodiscard]] book::Answer<std::string> recipe_called(const std::string& name,
                                                      const book::Repository& repository,
                                                      const book::Revision& revision,
                                                      const std::string& said);

/// The .jarful files of a path (a folder, one file, or the name of a recipe that is gone) in a
/// commit, by path; a file that is not in the commit under its name is looked for under an earlier
/// one. Complains where it cannot be done.
[[nodiscard]] std::optional<std::vector<BookFile>> files_at(const book::Repository& repository,
                                                            const book::Revision& revision,
                                                            const std::string& path);

/// Where recipes of a commit find what they are based on: as find_base() does on the disk, and only
/// in that commit. The repository must outlive it.
[[nodiscard]] language::FindBase past_bases(const book::Repository& repository,
                                            const book::Revision& revision);

/// Reads the files of one commit, and the kitchens that were theirs. One for each thread.
class PastBook {
  public:
    /// @param kitchen of which the one that the user named is the one of today.
    PastBook(book::Repository repository, const book::Revision& revision,
             const KitchenWords& kitchen);

    [[nodiscard]] FileContent read(const BookFile& file) const;
    /// Where its recipes find what they are based on. Good as long as the book is.
    [[nodiscard]] language::FindBase bases() const;
    /// The kitchen.jarful beside a file or in a folder above it, in the commit; the built-in one if
    /// there was none.
    [[nodiscard]] const LoadedKitchen& kitchen_of(const BookFile& file);

  private:
    book::Repository repository_;
    book::Revision revision_;
    Kitchens named_;
    KitchenWords words_;
    std::map<std::string, LoadedKitchen> by_folder_;
};

/// What changed since a commit: asked about one file after another.
class ChangedSince {
  public:
    /// @param at the commit up to which; the work tree if empty.
    /// Empty, with a complaint, if it cannot be done.
    [[nodiscard]] static std::optional<ChangedSince> find(const book::Repository& repository,
                                                          const book::Revision& since,
                                                          const std::optional<book::Revision>& at);

    /// Whether any recipe changed.
    [[nodiscard]] bool recipes() const;
    /// Whether a file changed, or a kitchen or house file in its folder or above it.
    [[nodiscard]] bool concerns(const std::string& inner) const;

  private:
    std::set<std::string> paths_;
    std::set<std::string> shared_folders_; ///< of kitchens and house files that changed
};

} // namespace jarful::cli
