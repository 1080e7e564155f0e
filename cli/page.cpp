#include "cli/bases.hpp"
#include "cli/clock.hpp"
#include "cli/commands.hpp"
#include "cli/options.hpp"
#include "cli/page_address.hpp"
#include "cli/page_engine.hpp"
#include "cli/request.hpp"
#include "cli/tending.hpp"
#include "cli/terminal.hpp"
#include "cli/writing.hpp"
#include "engine/page/answer.hpp"
#include "engine/page/publish.hpp"
#include "engine/plan/packing.hpp"
#include "engine/render/mark.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <map>

namespace jarful::cli {

namespace {

namespace fs = std::filesystem;

struct PageOptions {
    std::vector<std::string> recipes; ///< paths, names from the book, folders
    std::optional<std::string> kitchen, output, address, engine, title;
    bool force = false; ///< replace whatever file is there
    std::optional<render::Units> units;
};

constexpr const char* undone = "No page was made";

int no_page(const std::string& why) {
    complain(std::string(undone) + ": " + why);
    return status::not_done;
}

/// The recipes that were named, a folder's in the order of their paths.
std::vector<std::string> named_recipes(const std::vector<std::string>& words) {
    std::vector<std::string> out;
    for (const std::string& word : words) {
        if (!is_folder(word)) {
            out.push_back(word);
            continue;
        }
        for (const std::string& path : files_below(word)) {
            const LoadedFile file = understood(path, read_file(path));
            const bool other = file.ok() && file.document.kind != language::FileKind::recipe;
            const std::string name = fs::path(path).filename().string();
            if (!other && name != "kitchen.jarful" && name != "house.jarful") out.push_back(path);
        }
    }
    return out;
}

std::optional<std::string> text_of(const std::optional<std::string>& path) {
    if (!path) return std::nullopt;
    FileContent content = read_file(*path);
    if (content.fault) return std::nullopt;
    return std::move(content.bytes);
}

/// The texts that a page carries, of a recipe that is known to be sound.
load::Texts texts_of(const std::string& path, const std::optional<std::string>& kitchen,
                     std::string& why) {
    load::Texts out;
    FileContent content = read_file(path);
    out.recipe = content.bytes;
    std::map<std::string, std::string> bases;
    const auto keep = [&](std::string_view name, const std::string& from) {
        language::FoundBase found = find_base(name, from);
        const auto [known, fresh] = bases.emplace(name, found.bytes);
        if (!fresh && known->second != found.bytes)
            why = "two recipes that it is based on are both called " + in_quotes(name) +
                  ". Give one of them another name.";
        return found;
    };
    static_cast<void>(with_bases(understood(path, std::move(content)), path, keep));
    for (auto& [name, text] : bases)
        out.bases.push_back({name, std::move(text)});
    out.kitchen = text_of(kitchen ? kitchen : kitchen_of(path));
    out.house = text_of(house_of(path));
    return out;
}

/// Where the page of a recipe will stand: the address itself, or its file below it.
std::string address_of(const PageOptions& options, const std::string& name, bool folder) {
    std::string out = options.address.value_or("");
    if (out.empty() || !folder) return out;
    if (!out.ends_with('/')) out += '/';
    return out + page::in_address(name) + ".html";
}

struct Made {
    page::Published page;
    int status = status::nothing_to_say;
};

/// A recipe made ready for its page; what stands in the way has been said.
std::optional<Made> made(const std::string& name, const PageOptions& options, bool folder) {
    if (name == "-") {
        no_page("a page is made of files; standard input has none beside it.");
        return std::nullopt;
    }
    const std::string path = find_recipe(name).path;
    std::optional<Ready> ready = make_ready(name, {options.kitchen, options.units}, undone);
    if (!ready) return std::nullopt;
    LoadedFile& recipe = ready->recipe;
    plan::RequestFindings found;
    const auto weighed = plan::weigh(recipe.document, ready->kitchen, {}, recipe.findings, found);
    recipe.findings.sort();
    explain_aside(recipe.document.source, recipe.findings);
    if (!weighed) {
        no_page("mend the recipe first.");
        return std::nullopt;
    }
    Made out;
    out.status = status_of(*weighed);
    page::Published& page = out.page;
    page.name = fs::path(path).stem().string();
    std::string why;
    page.texts = texts_of(path, options.kitchen, why);
    if (!why.empty()) {
        no_page(why);
        return std::nullopt;
    }
    page.card = render::make_card(
        *weighed, render::card_times(*weighed, kitchen::room_celsius(ready->kitchen), std::nullopt),
        weighed->shown);
    page.weighed = *weighed;
    if (options.address) {
        const auto address = with_code(address_of(options, page.name, folder), why);
        if (!address) {
            no_page(why);
            return std::nullopt;
        }
        page.address = *address;
    }
    return out;
}

int put_single(const page::Published& recipe, const PageOptions& options, const std::string& engine,
               int status) {
    const std::string page = page::single_page(recipe, engine);
    if (!options.output || *options.output == "-") return finish(page, status);
    const auto unwritten =
        put_files({{*options.output, page, std::string(render::made::page)}}, options.force);
    if (!unwritten) return status;
    complain(unwritten_words("The page", *unwritten));
    return status::not_done;
}

/// A book's name: what was said, or its kitchen's.
std::string title_of(const std::vector<page::Published>& recipes, const PageOptions& options) {
    if (options.title) return *options.title;
    const plan::WeighOut& first = recipes.front().weighed;
    return first.kitchen_built_in || first.kitchen.empty() ? "Recipes"
                                                           : "Recipes of " + first.kitchen;
}

int put_folder(const std::vector<page::Published>& recipes, const PageOptions& options,
               const std::string& engine, int status) {
    std::map<std::string, int> names;
    for (const page::Published& recipe : recipes) {
        if (recipe.name == "index")
            return no_page("the folder's own first page is called index; give the recipe another "
                           "file name.");
        if (++names[recipe.name] == 2)
            return no_page("two recipes have a file called " + in_quotes(recipe.name) +
                           ". Give one of them another name.");
    }
    const std::string folder = *options.output;
    std::error_code error;
    if (!is_folder(folder) && !fs::create_directory(folder, error))
        return no_page("the folder " + in_quotes(folder) + " cannot be made: " +
                       (error ? error.message() : std::string("there is a file of that name")) +
                       ".");
    const std::vector<page::PageFile> files =
        page::book_pages(recipes, title_of(recipes, options), engine);
    std::vector<MadeFile> made;
    for (const page::PageFile& file : files)
        made.push_back({(fs::path(folder) / file.name).string(), file.content, file.what});
    if (const auto unwritten = put_files(made, options.force)) {
        complain(unwritten_words("The book", *unwritten));
        return status::not_done;
    }
    const std::size_t pages = recipes.size();
    complain("Written: " + std::to_string(pages) + (pages == 1 ? " page" : " pages") +
             " and what they share, " + std::to_string(files.size()) + " files, in " +
             in_quotes(folder) +
             ". Next: put the folder on any web host; index.html is its first page.");
    return status;
}

/// Whether a folder is wanted rather than one file.
bool wants_folder(const PageOptions& options, std::size_t recipes) {
    const bool several =
        recipes > 1 || std::any_of(options.recipes.begin(), options.recipes.end(),
                                   [](const auto& word) { return is_folder(word); });
    if (several) return true;
    return options.output && (is_folder(*options.output) || options.output->ends_with('/'));
}

int answer(const PageOptions& options) {
    if (options.address && !is_address(*options.address))
        return no_page(no_address(*options.address));
    const std::vector<std::string> names = named_recipes(options.recipes);
    if (names.empty()) return no_page("there is no recipe in that folder.");
    const bool folder = wants_folder(options, names.size());
    if (folder && (!options.output || *options.output == "-"))
        return no_page("several pages go into a folder. Name it with -o FOLDER.");
    std::string why;
    const auto engine = page_engine(options.engine, why);
    if (!engine) return no_page(why);
    std::vector<page::Published> pages;
    int worst = status::nothing_to_say;
    for (const std::string& name : names) {
        auto one = made(name, options, folder);
        if (!one) return status::not_done;
        worst = std::max(worst, one->status);
        pages.push_back(std::move(one->page));
    }
    return folder ? put_folder(pages, options, *engine, worst)
                  : put_single(pages.front(), options, *engine, worst);
}

int run(const Command& command, const std::vector<std::string>& words) {
    PageOptions options;
    Options reader(command);
    reader.words(options.recipes);
    reader.text("--kitchen", options.kitchen);
    reader.text("-o", options.output);
    reader.flag("--force", options.force);
    reader.text("--address", options.address);
    reader.text("--title", options.title);
    reader.text("--engine", options.engine);
    reader.units(options.units);
    if (const auto failed = reader.parse(words)) return *failed;
    if (options.recipes.empty())
        return usage_fault("A recipe, or a folder of them, is missing.", command);
    return answer(options);
}

constexpr std::array flags{
    Flag{"-o", "FILE", "write one page to this file, or a book into this folder"},
    force_flag,
    Flag{"--address", "URL",
         "where the page will stand: printed on the card, with a code for a telephone's camera"},
    Flag{"--title", "TEXT", "the book's name on its first page; otherwise its kitchen's"},
    Flag{"--engine", "FILE",
         "the engine for pages, instead of the one that was installed with the program"},
    kitchen_flag,
    units_flag,
};
constexpr std::array<std::string_view, 3> examples{
    "jarful page winter-kraut -o winter-kraut.html",
    "jarful page recipes -o public",
    "jarful page half-sours -o half-sours.html --address https://garden.example/half-sours.html",
};

} // namespace

const Command page_command{
    .name = "page",
    .usage = "PATH… [OPTIONS]",
    .about = "a page on which every reader scales the recipe to their own batch",
    .more =
        "The card, and this very engine for a browser: whoever opens the page says what they have, "
        "and sees the numbers for it, off-line too. One recipe makes one file that needs no other. "
        "Several, or a folder, make a folder for any web host, with a first page that lists them. "
        "Nothing of a page asks the network for anything. Exit status: 0 if the salt and the "
        "bounds of the house are kept, 1 if they are not or cannot be told, 2 if no page was "
        "made.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
