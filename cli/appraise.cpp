#include "engine/appraise/appraise.hpp"

#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/options.hpp"
#include "cli/terminal.hpp"
#include "cli/writing.hpp"
#include "engine/language/command_line.hpp"
#include "engine/library/words.hpp"
#include "engine/render/appraise_report.hpp"
#include "engine/units/amount.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace jarful::cli {

namespace {

struct AppraiseOptions {
    std::string path; ///< a file, a saved page, or "-"; empty: standard input
    library::AppraiseWords words;
    std::optional<std::string> why;       ///< the number of the line to explain
    std::optional<std::string> as_recipe; ///< where to write a recipe; "-" for standard output
    std::optional<double> salt_percent;   ///< the house's own salt in that recipe
    std::optional<render::Units> units;
    bool full = false;
    bool json = false;
};

/// The bytes of a file or of standard input; a page may be larger than a recipe.
bool read_text(const std::string& path, std::string& bytes, std::string& why) {
    int descriptor = STDIN_FILENO;
    if (path != "-") {
        if (!is_file(path)) {
            why = is_folder(path) ? "This is a folder." : "There is no such file.";
            return false;
        }
        descriptor = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
        if (descriptor < 0) {
            why = std::string("It cannot be read: ") + std::strerror(errno) + ".";
            return false;
        }
    }
    char block[65536];
    bool good = true;
    while (bytes.size() <= appraise::max_bytes) {
        const ssize_t n = ::read(descriptor, block, sizeof block);
        if (n < 0 && errno == EINTR) continue;
        if (n < 0) {
            why = std::string("It cannot be read: ") + std::strerror(errno) + ".";
            good = false;
        }
        if (n <= 0) break;
        bytes.append(block, static_cast<std::size_t>(n));
    }
    if (descriptor != STDIN_FILENO) ::close(descriptor);
    if (good && bytes.size() > appraise::max_bytes) {
        why = library::too_large;
        return false;
    }
    return good;
}

int explain_line(const std::string& bytes, const std::string& number) {
    const auto line = library::numbered(number + "=");
    const auto text = line ? appraise::why(bytes, line->number) : std::nullopt;
    if (text) return finish(*text, status::nothing_to_say);
    complain("There is no line \"" + number +
             "\" in it. Lines are numbered from 1, empty ones too.");
    return status::not_done;
}

/// Writes the first of them as a recipe into a file; false with a complaint if it cannot be.
bool write_recipe(const std::string& recipe, const std::string& path, std::size_t recipes) {
    if (recipes > 1) {
        complain("There are " + std::to_string(recipes) +
                 " recipes on the page; the first of them is written.");
    }
    if (const auto fault = create_file(path, recipe)) {
        complain(in_quotes(path) + " is not written. " + fault->message);
        return false;
    }
    complain("Written: \"" + path + "\". Look at it with `" +
             language::command_line({"jarful", "check", language::path_word(path)}) + "`.");
    return true;
}

std::string text_of(const std::vector<appraise::Appraisal>& all, const AppraiseOptions& options) {
    if (options.json) return render::appraise_json(all);
    const render::TextStyle style = result_style(options.units.value_or(render::Units::metric));
    std::string out;
    for (const appraise::Appraisal& one : all) {
        if (!out.empty()) out += "\n\n";
        out +=
            options.full ? render::appraise_text(one, style) : render::appraise_screen(one, style);
    }
    return out;
}

int answer(const AppraiseOptions& options) {
    std::string bytes;
    std::string why;
    const auto request = library::read_request(options.words, why);
    if (!request) {
        complain(why);
        return status::not_done;
    }
    const std::string path = options.path.empty() ? "-" : options.path;
    if (!read_text(path, bytes, why)) {
        complain("\"" + path + "\": " + why);
        return status::not_done;
    }
    if (options.why) return explain_line(bytes, *options.why);
    const library::AppraisedText read = library::appraise_text(std::move(bytes), *request);
    for (const std::string& remark : read.remarks)
        complain(remark);
    const std::vector<appraise::Appraisal>& all = read.recipes;
    if (all.empty()) {
        complain(read.fault);
        return status::not_done;
    }
    if (options.as_recipe) {
        const std::string recipe = appraise::as_recipe(all.front(), options.salt_percent);
        if (*options.as_recipe == "-") return finish(recipe, library::status_of(all));
        if (!write_recipe(recipe, *options.as_recipe, all.size())) return status::not_done;
    }
    return finish(text_of(all, options), library::status_of(all));
}

/// "2.5 %", "2.5%" or "2.5"; false with a complaint if it is no percentage that a jar may have.
bool read_percent(const std::string& text, AppraiseOptions& options) {
    const auto amount = units::read_amount(text);
    if (amount && (amount->percent || amount->plain_number) && amount->low == amount->high)
        options.salt_percent = amount->percent ? amount->value * 100 : amount->value;
    if (!options.salt_percent || !(*options.salt_percent > 0) || !(*options.salt_percent < 50)) {
        complain("--salt-percent " + in_quotes(text) +
                 " is not understood: write a percentage above 0 and below 50, as in "
                 "--salt-percent \"2.5 %\".");
        return false;
    }
    if (!options.as_recipe) {
        complain("--salt-percent is the salt of a recipe that is written: say where with "
                 "--as-recipe OUT.jarful.");
        return false;
    }
    return true;
}

int run(const Command& command, const std::vector<std::string>& words) {
    AppraiseOptions options;
    std::optional<std::string> kind, salt, percent;
    std::vector<std::string> positionals;
    Options reader(command);
    reader.words(positionals);
    reader.text("--kind", kind);
    reader.text("--salt", salt);
    reader.texts("--weighs", options.words.weighs);
    reader.texts("--line", options.words.lines);
    reader.text("--why", options.why);
    reader.text("--as-recipe", options.as_recipe);
    reader.text("--salt-percent", percent);
    reader.units(options.units);
    reader.flag("--full", options.full);
    reader.flag("--json", options.json);
    if (const auto failed = reader.parse(words)) return *failed;
    if (kind) options.words.kind = *kind;
    if (salt) options.words.salt = *salt;
    if (percent && !read_percent(*percent, options)) return status::not_done;
    for (const std::string& word : positionals) {
        if (word.find('=') != std::string::npos) {
            options.words.weighs.push_back(word);
        } else if (options.path.empty()) {
            options.path = word;
        } else {
            return stray_word(word, command);
        }
    }
    return answer(options);
}

constexpr std::array flags{
    Flag{"--kind", "KIND", "the kind of ferment, where it cannot be told; a method may follow it"},
    Flag{"--salt", "SALT",
         "which salt a spoon of plain \"salt\" is, as in \"coarse flake kosher salt\""},
    Flag{"--weighs", "NAME=AMOUNT", "what you have weighed; NAME=AMOUNT alone does as well"},
    Flag{"--line", "N=TEXT", "read TEXT in the place of line N, as in --line \"4=2 qt water\""},
    Flag{"--why", "N", "how line N is read: words, meanings, bounds, patterns; nothing is judged"},
    Flag{"--as-recipe", "OUT.jarful", "write it as a recipe in grams; - for standard output"},
    Flag{"--salt-percent", "PERCENT",
         "the salt of that recipe in place of the list's, of what the range is of"},
    Flag{"--units", "metric|us|both", "how to print weights; metric if not said"},
    full_flag,
    json_flag,
};
constexpr std::array<std::string_view, 5> examples{
    "jarful appraise found.txt",
    "jarful appraise found.txt --salt \"coarse flake kosher salt\" cabbage=1.84kg",
    "jarful appraise page.html --as-recipe found.jarful",
    "jarful appraise found.txt --as-recipe found.jarful --salt-percent \"2.5 %\"",
    "jarful appraise --json - < found.txt",
};

} // namespace

const Command appraise_command{
    .name = "appraise",
    .usage = "[FILE|-] [NAME=AMOUNT …] [OPTIONS]",
    .about = "the salt of a recipe found elsewhere, from its ingredient lines",
    .more =
        "FILE is a text with the ingredient lines of a recipe, with or without its method, or a "
        "saved web page; standard input, if there is none. Every line is shown as it was "
        "understood. Exit status: 0 if the salt is inside the published range, 1 if it is not, "
        "cannot be told, or the recipe is no ferment, 2 if nothing could be read.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
