#include "cli/candidates.hpp"

#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/help.hpp"
#include "cli/load.hpp"
#include "cli/usage.hpp"
#include "engine/language/describe.hpp"
#include "engine/larder/larder.hpp"
#include "engine/page/described.hpp"
#include "engine/plan/trace.hpp"
#include "engine/units/unit.hpp"

#include <algorithm>
#include <optional>

namespace jarful::cli {

namespace {

using language::Quantity;
using language::QuantityWord;

/// The command line so far, taken apart.
struct Line {
    const Command* command = nullptr;
    std::vector<std::string_view> plain;    ///< no options, and not the word being typed
    std::optional<std::string_view> recipe; ///< as it was named
    std::optional<std::string> kitchen;     ///< of --kitchen
    const Flag* open = nullptr;             ///< the option that waits for its value
    std::string_view current;               ///< the word being typed
};

const Flag* find_flag(const Command& command, std::string_view name) {
    for (const Flag& flag : command.flags) {
        if (flag.name == name) return &flag;
    }
    return nullptr;
}

Line take_apart(const Command& command, const std::vector<std::string>& words) {
    Line line;
    line.command = &command;
    line.current = words.back();
    for (std::size_t i = 1; i + 1 < words.size(); ++i) {
        const std::string_view word = words[i];
        const std::size_t equals = word.find('=');
        const Flag* flag = find_flag(command, word.substr(0, equals));
        if (flag == nullptr) {
            if (!word.starts_with('-') || word == "-") line.plain.push_back(word);
            continue;
        }
        const bool apart = !flag->value.empty() && equals == std::string_view::npos;
        if (apart && i + 2 == words.size()) line.open = flag;
        if (flag->name == "--kitchen") {
            if (!apart) line.kitchen = std::string(word.substr(equals + 1));
            if (apart && i + 2 < words.size()) line.kitchen = words[i + 1];
        }
        if (apart) ++i;
    }
    const auto usage = words_of_usage(command.usage);
    if (!line.plain.empty() && !usage.empty() && usage.front().text == "RECIPE")
        line.recipe = line.plain.front();
    return line;
}

/// Gathers what begins with the word being typed.
class Gathering {
  public:
    explicit Gathering(std::string_view start)
        : start_(start) {}

    void offer(std::string word, std::string_view about = {}) {
        if (!word.starts_with(start_) || (word == start_ && word.ends_with('='))) return;
        const bool known = std::any_of(out_.words.begin(), out_.words.end(),
                                       [&](const Candidate& c) { return c.word == word; });
        if (!known) out_.words.push_back({std::move(word), std::string(about)});
    }
    void offer_files() { out_.files = true; }
    [[nodiscard]] bool nothing() const { return out_.words.empty(); }
    [[nodiscard]] std::string_view start() const { return start_; }
    /// Goes on behind a beginning that is kept, as in `--units=` or `jar=tall,`.
    [[nodiscard]] Gathering behind(std::size_t bytes) const {
        return Gathering(start_.substr(bytes));
    }
    void add(const Gathering& other, std::string_view kept) {
        for (const Candidate& c : other.out_.words)
            out_.words.push_back({std::string(kept) + c.word, c.about});
        out_.files = out_.files || other.out_.files;
    }
    [[nodiscard]] Candidates take() { return std::move(out_); }

  private:
    std::string_view start_;
    Candidates out_;
};

// ---- From the recipe and the kitchen that were named. ----

std::optional<LoadedFile> recipe_of(const Line& line) {
    if (!line.recipe || *line.recipe == "-") return std::nullopt;
    // A revision behind it changes little in what its lines are called.
    const FoundRecipe found =
        find_recipe(std::string(line.recipe->substr(0, line.recipe->find('@'))));
    if (found.fault) return std::nullopt;
    return load(found.path);
}

kitchen::Kitchen kitchen_for(const Line& line, const LoadedFile& recipe) {
    Kitchens kitchens(KitchenWords{line.kitchen});
    return kitchens.of(recipe.document.source.name()).kitchen;
}

std::string about(const Quantity& quantity) {
    std::string out(describe(quantity.word));
    if (quantity.tail.label) out += ", " + quantity.tail.label->value;
    return out;
}

template <class Wanted>
void offer_lines(const Line& line, Gathering& gathering, std::string_view ending, Wanted wanted) {
    const auto recipe = recipe_of(line);
    if (!recipe) return;
    for (const language::Line& one : recipe->document.lines) {
        const auto* quantity = std::get_if<Quantity>(&one.statement);
        if (quantity != nullptr && wanted(*quantity))
            gathering.offer(quantity->name.value + std::string(ending), about(*quantity));
    }
}

void offer_jars(const Line& line, Gathering& gathering) {
    const auto recipe = recipe_of(line);
    if (!recipe) return;
    const std::string_view typed = gathering.start();
    const std::size_t kept = typed.find_last_of("=,") + 1;
    Gathering names = gathering.behind(kept);
    for (const kitchen::Vessel& vessel : kitchen_for(line, *recipe).vessels)
        names.offer(vessel.name, vessel.crock ? "crock" : "jar");
    gathering.add(names, typed.substr(0, kept));
}

/// What `name=value` may set: whatever of the recipe is not worked out alone, and the words of the
/// request.
void offer_settings(const Line& line, Gathering& gathering, bool poured) {
    if (!poured && gathering.start().starts_with("jar=")) {
        offer_jars(line, gathering);
        return;
    }
    offer_lines(line, gathering, "=", [&](const Quantity& quantity) {
        return quantity.word != QuantityWord::let &&
               !(poured && quantity.word == QuantityWord::count);
    });
    if (poured || !line.recipe) return;
    gathering.offer("jar=", "jars of the kitchen, to be filled");
    gathering.offer("fill=", "the room that it is to take");
}

void offer_names(const Line& line, Gathering& gathering, std::string_view after) {
    if (after.ends_with("without")) {
        offer_lines(line, gathering, "", [](const Quantity& q) { return q.tail.optional; });
        return;
    }
    if (after == "--for") {
        offer_lines(line, gathering, "", [](const Quantity& q) {
            return q.word == QuantityWord::given || q.word == QuantityWord::total;
        });
        return;
    }
    const auto recipe = recipe_of(line);
    if (!recipe || !recipe->ok()) return;
    for (std::string& name : plan::traceable_names(recipe->document, kitchen_for(line, *recipe)))
        gathering.offer(std::move(name));
}

// ---- From the larder and the units. ----

void offer_kinds(Gathering& gathering) {
    for (const larder::Kind& kind : larder::kinds())
        gathering.offer(std::string(kind.name), kind.title);
}

void offer_materials(Gathering& gathering, bool salts_alone) {
    for (const larder::Material& material : larder::materials()) {
        if (!salts_alone || material.role == larder::Role::salt)
            gathering.offer(std::string(material.name), larder::describe(material.role));
    }
}

void offer_units(Gathering& gathering) {
    for (const units::Unit& unit : units::unit_table())
        gathering.offer(std::string(unit.symbol), unit.definition);
}

void offer_results(Gathering& gathering) {
    for (const fields::Result* result : page::described_results())
        gathering.offer(result->notes.name, result->notes.meaning);
}

/// "metric|us|both"
void offer_alternatives(std::string_view value, Gathering& gathering) {
    while (!value.empty()) {
        const std::size_t bar = std::min(value.find('|'), value.size());
        gathering.offer(std::string(value.substr(0, bar)));
        value.remove_prefix(std::min(bar + 1, value.size()));
    }
}

// ---- What a placeholder stands for. ----

void offer_recipes(Gathering& gathering) {
    if (gathering.start().find('/') == std::string_view::npos) {
        for (const BookEntry& entry : book_entries())
            gathering.offer(entry.name, entry.path);
    }
    // Beside its name the file itself would only be in the way.
    if (gathering.nothing()) gathering.offer_files();
}

/// @param after the word or the option that asks for it; empty for one that stands by itself.
void offer_for(const Line& line, std::string_view placeholder, std::string_view after,
               Gathering& gathering) {
    if (placeholder.find_first_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ") == std::string_view::npos)
        return offer_alternatives(placeholder, gathering);
    if (placeholder == "RECIPE") return offer_recipes(gathering);
    if (placeholder == "NAME") return offer_names(line, gathering, after);
    if (placeholder.starts_with("NAME="))
        return offer_settings(line, gathering, after.starts_with("--"));
    if (placeholder == "KIND") return offer_kinds(gathering);
    if (placeholder == "SYSTEM") return offer_alternatives("us|metric|imperial|label", gathering);
    if (placeholder == "RESULT") return offer_results(gathering);
    if (placeholder == "UNIT") return offer_units(gathering);
    if (placeholder == "MATERIAL" || placeholder == "SALT")
        return offer_materials(gathering, placeholder == "SALT");
    if (placeholder == "PATH") {
        offer_recipes(gathering);
        gathering.offer_files();
    }
    for (const std::string_view file : {"FILE", "FOLDER", "BOOK", "BATCH", "OUT"}) {
        if (placeholder.starts_with(file)) gathering.offer_files();
    }
}

void offer_options(const Command& command, Gathering& gathering) {
    for (const Flag& flag : command.flags)
        gathering.offer(std::string(flag.name), flag.about);
    gathering.offer("--help", "what it does, with examples");
}

void offer_commands(Gathering& gathering) {
    for (const Command* command : commands()) {
        gathering.offer(std::string(command->name), command->about);
    }
}

Candidates of_a_command(const Line& line) {
    Gathering gathering(line.current);
    const std::size_t equals = line.current.find('=');
    if (line.open != nullptr) {
        offer_for(line, line.open->value, line.open->name, gathering);
        return gathering.take();
    }
    const bool has_value = line.current.starts_with("--") && equals != std::string_view::npos;
    if (has_value) {
        const Flag* flag = find_flag(*line.command, line.current.substr(0, equals));
        Gathering value = gathering.behind(equals + 1);
        if (flag != nullptr) offer_for(line, flag->value, flag->name, value);
        gathering.add(value, line.current.substr(0, equals + 1));
        return gathering.take();
    }
    if (line.current.starts_with('-')) {
        offer_options(*line.command, gathering);
        return gathering.take();
    }
    for (const UsageWord& word : next_words(line.command->usage, line.plain)) {
        if (word.literal) {
            gathering.offer(std::string(word.text));
        } else {
            offer_for(line, word.text, word.after, gathering);
        }
    }
    return gathering.take();
}

} // namespace

Candidates candidates(const std::vector<std::string>& words) {
    if (words.empty()) return {};
    Gathering gathering(words.back());
    if (words.size() == 1) {
        offer_commands(gathering);
        gathering.offer("help", "what a command does, with examples");
        if (words.back().starts_with('-')) {
            for (const Flag& flag : everywhere())
                gathering.offer(std::string(flag.name), flag.about);
        }
        return gathering.take();
    }
    if (words.front() == "help") {
        if (words.size() == 2) offer_commands(gathering);
        return gathering.take();
    }
    const Command* command = find_command(words.front());
    return command == nullptr ? Candidates{} : of_a_command(take_apart(*command, words));
}

} // namespace jarful::cli
