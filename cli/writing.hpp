#pragma once

#include "cli/command.hpp"
#include "cli/files.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// Writing files so that a power cut leaves the old one or the new one, and never half of one.
namespace jarful::cli {

/// New contents for files that are there, which take their places together at the end. Every
/// content is first written to a temporary file in the folder of its file and brought to the disk.
/// What was staged and not put in place is removed again.
class Replacement {
  public:
    Replacement() = default;
    ~Replacement();
    Replacement(const Replacement&) = delete;
    Replacement& operator=(const Replacement&) = delete;

    /// Makes a content ready; nothing is replaced yet. Follows symbolic links to the file itself,
    /// and keeps its permissions and, where that is allowed, its owner.
    /// @param before what was read from the file: only that is replaced.
    [[nodiscard]] std::optional<FileFault> stage(const std::string& path, std::string_view before,
                                                 std::string_view content);
    /// Puts a staged content in place, in the order of staging; the first of them that fails ends
    /// it. `done` counts those that are in place. A file that somebody has saved, or is writing,
    /// since it was read stays as it is: `changed-meanwhile`.
    [[nodiscard]] std::optional<FileFault> commit(std::size_t& done);

  private:
    /// A content by which a file is known again, without being kept.
    struct Known {
        std::size_t size = 0;
        std::string hash;
    };
    struct Staged {
        std::string temporary;
        std::string target;
        Known before, after;
    };
    [[nodiscard]] static Known known(std::string_view content);
    [[nodiscard]] static bool is_still(const std::string& path, const Known& content);
    [[nodiscard]] static std::optional<FileFault> put_in_place(Staged& one);
    std::vector<Staged> staged_;
};

/// Makes a new file, whole or not at all. One that is there already, a link too, is never touched:
/// `file-exists`.
/// @param mode what the user's mask leaves of it: 0777 for a program.
[[nodiscard]] std::optional<FileFault> create_file(const std::string& path,
                                                   std::string_view content, unsigned mode = 0666);

/// A file to be made, or to take the place of one that Jarful made.
struct MadeFile {
    std::string path;
    std::string content;
    std::string what; ///< as in `render::made`
};
/// What could not be written, and why.
struct UnwrittenFile {
    std::string path;
    FileFault fault;
};
/// Makes files, or replaces those that are there and that Jarful made as the same thing, told by
/// their marks (`render/mark.hpp`). Everything is looked at before anything is written: a file that
/// somebody else made (`file-exists`), made for something else (`file-of-another-sort`) or changed
/// by hand (`file-changed`) is left as it is, and so are all the others.
/// @param force replaces whatever file is there.
[[nodiscard]] std::optional<UnwrittenFile> put_files(const std::vector<MadeFile>& files,
                                                     bool force);
/// Of commands that put files.
inline constexpr Flag force_flag{"--force", "", "replace a file that is there, whatever it is"};
/// What to say of it. @param what it was to be, as in "The card".
[[nodiscard]] std::string unwritten_words(std::string_view what, const UnwrittenFile& file);

} // namespace jarful::cli
