#include "cli/files.hpp"

#include "cli/whole_file.hpp"
#include "engine/language/parse.hpp"
#include "engine/units/nearest.hpp"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <set>
#include <sys/stat.h>
#include <tuple>
#include <unistd.h>

namespace jarful::cli {

namespace fs = std::filesystem;

namespace {

constexpr std::string_view ending = ".jarful";
constexpr const char* kitchen_file = "kitchen.jarful";
constexpr const char* house_file = "house.jarful";

std::string in_quotes(std::string_view text) {
    return "\"" + std::string(text) + "\"";
}

/// In words that may follow the file's name.
FileFault fault_of(int error) {
    if (error == ENOENT || error == ENOTDIR) {
        return {"missing-file", "There is no such file.",
                "Check the spelling, and the folder that you are in."};
    }
    if (error == EACCES || error == EPERM) {
        return {"unreadable-file", "This file may not be read.",
                "Ask its owner, or change its permissions."};
    }
    return {"unreadable-file", std::string("This cannot be read: ") + std::strerror(error) + ".",
            ""};
}

/// One byte more than a recipe may have.
constexpr std::size_t enough = language::limits::file_bytes + 1;

fs::path full(const std::string& path) {
    std::error_code error;
    fs::path whole = fs::absolute(path, error);
    return error ? fs::path(path) : whole.lexically_normal();
}

std::optional<fs::path> found_above(fs::path folder, const char* file) {
    while (true) {
        const fs::path candidate = folder / file;
        if (is_file(candidate.string())) return candidate;
        std::error_code error;
        if (fs::exists(folder / ".git", error)) return std::nullopt;
        if (!folder.has_relative_path()) return std::nullopt;
        folder = folder.parent_path();
    }
}

std::optional<fs::path> kitchen_above(const fs::path& folder) {
    return found_above(folder, kitchen_file);
}

/// As kitchen_of and house_of say.
std::optional<std::string> file_of(const std::string& path, const char* file) {
    const fs::path start = path == "-" ? full(".") : full(path).parent_path();
    const auto found = found_above(start.has_filename() ? start : start.parent_path(), file);
    if (!found) return std::nullopt;
    return shown(*found);
}

std::vector<fs::path> book_folders() {
    std::error_code error;
    const fs::path here = fs::current_path(error);
    std::vector<fs::path> out;
    if (error) return out;
    out = {here, here / "recipes"};
    if (const auto kitchen = kitchen_above(here)) {
        out.push_back(kitchen->parent_path());
        out.push_back(kitchen->parent_path() / "recipes");
    }
    return out;
}

/// The files of the whole book that may be recipes, in its folders at any depth.
std::vector<fs::path> files_of_book() {
    std::error_code error;
    const fs::path here = fs::current_path(error);
    const auto root = error ? std::nullopt : book_root(here);
    std::vector<fs::path> out;
    if (!root) return out; // any folder at all, and everything below it
    for (const std::string& file : files_below(root->string())) {
        const fs::path path(file);
        const fs::path from_root = path.lexically_relative(*root);
        const fs::path name = path.filename();
        const bool record =
            std::find(from_root.begin(), from_root.end(), records_folder) != from_root.end();
        if (!record && name != kitchen_file && name != house_file) out.push_back(path);
    }
    return out;
}

/// What is called nearly so in the folders of the book.
std::string near_words(const std::string& name) {
    std::vector<std::string> stems;
    for (BookEntry& entry : book_entries())
        stems.push_back(std::move(entry.name));
    const std::vector<std::string_view> known(stems.begin(), stems.end());
    const fs::path wanted(name);
    const std::string stem =
        wanted.extension() == ending ? wanted.stem().string() : wanted.filename().string();
    if (const auto near = units::nearest(stem, known); near && *near != stem) {
        return "Did you mean " + in_quotes(*near) + "?";
    }
    if (stems.empty()) return "No recipe was found in this folder or in \"recipes\".";
    stems.erase(std::unique(stems.begin(), stems.end()), stems.end());
    std::string list;
    for (std::size_t i = 0; i < std::min<std::size_t>(stems.size(), 12); ++i) {
        list += (i == 0 ? "" : ", ") + stems[i];
    }
    return "The recipes here: " + list + (stems.size() > 12 ? ", …" : "") + ".";
}

} // namespace

std::string shown(const std::filesystem::path& path) {
    std::error_code error;
    const fs::path here = fs::current_path(error);
    if (error) return path.string();
    const fs::path from_here = path.lexically_normal().lexically_relative(here);
    const bool below = !from_here.empty() && *from_here.begin() != "..";
    return below ? from_here.string() : path.lexically_normal().string();
}

std::string folder_of(std::string_view path) {
    const std::size_t stroke = path.rfind('/');
    return std::string(path.substr(0, stroke == std::string_view::npos ? 0 : stroke));
}

bool is_file(const std::string& path) {
    struct stat info {};
    return ::stat(path.c_str(), &info) == 0 && S_ISREG(info.st_mode);
}

bool is_folder(const std::string& path) {
    struct stat info {};
    return ::stat(path.c_str(), &info) == 0 && S_ISDIR(info.st_mode);
}

FileContent read_file(const std::string& path) {
    FileContent out;
    if (path == "-") {
        if (const int error = read_all(STDIN_FILENO, false, enough, out.bytes)) {
            out.fault = FileFault{
                "unreadable-file",
                std::string("Standard input cannot be read: ") + std::strerror(error) + ".", ""};
        }
        return out;
    }
    // A pipe without a writer would keep an ordinary open waiting.
    const Opened file(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC));
    if (file.get() < 0) {
        out.fault = fault_of(errno);
        return out;
    }
    struct stat info {};
    if (::fstat(file.get(), &info) != 0) {
        out.fault = fault_of(errno);
    } else if (S_ISDIR(info.st_mode)) {
        out.fault =
            FileFault{"is-a-folder", "This is a folder, not a file.",
                      "Name a recipe in it, or check the whole folder with `jarful check`."};
    } else if (!S_ISREG(info.st_mode)) {
        out.fault = FileFault{"not-a-file", "This is a device or a pipe, not an ordinary file.",
                              "Write - to read from standard input."};
    } else if (const int error = read_all(file.get(), true, enough, out.bytes)) {
        out.fault = fault_of(error);
    }
    return out;
}

std::vector<std::string> files_below(const std::string& folder) {
    std::vector<std::string> out;
    std::vector<fs::path> waiting{folder};
    while (!waiting.empty()) {
        const fs::path here = waiting.back();
        waiting.pop_back();
        std::error_code error;
        for (fs::directory_iterator it(here, error), end; !error && it != end;
             it.increment(error)) {
            const std::string name = it->path().filename().string();
            if (name.starts_with('.')) continue;
            std::error_code ignored;
            // The folder's list has these at hand; asking the file itself would cost as much as
            // opening it.
            if (!it->is_symlink(ignored) && it->is_directory(ignored)) {
                waiting.push_back(it->path());
            } else if (it->path().extension() == ending) {
                std::string path = it->path().string();
                if (path.starts_with("./")) path.erase(0, 2);
                out.push_back(std::move(path));
            }
        }
    }
    std::sort(out.begin(), out.end());
    return out;
}

std::optional<fs::path> book_root(const fs::path& folder) {
    std::error_code error;
    for (fs::path at = folder;; at = at.parent_path()) {
        if (is_file((at / kitchen_file).string()) || is_file((at / house_file).string()) ||
            fs::exists(at / ".git", error))
            return at;
        if (!at.has_relative_path()) return std::nullopt;
    }
}

std::vector<BookEntry> book_entries() {
    std::vector<BookEntry> out;
    for (const fs::path& path : files_of_book())
        out.push_back({path.stem().string(), shown(path)});
    for (const fs::path& folder : book_folders()) {
        std::error_code error;
        for (fs::directory_iterator it(folder, error), end; !error && it != end;
             it.increment(error)) {
            const fs::path file = it->path().filename();
            if (file.extension() == ending && file != kitchen_file && file != house_file)
                out.push_back({file.stem().string(), shown(it->path())});
        }
    }
    std::sort(out.begin(), out.end(), [](const BookEntry& a, const BookEntry& b) {
        return std::tie(a.name, a.path) < std::tie(b.name, b.path);
    });
    out.erase(std::unique(out.begin(), out.end(),
                          [](const BookEntry& a, const BookEntry& b) { return a.path == b.path; }),
              out.end());
    return out;
}

std::optional<std::string> kitchen_of(const std::string& path) {
    return file_of(path, kitchen_file);
}

std::optional<std::string> house_of(const std::string& path) {
    return file_of(path, house_file);
}

FoundRecipe find_recipe(const std::string& name) {
    if (name == "-" || is_file(name)) return {name, std::nullopt};
    if (is_file(name + std::string(ending))) return {name + std::string(ending), std::nullopt};
    std::vector<std::string> found;
    if (!name.empty() && name.find('/') == std::string::npos) {
        std::set<std::string> seen; // one file may be reached by two ways
        const auto take = [&](const fs::path& path) {
            std::error_code error;
            const fs::path real = fs::canonical(path, error);
            if (seen.insert((error ? path : real).string()).second) found.push_back(shown(path));
        };
        for (const fs::path& folder : book_folders()) {
            for (const std::string& file : {name, name + std::string(ending)}) {
                const fs::path path = folder / file;
                if (is_file(path.string())) take(path);
            }
        }
        if (found.empty()) {
            for (const fs::path& path : files_of_book())
                if (path.stem() == name || path.filename() == name) take(path);
        }
    }
    if (found.size() == 1) return {found.front(), std::nullopt};
    if (found.size() > 1) {
        std::string list;
        for (const std::string& path : found)
            list += (list.empty() ? "" : ", ") + path;
        return {"", FileFault{"several-files",
                              "Several recipes are called " + in_quotes(name) + ": " + list + ".",
                              "Name the one you mean by its path."}};
    }
    struct stat info {};
    if (::stat(name.c_str(), &info) == 0) return {name, std::nullopt}; // reading it says what it is
    if (errno != ENOENT && errno != ENOTDIR) return {"", fault_of(errno)};
    return {"", FileFault{"missing-file", "There is no recipe " + in_quotes(name) + ".",
                          near_words(name)}};
}

} // namespace jarful::cli
