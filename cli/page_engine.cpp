#include "cli/page_engine.hpp"

#include "cli/files.hpp"
#include "cli/options.hpp"
#include "cli/whole_file.hpp"

#include <filesystem>

namespace jarful::cli {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t largest_engine = 16U * 1024 * 1024; ///< ours has a sixteenth of it
constexpr const char* file_name = "jarful-page-engine.wasm.gz";

/// Where it is installed, seen from the program; and where cli/page-engine.sh builds it.
std::optional<std::string> beside_the_program() {
    std::error_code error;
    const fs::path program = fs::read_symlink("/proc/self/exe", error);
    if (error) return std::nullopt;
    const fs::path folder = program.parent_path();
    for (const fs::path& place : {folder / ".." / "share" / "jarful" / file_name,
                                  folder / ".." / ".." / "page" / file_name})
        if (is_file(place.string())) return place.string();
    return std::nullopt;
}

} // namespace

std::optional<std::string> page_engine(const std::optional<std::string>& named, std::string& why) {
    const std::optional<std::string> path = named ? named : beside_the_program();
    if (!path) {
        why = "the engine for pages was not installed with this program. In its source folder, "
              "cli/page-engine.sh builds it; --engine FILE names one.";
        return std::nullopt;
    }
    auto bytes = whole_file(*path, largest_engine);
    if (!bytes || !bytes->starts_with("\x1f\x8b")) { // RFC 1952, section 2.3.1
        why = in_quotes(*path) + (bytes ? " is no engine for pages, which is a module packed by "
                                          "gzip."
                                        : " cannot be read as a file of at most 16 MiB.");
        return std::nullopt;
    }
    return bytes;
}

} // namespace jarful::cli
