#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/load.hpp"
#include "cli/options.hpp"
#include "cli/past.hpp"
#include "cli/set_up.hpp"
#include "cli/side_by_side.hpp"
#include "cli/terminal.hpp"
#include "engine/larder/larder.hpp"
#include "engine/render/book_report.hpp"
#include "engine/units/nearest.hpp"

#include <algorithm>
#include <array>
#include <atomic>
#include <limits>
#include <map>
#include <memory>

namespace jarful::cli {

namespace {

using render::BookRecipe;

struct BookOptions {
    std::vector<std::string> folder; ///< one, or none for the one that we are in
    std::optional<std::string> kind, verdict, with, find, sort;
    std::optional<std::string> kitchen;
    bool full = false, json = false, csv = false;
    bool set_up = false, write_config = false;
};

/// The letters A to Z in lower case, all else as it is.
std::string lower(std::string text) {
    for (char& c : text)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return text;
}

std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> out;
    std::string word;
    for (const char c : text) {
        if (c == ' ' || c == '_' || c == '-' || c == '\t') {
            if (!word.empty()) out.push_back(std::move(word));
            word.clear();
        } else {
            word += c;
        }
    }
    if (!word.empty()) out.push_back(std::move(word));
    return out;
}

/// Which recipes are wanted.
class Filter {
  public:
    explicit Filter(const BookOptions& options)
        : kind_(options.kind)
        , verdict_(options.verdict)
        , with_(options.with) {
        if (with_) wanted_ = material_of(*with_);
        if (options.find) words_ = words_of(lower(*options.find));
    }

    [[nodiscard]] bool takes(const BookRecipe& recipe, const language::Document& document) const {
        if (kind_ && recipe.kind != *kind_) return false;
        if (verdict_ && *verdict_ != word_of(recipe)) return false;
        if (with_ && !has_ingredient(document)) return false;
        if (words_.empty()) return true;
        const std::string text = lower(std::string(document.source.text()));
        return std::all_of(words_.begin(), words_.end(), [&](const std::string& word) {
            return text.find(word) != std::string::npos;
        });
    }

    [[nodiscard]] static std::string word_of(const BookRecipe& recipe) {
        if (recipe.faults > 0) return "faulty";
        return recipe.verdict ? std::string(plan::describe(*recipe.verdict)) : "unjudged";
    }

  private:
    static const larder::Material* material_of(const std::string& name) {
        static const larder::Larder built_in;
        const auto match = built_in.find(name);
        return match ? match->material : nullptr;
    }

    /// By the name of the line, or by what it is of: the same material, or the same words.
    [[nodiscard]] bool has_ingredient(const language::Document& document) const {
        const std::vector<std::string> wanted = words_of(lower(*with_));
        const auto fits = [&](const std::string& name) {
            const std::vector<std::string> has = words_of(lower(name));
            const bool all = std::all_of(wanted.begin(), wanted.end(), [&](const auto& word) {
                return std::find(has.begin(), has.end(), word) != has.end();
            });
            return all || (wanted_ != nullptr && material_of(name) == wanted_);
        };
        for (const language::Line& line : document.lines) {
            if (const auto* brine = std::get_if<language::BrineLine>(&line.statement)) {
                if (brine->material && fits(brine->material->value)) return true;
            }
            const auto* quantity = std::get_if<language::Quantity>(&line.statement);
            if (quantity == nullptr || quantity->word == language::QuantityWord::let) continue;
            if (fits(quantity->name.value)) return true;
            if (quantity->tail.material && fits(quantity->tail.material->value)) return true;
        }
        return false;
    }

    std::optional<std::string> kind_, verdict_, with_;
    const larder::Material* wanted_ = nullptr;
    std::vector<std::string> words_;
};

struct Looked {
    BookRecipe recipe;
    bool is_recipe = false;
    bool wanted = false;
};

Looked look_at(const std::string& path, Kitchens& kitchens, const Filter& filter) {
    Looked out;
    LoadedFile file = load(path);
    out.is_recipe = file.document.kind != language::FileKind::kitchen &&
                    file.document.kind != language::FileKind::house &&
                    file.document.kind != language::FileKind::batch;
    if (!out.is_recipe) return out;
    BookRecipe& recipe = out.recipe;
    recipe.path = path;
    for (const language::Line& line : file.document.lines) {
        if (const auto* header = std::get_if<language::RecipeHeader>(&line.statement)) {
            recipe.title = header->title.value;
            if (header->version) recipe.version = header->version->value;
        } else if (const auto* kind = std::get_if<language::KindLine>(&line.statement)) {
            const larder::Kind* known = larder::find_kind(kind->kind.value);
            recipe.kind = known == nullptr ? kind->kind.value : std::string(known->name);
            if (kind->method) recipe.method = kind->method->value;
        }
    }
    if (file.ok()) {
        const LoadedKitchen& kitchen = kitchens.of(path);
        if (!kitchen.ok()) {
            file.findings.fault("faulty-kitchen", std::nullopt,
                                "Its kitchen, \"" + kitchen.path + "\", has faults.");
        } else if (auto result = plan::check(file.document, kitchen.kitchen, file.findings)) {
            recipe.method = result->method;
            recipe.salt = std::move(result->salt);
            recipe.verdict = result->verdict;
        }
    }
    for (const language::Diagnostic& found : file.findings.all()) {
        if (found.severity != language::Severity::fault) continue;
        if (recipe.faults++ == 0) recipe.first_fault = found.message;
    }
    if (recipe.faults > 0) recipe.salt.reset(), recipe.verdict.reset();
    out.wanted = filter.takes(recipe, file.document);
    return out;
}

/// Adds what git knows; a book without a history stays without.
void add_history(const std::string& folder, render::BookReport& report) {
    auto repository = book::Repository::open(folder);
    if (!repository) {
        // No git here is no news; a repository that cannot be used is.
        if (repository.trouble().code != "not-a-repository") complain_of(repository.trouble());
        return;
    }
    const auto inner = repository->path_of(folder);
    const auto standings = inner ? repository->standings(*inner) : inner.trouble();
    if (!standings) return complain_of(standings.trouble());
    report.history = true;
    std::map<std::string, book::Revision> changes;
    if (const auto head = repository->head()) {
        auto found = repository->last_changes(*head, *inner);
        if (found) changes = *std::move(found);
    }
    for (BookRecipe& recipe : report.recipes) {
        const auto path = repository->path_of(recipe.path);
        if (!path) continue;
        if (const auto standing = standings->find(*path); standing != standings->end()) {
            recipe.standing = standing->second;
        }
        if (const auto change = changes.find(*path); change != changes.end()) {
            recipe.changed = change->second;
        }
    }
}

constexpr std::array<std::string_view, 5> sort_words{"path", "title", "kind", "verdict", "changed"};

void sort_by(const std::string& word, std::vector<BookRecipe>& recipes) {
    const auto by = [&](auto key) {
        std::stable_sort(recipes.begin(), recipes.end(),
                         [&](const BookRecipe& a, const BookRecipe& b) { return key(a) < key(b); });
    };
    if (word == "title") by([](const BookRecipe& r) { return lower(r.title); });
    if (word == "kind") by([](const BookRecipe& r) { return r.kind + " " + r.method; });
    // What needs a hand first.
    if (word == "verdict") {
        by([](const BookRecipe& r) {
            if (r.faults > 0) return 0;
            if (!r.verdict) return 4;
            return *r.verdict == plan::Verdict::inside      ? 5
                   : *r.verdict == plan::Verdict::undecided ? 3
                   : *r.verdict == plan::Verdict::above     ? 2
                                                            : 1;
        });
    }
    // The newest first; what was never committed is newer still.
    if (word == "changed") {
        by([](const BookRecipe& r) {
            return r.changed ? -r.changed->time : std::numeric_limits<std::int64_t>::min();
        });
    }
}

int status_of(const std::vector<BookRecipe>& recipes) {
    const bool sound = std::all_of(recipes.begin(), recipes.end(), [](const BookRecipe& r) {
        return r.faults == 0 && (!r.verdict || *r.verdict == plan::Verdict::inside);
    });
    return sound ? status::nothing_to_say : status::something_found;
}

int list(const BookOptions& options, const std::string& folder) {
    if (!is_folder(folder)) {
        complain("There is no folder " + in_quotes(folder) + ".");
        return status::not_done;
    }
    const std::vector<std::string> files = files_below(folder);
    if (files.empty()) {
        complain("There is no .jarful file in the folder " + in_quotes(folder) +
                 ". To write a first recipe: jarful new \"NAME\" --kind kraut");
        return status::not_done;
    }
    std::vector<Looked> looked(files.size());
    Progress progress(files.size());
    std::atomic<std::size_t> done = 0;
    side_by_side(files.size(), [&](bool caller) {
        return [&, caller, kitchens = std::make_shared<Kitchens>(KitchenWords{options.kitchen}),
                filter = Filter(options)](std::size_t i) {
            looked[i] = look_at(files[i], *kitchens, filter);
            ++done;
            if (caller) progress.at(done);
        };
    });
    progress.done();
    render::BookReport report;
    for (Looked& one : looked) {
        if (one.is_recipe) ++report.of;
        if (one.wanted) report.recipes.push_back(std::move(one.recipe));
    }
    add_history(folder, report);
    sort_by(options.sort.value_or("path"), report.recipes);
    const std::string result =
        options.json ? render::book_json(report)
        : options.csv
            ? render::book_csv(report)
            : render::book_text(report, result_style(render::Units::metric, options.full));
    return finish(result, status_of(report.recipes));
}

/// Holds a word to those that there are.
std::optional<int> one_of(const std::string& word, std::span<const std::string_view> known,
                          const std::string& option, const Command& command) {
    if (std::find(known.begin(), known.end(), word) != known.end()) return std::nullopt;
    std::string sentence = option + " cannot be " + in_quotes(word) + ".";
    if (const auto near = units::nearest(word, known)) {
        sentence += " Did you mean " + in_quotes(*near) + "?";
    }
    std::string all;
    for (std::size_t i = 0; i < known.size(); ++i)
        all += (i == 0 ? "" : i + 1 == known.size() ? " or " : ", ") + std::string(known[i]);
    return usage_fault(sentence + " Write " + all + ".", command);
}

std::optional<int> settle(BookOptions& options, const Command& command) {
    if (options.folder.size() > 1) return stray_word(options.folder[1], command);
    if (options.json && options.csv) {
        return usage_fault("One of --json and --csv at a time.", command);
    }
    if (options.write_config && !options.set_up) {
        return usage_fault("--write-config goes with --set-up.", command);
    }
    if (options.kind) {
        const std::string folder = options.folder.empty() ? "." : options.folder.front();
        const auto house = load_house(folder + "/recipe").house;
        const larder::Kind* kind =
            house != nullptr ? house->find_kind(*options.kind) : larder::find_kind(*options.kind);
        if (kind == nullptr) {
            const auto near = house != nullptr ? house->nearest_kind(*options.kind)
                                               : larder::nearest_kind(*options.kind);
            return usage_fault("There is no kind of ferment called " + in_quotes(*options.kind) +
                                   "." +
                                   (near ? " Did you mean " + in_quotes(*near) + "?"
                                         : " `jarful ranges` lists the kinds."),
                               command);
        }
        options.kind = std::string(kind->name);
    }
    static constexpr std::array<std::string_view, 6> verdicts{"inside",    "below",  "above",
                                                              "undecided", "faulty", "unjudged"};
    if (options.verdict) {
        if (const auto failed = one_of(*options.verdict, verdicts, "A verdict", command)) {
            return failed;
        }
    }
    if (options.sort) {
        if (const auto failed = one_of(*options.sort, sort_words, "The order", command)) {
            return failed;
        }
    }
    return std::nullopt;
}

int run(const Command& command, const std::vector<std::string>& words) {
    BookOptions options;
    Options reader(command);
    reader.words(options.folder);
    reader.text("--kind", options.kind);
    reader.text("--verdict", options.verdict);
    reader.text("--with", options.with);
    reader.text("--find", options.find);
    reader.text("--sort", options.sort);
    reader.text("--kitchen", options.kitchen);
    reader.flag("--full", options.full);
    reader.flag("--json", options.json);
    reader.flag("--csv", options.csv);
    reader.flag("--set-up", options.set_up);
    reader.flag("--write-config", options.write_config);
    if (const auto failed = reader.parse(words)) return *failed;
    if (const auto failed = settle(options, command)) return *failed;
    const std::string folder = options.folder.empty() ? "." : options.folder.front();
    return options.set_up ? set_up_book(folder, options.write_config) : list(options, folder);
}

constexpr std::array flags{
    Flag{"--kind", "KIND", "only recipes of this kind of ferment"},
    Flag{"--verdict", "VERDICT", "only inside, below, above, undecided, faulty or unjudged ones"},
    Flag{"--with", "INGREDIENT", "only recipes with it"},
    Flag{"--find", "WORDS", "only recipes in whose text all of these words stand"},
    Flag{"--sort", "ORDER", "by path, title, kind, verdict or changed; by path if not said"},
    kitchen_flag,
    full_flag,
    json_flag,
    Flag{"--csv", "", "the list as comma-separated values"},
    Flag{"--set-up", "",
         "make git and the book work together: .gitattributes, a hook, and what to configure"},
    Flag{"--write-config", "", "with --set-up: set the configuration of the repository, too"},
};
constexpr std::array<std::string_view, 5> examples{
    "jarful book",
    "jarful book recipes --kind kraut --sort changed",
    "jarful book --with caraway --verdict inside",
    "jarful book --csv > book.csv",
    "jarful book --set-up --write-config",
};

} // namespace

const Command book_command{
    .name = "book",
    .usage = "[FOLDER] [OPTIONS]",
    .about = "what is in a folder of recipes, how it stands, and what git knows of it",
    .more = "FOLDER is the one that you are in, if none is named; the folders below it belong to "
            "it. Of each recipe: title, version, kind, salt and verdict, faults, the commit that "
            "last changed it, and whether it is as committed. Exit status: 0 if every recipe "
            "shown is sound and inside its range, 1 if one is not, 2 if nothing could be shown.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
