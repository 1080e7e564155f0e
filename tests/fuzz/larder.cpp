/// The larder's data: the first byte says which file the rest is; the others are as they are.

#include "engine/larder/compile/facts.hpp"
#include "tests/fuzz/fuzz.hpp"

#include <array>
#include <filesystem>
#include <fstream>
#include <unistd.h>

using namespace jarful;

namespace {

constexpr std::array files{"salts",  "produce", "aromatics", "seasonings", "acids", "others",
                           "ranges", "kinds",   "cautions",  "timing",     "brine", "sources"};

/// A copy of the data, in memory where there is such a folder.
const std::filesystem::path& folder() {
    static const std::filesystem::path path = [] {
        const std::filesystem::path memory = "/dev/shm";
        const auto root =
            std::filesystem::is_directory(memory) ? memory : std::filesystem::temp_directory_path();
        std::string form = (root / "jarful-fuzz-XXXXXX").string();
        fuzz::demand(::mkdtemp(form.data()) != nullptr, "there is a folder to write to");
        static const struct Removed {
            std::string path;
            ~Removed() {
                std::error_code ignored;
                std::filesystem::remove_all(path, ignored);
            }
        } removed{form};
        std::filesystem::copy(std::string(JARFUL_SOURCE_DIR) + "/engine/larder/data", form,
                              std::filesystem::copy_options::recursive);
        return std::filesystem::path(form);
    }();
    return path;
}

} // namespace

void fuzz_one(const std::string& bytes) {
    if (bytes.empty()) return;
    const std::string name = files[static_cast<unsigned char>(bytes.front()) % files.size()];
    const auto path = folder() / (name + ".json");
    static const std::filesystem::path source =
        std::string(JARFUL_SOURCE_DIR) + "/engine/larder/data";
    std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes.substr(1);
    std::vector<std::string> faults;
    const larder::compile::Facts facts = larder::compile::read_facts(folder().string(), faults);
    if (faults.empty()) static_cast<void>(larder::compile::write_tables(facts));
    std::filesystem::copy_file(source / (name + ".json"), path,
                               std::filesystem::copy_options::overwrite_existing);
}
