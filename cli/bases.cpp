#include "cli/bases.hpp"

#include "cli/files.hpp"
#include "engine/units/nearest.hpp"

#include <algorithm>
#include <filesystem>
#include <vector>

namespace jarful::cli {

namespace fs = std::filesystem;

namespace {

constexpr std::string_view ending = ".jarful";

fs::path start_folder(const std::string& from) {
    std::error_code error;
    const fs::path whole = fs::absolute(from == "-" ? "./-" : from, error);
    return (error ? fs::path(from) : whole).lexically_normal().parent_path();
}

/// The folder that the book begins in.
fs::path book_of(const fs::path& folder) {
    return book_root(folder).value_or(folder);
}

std::vector<fs::path> folders_for(const std::string& from) {
    const fs::path own = start_folder(from);
    const fs::path book = book_of(own);
    std::vector<fs::path> out{own};
    for (const fs::path& more : {book, book / "recipes"})
        if (std::find(out.begin(), out.end(), more) == out.end()) out.push_back(more);
    return out;
}

bool lies_in(const fs::path& file, const fs::path& folder) {
    std::error_code error;
    const fs::path real = fs::canonical(file, error);
    if (error) return false;
    const fs::path home = fs::canonical(folder, error);
    if (error) return false;
    const fs::path way = real.lexically_relative(home);
    return !way.empty() && *way.begin() != "..";
}

/// The recipe of the folders that is called nearly so.
std::optional<std::string> near_name(std::string_view name, const std::vector<fs::path>& folders) {
    std::vector<std::string> stems;
    for (const fs::path& folder : folders) {
        std::error_code error;
        for (fs::directory_iterator it(folder, error), end; !error && it != end;
             it.increment(error)) {
            const fs::path file = it->path().filename();
            if (file.extension() == ending && file != "kitchen.jarful" && file != "house.jarful")
                stems.push_back(file.stem().string());
        }
    }
    std::sort(stems.begin(), stems.end());
    const std::vector<std::string_view> known(stems.begin(), stems.end());
    const auto near = units::nearest(name, known);
    return near ? std::optional(std::string(*near)) : std::nullopt;
}

} // namespace

bool says_based_on(std::string_view text) {
    for (std::size_t at = 0; (at = text.find("based", at)) != std::string_view::npos; ++at) {
        const std::size_t line = text.substr(0, at).find_last_not_of(" \t");
        if (line == std::string_view::npos || text[line] == '\n' || text[line] == '\xBF')
            return true;
    }
    return false;
}

language::FoundBase find_base(std::string_view name, const std::string& from) {
    language::FoundBase out;
    const std::vector<fs::path> folders = folders_for(from);
    const std::string plain(name.ends_with(ending) ? name.substr(0, name.size() - ending.size())
                                                   : name);
    for (const fs::path& folder : folders) {
        const fs::path path = folder / (plain + std::string(ending));
        if (!is_file(path.string())) continue;
        out.path = shown(path);
        if (!lies_in(path, book_of(start_folder(from)))) {
            out.code = "base-outside";
            out.message = "\"" + std::string(name) + "\" leads out of this book.";
            out.advice = "Put the recipe itself into the book, not a link to it.";
            return out;
        }
        FileContent content = read_file(path.string());
        if (content.fault) {
            out.code = content.fault->code;
            out.message = "\"" + std::string(name) + "\": " + content.fault->message;
            out.advice = content.fault->advice;
        }
        out.bytes = std::move(content.bytes);
        return out;
    }
    out.message = "There is no recipe \"" + std::string(name) + "\" in this book.";
    out.nearest = near_name(plain, folders).value_or("");
    out.advice = out.nearest.empty() ? "It is looked for beside this recipe, in the book's folder, "
                                       "and in its folder \"recipes\"."
                                     : "Did you mean \"" + out.nearest + "\"?";
    return out;
}

} // namespace jarful::cli
