#pragma once

#include "engine/load/load.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What the language server asks of the world. The room itself reads no file.
namespace jarful::assist {

using load::FileContent;
using load::FileFault;
using load::LoadedFile;
using load::LoadedKitchen;

/// A path is a file's name for people wherever one is taken or returned here, as the command line
/// prints it, so that both say the same of a file. Nothing here changes a file.
class Files {
  public:
    Files() = default;
    Files(const Files&) = delete;
    Files& operator=(const Files&) = delete;
    virtual ~Files() = default;

    [[nodiscard]] virtual FileContent read(const std::string& path) const = 0;
    /// The kitchen.jarful and the house.jarful that belong to a file; empty if there is none.
    [[nodiscard]] virtual std::optional<std::string> kitchen_of(const std::string& path) const = 0;
    [[nodiscard]] virtual std::optional<std::string> house_of(const std::string& path) const = 0;
    /// See language::FindBase.
    [[nodiscard]] virtual language::FoundBase find_base(std::string_view name,
                                                        const std::string& from) const = 0;
    /// Every .jarful file of the book that a file lies in; of its folder where it is no book.
    [[nodiscard]] virtual std::vector<std::string> book_of(const std::string& path) const = 0;
    /// From a path that begins at the root, and back.
    [[nodiscard]] virtual std::string shown(const std::string& absolute) const = 0;
    [[nodiscard]] virtual std::string absolute(const std::string& path) const = 0;
};

} // namespace jarful::assist
