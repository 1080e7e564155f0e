#include "engine/plan/compare.hpp"

#include "cli/bases.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/options.hpp"
#include "cli/request.hpp"
#include "cli/revision.hpp"
#include "cli/terminal.hpp"
#include "engine/render/compare_report.hpp"
#include "engine/render/text_parts.hpp"
#include "engine/render/unified_diff.hpp"

#include <algorithm>
#include <array>

namespace jarful::cli {

namespace {

struct CompareOptions {
    std::vector<std::string> recipes; ///< one or two
    RequestWords request;
    std::optional<std::string> kitchen;
    std::optional<render::Units> units;
    enum class Form : std::uint8_t { text, json, markdown } form = Form::text;
    bool full = false;
};

int nothing_compared(const std::string& why) {
    complain("Nothing was compared: " + why);
    return status::not_done;
}

/// The kitchen for both; empty, after saying why, if it has faults.
const kitchen::Kitchen* kitchen_for(Kitchens& kitchens, const std::string& path) {
    const LoadedKitchen& kitchen = kitchens.of(path);
    if (kitchen.ok()) return &kitchen.kitchen;
    explain_aside(kitchen.file.document.source, kitchen.file.findings);
    return nullptr;
}

void explain_side(const plan::CompareSide& side) {
    language::Findings findings = side.findings;
    findings.sort();
    explain_aside(side.recipe.source, findings);
}

/// What is wrong with the request for the one is mostly wrong for the other too, and said once.
void explain_words(const CompareOptions& options, const plan::RequestFindings& first,
                   const plan::RequestFindings& second) {
    explain_request(options.request, first.has_faults() ? first : second);
}

std::string in_form(const CompareOptions& options, const plan::Comparison& comparison,
                    const render::ComparedNames& names, render::Units units) {
    switch (options.form) {
    case CompareOptions::Form::json:
        return render::compare_json(comparison, names);
    case CompareOptions::Form::markdown:
        return render::compare_markdown(comparison, names, units);
    case CompareOptions::Form::text:
        break;
    }
    return render::compare_text(comparison, names, result_style(units, options.full));
}

int answer(const CompareOptions& options) {
    RevisionWords before = revision_words(options.recipes.front());
    RevisionWords after;
    if (options.recipes.size() == 2) {
        after = revision_words(options.recipes.back());
    } else {
        after.name = before.name;
        if (!before.revision) before.revision = "HEAD";
    }
    plan::Request request;
    if (!read_request(options.request, request))
        return nothing_compared("say again what you have.");
    const auto first = load_recipe(before);
    const auto second = load_recipe(after);
    if (!first || !second) return nothing_compared("there are not two sound recipes.");
    Kitchens kitchens({options.kitchen, options.units, options.form == CompareOptions::Form::json});
    const kitchen::Kitchen* kitchen = kitchen_for(kitchens, second->path);
    if (kitchen == nullptr) return nothing_compared("mend the kitchen first.");
    plan::CompareSide old{first->file.document, {}, {}, {}};
    plan::CompareSide present{second->file.document, {}, {}, {}};
    const auto comparison = plan::compare(old, present, *kitchen, request);
    if (!comparison) {
        explain_side(old);
        explain_side(present);
        explain_words(options, present.request, old.request);
        return nothing_compared("one of the two cannot be weighed so.");
    }
    return finish(in_form(options, *comparison, {first->shown, second->shown}, kitchen->shown),
                  comparison->same() ? status::nothing_to_say : status::something_found);
}

// ---- As git's external diff ----

/// What git(1) passes to the program of GIT_EXTERNAL_DIFF or diff.NAME.command: path, old-file,
/// old-hex, old-mode, new-file, new-hex, new-mode, and for a rename the new path and a message.
struct DriverWords {
    std::string path;
    std::string old_file, old_id, new_file, new_id;
    std::string new_path; ///< of a rename; otherwise the path
};

bool is_id(const std::string& word) {
    return word == "." ||
           (word.size() >= 40 && word.find_first_not_of("0123456789abcdef") == std::string::npos);
}
bool is_mode(const std::string& word) {
    return word == "." ||
           (word.size() == 6 && word.find_first_not_of("01234567") == std::string::npos);
}

std::optional<DriverWords> driver_words(const std::vector<std::string>& words) {
    if (words.size() != 7 && words.size() != 9) return std::nullopt;
    if (!is_id(words[2]) || !is_mode(words[3]) || !is_id(words[5]) || !is_mode(words[6]))
        return std::nullopt;
    return DriverWords{words[0], words[1], words[2],
                       words[4], words[5], words.size() == 9 ? words[7] : words[0]};
}

std::string id_words(const std::string& path, const std::string& id) {
    if (id == "." || id.find_first_not_of('0') == std::string::npos) return path + " as it is here";
    return path + " (" + id.substr(0, 7) + ")";
}

constexpr const char* no_file = "/dev/null";

/// A side that git has put into a file of its own; what it is based on is looked for from where the
/// recipe stands.
LoadedFile load_side(const std::string& file, const std::string& path) {
    return with_bases(understood(path, read_file(file)), path, find_base);
}

/// Of a file that appeared, went, is no recipe or has faults, the lines say most.
std::string by_lines(const DriverWords& words) {
    const auto bytes = [](const std::string& file) {
        return file == no_file ? std::string() : read_file(file).bytes;
    };
    const std::string lines =
        render::unified_diff(bytes(words.old_file), bytes(words.new_file), words.new_path);
    // What is no text, an escape sequence for example, is shown and not sent to the terminal.
    std::string out;
    for (std::size_t begin = 0; begin < lines.size();) {
        const std::size_t end = std::min(lines.find('\n', begin), lines.size());
        out += render::visible(std::string_view(lines).substr(begin, end - begin)) + '\n';
        begin = end + 1;
    }
    return out;
}

/// A recipe that is there on one side only, in a few lines.
std::string alone(const DriverWords& words, bool appeared) {
    render::Page page(result_style());
    const std::string& file = appeared ? words.new_file : words.old_file;
    LoadedFile recipe = load_side(file, appeared ? words.new_path : words.path);
    page.heading((appeared ? "New: " : "Gone: ") + words.new_path);
    Kitchens kitchens(KitchenWords{});
    const LoadedKitchen& kitchen = kitchens.of(words.new_path);
    if (recipe.ok() && recipe.document.kind == language::FileKind::recipe && kitchen.ok()) {
        const auto result = plan::check(recipe.document, kitchen.kitchen, recipe.findings);
        if (result) {
            page.paragraph(result->title);
            page.paragraph(result->salt ? "Salt " + render::salt_in_short(*result->salt)
                                        : "The salt is not judged: " + result->no_salt_reason);
        }
    }
    page.gap();
    return page.text() + by_lines(words);
}

/// Git takes any other status than 0 as a failure of its own.
int drive(const DriverWords& words) {
    constexpr int done = 0;
    if (words.old_file == no_file || words.new_file == no_file)
        return finish(alone(words, words.old_file == no_file), done);
    LoadedFile old = load_side(words.old_file, words.path);
    LoadedFile present = load_side(words.new_file, words.new_path);
    Kitchens kitchens(KitchenWords{});
    const LoadedKitchen& kitchen = kitchens.of(words.new_path);
    const auto sound = [](const LoadedFile& file) {
        return file.ok() && file.document.kind == language::FileKind::recipe;
    };
    std::string out;
    if (sound(old) && sound(present) && kitchen.ok()) {
        plan::CompareSide before{old.document, {}, {}, {}};
        plan::CompareSide after{present.document, {}, {}, {}};
        const auto comparison = plan::compare(before, after, kitchen.kitchen, {});
        if (comparison)
            out = render::compare_text(
                *comparison,
                {id_words(words.path, words.old_id), id_words(words.new_path, words.new_id)},
                result_style(kitchen.kitchen.shown));
    }
    if (out.empty()) out = by_lines(words);
    return finish(out + "\n", done);
}

// ---- Words ----

int run(const Command& command, const std::vector<std::string>& words) {
    if (const auto driver = driver_words(words)) return drive(*driver);
    CompareOptions options;
    bool json = false;
    bool markdown = false;
    std::vector<std::string> positionals;
    Options reader(command);
    reader.words(positionals);
    reader.texts("--without", options.request.without);
    reader.flag("--yes", options.request.yes);
    reader.text("--for", options.request.moving);
    reader.text("--kitchen", options.kitchen);
    reader.units(options.units);
    reader.flag("--json", json);
    reader.flag("--full", options.full);
    reader.flag("--markdown", markdown);
    if (const auto failed = reader.parse(words)) return *failed;
    if (json && markdown) return usage_fault("One of --json and --markdown at a time.", command);
    using Form = CompareOptions::Form;
    options.form = json ? Form::json : markdown ? Form::markdown : Form::text;
    for (std::size_t i = 0; i < positionals.size(); ++i) {
        const std::string& word = positionals[i];
        if (word == "without" && i + 1 < positionals.size()) {
            options.request.without.push_back(positionals[++i]);
        } else if (word.find('=') != std::string::npos) {
            options.request.settings.push_back(word);
        } else if (options.recipes.size() < 2 && !word.empty()) {
            options.recipes.push_back(word);
        } else {
            return stray_word(word, command);
        }
    }
    if (options.recipes.empty()) return usage_fault("Compare which recipe?", command);
    return answer(options);
}

constexpr std::array flags{
    without_flag,
    yes_flag,
    Flag{"--for", "NAME", "what may move to answer a question; everything else stays"},
    kitchen_flag,
    units_flag,
    json_flag,
    full_flag,
    Flag{"--markdown", "", "the difference as Markdown"},
};
constexpr std::array<std::string_view, 6> examples{
    "jarful compare winter-kraut",
    "jarful compare winter-kraut@HEAD~3",
    "jarful compare winter-kraut@v2 winter-kraut@2026-09-01 cabbage=2kg",
    "jarful compare winter-kraut kraut-with-apple",
    "jarful compare winter-kraut@v2 jar=tall",
    "jarful compare winter-kraut --markdown",
};

} // namespace

const Command compare_command{
    .name = "compare",
    .usage = "RECIPE[@REVISION] [RECIPE[@REVISION]] [NAME=AMOUNT …] [without NAME] [OPTIONS]",
    .about = "what a change comes to in grams: two recipes, or one at two times",
    .more = "Both are made for the same produce, or for the same jars if jar=NAME is said, in the "
            "kitchen of today. REVISION is a commit, a tag, a branch or a date of the git book. "
            "With one recipe and no revision, the last commit is compared with what is here; with "
            "one revision, that one. What only moved or was spelt otherwise is no difference. Git "
            "can call it as a diff driver: `jarful book --set-up` says how. Exit status: 0 if the "
            "food is the same, 1 if it differs, 2 if nothing was compared.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
