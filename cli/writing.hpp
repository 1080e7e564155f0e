#pragma once

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
    [[nodiscard]] std::optional<FileFault> stage(const std::string& path, std::string_view content);
    /// Puts a staged content in place, in the order of staging; the first of them that fails ends
    /// it. `done` counts those that are in place.
    [[nodiscard]] std::optional<FileFault> commit(std::size_t& done);

  private:
    struct Staged {
        std::string temporary;
        std::string target;
    };
    std::vector<Staged> staged_;
};

/// Makes a new file, whole or not at all. One that is there already, a link too, is never touched:
/// `file-exists`.
[[nodiscard]] std::optional<FileFault> create_file(const std::string& path,
                                                   std::string_view content);

/// Makes a file, or replaces one of the same sort whole: one that is empty or begins as the new
/// content does. Any other file that is there is left as it is: `file-exists`.
/// @param beginning with which every file of this sort begins.
[[nodiscard]] std::optional<FileFault> put_file(const std::string& path, std::string_view content,
                                                std::string_view beginning);

} // namespace jarful::cli
