#include "cli/records.hpp"

#include "cli/bases.hpp"
#include "cli/files.hpp"
#include "cli/load.hpp"
#include "cli/options.hpp"
#include "cli/terminal.hpp"
#include "engine/book/repository.hpp"
#include "engine/language/command_line.hpp"
#include "engine/language/parse.hpp"
#include "engine/plan/plan.hpp"
#include "engine/tend/identity.hpp"
#include "engine/units/amount.hpp"

#include <algorithm>
#include <filesystem>

namespace jarful::cli {

namespace fs = std::filesystem;

namespace {

constexpr std::string_view ending = ".jarful";

std::string sentence_of(const language::Source& source, const language::Diagnostic& found) {
    std::string out = found.message;
    if (found.place)
        out = "Line " + std::to_string(source.locate(found.place->begin).line) + ": " + out;
    if (!found.advice.empty()) out += " " + found.advice;
    return out;
}

/// A recipe as it was when the batch was made, and where it came from.
struct PastRecipe {
    language::Document document;
    language::Findings findings;
    std::string path;
};

std::optional<PastRecipe> parsed(const std::string& path, std::string bytes) {
    LoadedFile file =
        with_bases(understood(path, FileContent{std::move(bytes), std::nullopt}), path, find_base);
    if (!file.ok() || file.document.kind != language::FileKind::recipe) return std::nullopt;
    return PastRecipe{std::move(file.document), std::move(file.findings), path};
}

std::optional<PastRecipe> recipe_of(render::BatchReport& report) {
    const tend::Record& record = report.record;
    if (record.recipe.empty()) {
        report.remarks.emplace_back("The record names no recipe, so the salt is not judged.");
        return std::nullopt;
    }
    const fs::path folder = fs::path(report.path).parent_path();
    const std::string path = (folder / record.recipe).lexically_normal().string();
    FileContent content = read_file(path);
    const bool there = !content.fault;
    if (there && (record.revision.empty() || tend::blob_id(content.bytes) == record.revision)) {
        auto recipe = parsed(path, std::move(content.bytes));
        if (!recipe)
            report.remarks.emplace_back("The recipe has faults, so the salt is not judged.");
        return recipe;
    }
    const auto repository = book::Repository::open(folder.empty() ? "." : folder.string());
    if (repository) {
        if (auto bytes = repository->read(book::Entry{path, record.revision})) {
            if (auto recipe = parsed(path, *bytes)) {
                report.remarks.emplace_back("The recipe has changed since; it is judged as it was, "
                                            "from the book's history.");
                return recipe;
            }
        }
    }
    if (!there) {
        report.remarks.emplace_back("The recipe is no longer there, so the salt is not judged.");
        return std::nullopt;
    }
    auto recipe = parsed(path, std::move(content.bytes));
    report.remarks.emplace_back(recipe
                                    ? "The recipe has changed since, and the book's history does "
                                      "not have it as it was; it is judged by the recipe of today."
                                    : "The recipe has faults, so the salt is not judged.");
    return recipe;
}

std::optional<plan::Setting> setting_of(const std::string& name, double grams) {
    language::Findings ignored;
    auto setting = plan::read_setting(name + "=" + units::print_number(grams, 9) + " g", ignored);
    if (setting) setting->certain = true; // it was asked about when it was noted
    return setting;
}

/// What a name is in the recipe; empty for one that it does not have.
std::optional<language::QuantityWord> word_of(const language::Document& recipe,
                                              std::string_view name) {
    for (const language::Line& line : recipe.lines) {
        const auto* quantity = std::get_if<language::Quantity>(&line.statement);
        if (quantity != nullptr && quantity->name.value == name) return quantity->word;
    }
    return std::nullopt;
}

/// What a record asks of its recipe.
struct Asked {
    plan::Request request;
    std::vector<std::string> words; ///< for a command line: cabbage=1500g --poured salt=24g
};

/// What goes into each jar goes in as often as there are jars: those of the record.
void ask_for_jars(const tend::Record& record, const language::Document& recipe, Asked& out) {
    const bool each = std::any_of(recipe.lines.begin(), recipe.lines.end(), [](const auto& line) {
        const auto* quantity = std::get_if<language::Quantity>(&line.statement);
        return quantity != nullptr && quantity->each_jar;
    });
    if (!each || record.vessels.empty()) return;
    std::string jars = "jar=";
    for (const std::string& vessel : record.vessels)
        jars += (jars.size() > 4 ? "," : "") + vessel;
    language::Findings ignored;
    if (auto setting = plan::read_setting(jars, ignored)) {
        out.request.settings.push_back(std::move(*setting));
        out.words.push_back(std::move(jars));
    }
}

/// The plan's givens, and what really went in, or what was to, of everything that goes on a scale.
Asked request_of(render::BatchReport& report, const language::Document& recipe) {
    const tend::Record& record = report.record;
    Asked out;
    out.request.without = record.without;
    for (const std::string& name : record.without)
        out.words.insert(out.words.end(), {"--without", name});
    const auto set = [&](const std::string& name, double grams) {
        auto setting = setting_of(name, grams);
        if (!setting) return;
        out.request.settings.push_back(std::move(*setting));
        out.words.push_back(name + "=" + units::print_number(grams, 9) + "g");
    };
    const auto pour = [&](const std::string& name, double grams, bool weighed) {
        auto poured = setting_of(name, grams);
        if (!poured) return;
        out.request.poured.push_back(std::move(*poured));
        if (weighed)
            out.words.insert(out.words.end(),
                             {"--poured", name + "=" + units::print_number(grams, 9) + "g"});
    };
    const auto add = [&](const std::string& name, double planned, double really, bool weighed) {
        const auto word = word_of(recipe, name);
        if (!word) {
            if (weighed)
                report.remarks.push_back("The recipe has no line " + in_quotes(name) +
                                         ", so its weight is left out of account.");
            return;
        }
        if (*word == language::QuantityWord::measure) {
            if (weighed) set(name, really);
            return;
        }
        if (*word == language::QuantityWord::given || *word == language::QuantityWord::total)
            set(name, planned);
        if (*word != language::QuantityWord::total) pour(name, really, weighed);
    };
    for (const tend::Weighed& planned : record.planned) {
        if (planned.pieces) continue;
        const tend::Weighed* weighed = record.weighed(planned.name);
        add(planned.name, planned.amount, weighed ? weighed->amount : planned.amount,
            weighed != nullptr);
    }
    for (const tend::Weighed& weighed : record.weighings)
        if (!weighed.pieces && record.plan_of(weighed.name) == nullptr &&
            record.weighed(weighed.name) == &weighed)
            add(weighed.name, weighed.amount, weighed.amount, true);
    ask_for_jars(record, recipe, out);
    return out;
}

/// What the plan has of the salt or of the brine and the jar has not: "11 g of salt".
std::string missing_words(const render::BatchReport& report, bool& brine) {
    std::string out;
    for (const plan::Item& item : report.made->items) {
        const tend::Weighed* planned = report.record.plan_of(item.name);
        const tend::Weighed* weighed = report.record.weighed(item.name);
        if (!render::brings_salt(report, item) || planned == nullptr || weighed == nullptr ||
            !(weighed->amount < planned->amount))
            continue;
        brine = brine || item.role != larder::Role::salt;
        out += (out.empty() ? "" : " and ") +
               units::print_mass(planned->amount - weighed->amount, report.shown) + " of " +
               item.name;
    }
    return out;
}

/// What to do where there is too little salt: on the first day it can still be added (common
/// practice, no source).
std::string more_salt(const render::BatchReport& report, const std::string& recipe,
                      const std::vector<std::string>& words) {
    constexpr int first_days = 1;
    if (report.standing.day > first_days)
        return "It is too late to add salt. When in doubt throw it away, and do not taste it to "
               "find out.";
    std::string name = recipe;
    if (name.ends_with(ending)) name.resize(name.size() - ending.size());
    bool brine = false;
    const std::string missing = missing_words(report, brine);
    std::string out = "Add what is missing today";
    if (!missing.empty()) out += ": of the plan that is " + missing;
    if (brine) return out + "."; // mend knows what can be weighed in, and a brine is poured
    std::vector<std::string> command{"jarful", "mend", language::path_word(name)};
    command.insert(command.end(), words.begin(), words.end());
    if (!doubts(report, report.record.weighings).empty()) command.emplace_back("--yes");
    return out + (missing.empty() ? ": " : ". For what is in the jar: ") +
           language::command_line(command);
}

/// @param words of the request, for a command line.
void find_salt(render::BatchReport& report, const std::string& recipe,
               const std::vector<std::string>& words) {
    if (!report.made || !report.made->salt || report.standing.ended) return;
    const plan::SaltJudgement& salt = *report.made->salt;
    if (salt.verdict == plan::Verdict::inside) return;
    tend::Finding finding;
    finding.text = salt.reason;
    switch (salt.verdict) {
    case plan::Verdict::below:
        finding.concern = tend::Concern::salt_low;
        finding.advice = more_salt(report, recipe, words);
        break;
    case plan::Verdict::above:
        finding.concern = tend::Concern::salt_off;
        finding.advice = "It sours slowly and tastes salty; that is a matter of quality.";
        break;
    default:
        finding.concern = tend::Concern::unknown;
        finding.advice = salt.decides;
        break;
    }
    if (salt.low) finding.source = salt.low->source;
    tend::add_finding(report.standing.findings, std::move(finding));
}

} // namespace

std::string batches_folder(const std::string& recipe) {
    const auto kitchen = kitchen_of(recipe);
    const fs::path beside = kitchen         ? fs::path(*kitchen).parent_path()
                            : recipe == "-" ? fs::path()
                                            : fs::path(recipe).parent_path();
    return (beside / "batches").string();
}

std::optional<int> find_batch(const std::string& name, const std::optional<std::string>& folder,
                              std::string& path) {
    // A recipe may have the same name: what is no path is looked for among the records.
    const bool a_path = name.find('/') != std::string::npos || name.ends_with(ending);
    if (a_path && (is_file(name) || is_file(name + std::string(ending)))) {
        path = is_file(name) ? name : name + std::string(ending);
        return std::nullopt;
    }
    const std::string place = folder.value_or(batches_folder("-"));
    std::vector<std::string> fitting;
    std::string all;
    for (const std::string& file :
         is_folder(place) ? files_below(place) : std::vector<std::string>{}) {
        const std::string stem = fs::path(file).stem().string();
        if (stem == name) {
            path = file;
            return std::nullopt;
        }
        if (stem.find(name) != std::string::npos) fitting.push_back(file);
        all += (all.empty() ? "" : ", ") + stem;
    }
    if (fitting.size() == 1 && !name.empty()) {
        path = fitting.front();
        return std::nullopt;
    }
    if (fitting.size() > 1) {
        std::string list;
        for (const std::string& file : fitting)
            list += (list.empty() ? "" : ", ") + fs::path(file).stem().string();
        complain("Several batches fit " + in_quotes(name) + ": " + list +
                 ". Say more of the name.");
    } else {
        complain("There is no batch " + in_quotes(name) + " in " + in_quotes(place) + ". " +
                 (all.empty() ? "`jarful batch start RECIPE` begins one."
                              : "The batches there: " + all + "."));
    }
    return status::not_done;
}

std::optional<render::BatchReport> load_batch(const std::string& path, tend::Date today) {
    render::BatchReport report;
    report.path = path;
    report.name = fs::path(path).stem().string();
    report.today = today;
    FileContent content = read_file(path);
    if (content.fault) {
        complain(in_quotes(path) + ": " + content.fault->message + " " + content.fault->advice);
        return std::nullopt;
    }
    language::Findings findings;
    auto source = language::read_source(path, content.bytes, findings);
    if (!source) {
        for (const language::Diagnostic& found : findings.all())
            complain(in_quotes(path) + ": " + found.message + " " + found.advice);
        return std::nullopt;
    }
    const language::Document document = language::parse(std::move(*source), findings);
    auto record = tend::read_record(document, findings);
    findings.sort();
    if (!record) {
        complain("Nothing of the record " + in_quotes(path) + " can be read.");
        explain_aside(document.source, findings);
        return std::nullopt;
    }
    for (const language::Diagnostic& found : findings.all())
        if (found.severity == language::Severity::fault)
            report.damage.push_back(sentence_of(document.source, found));
    report.record = std::move(*record);
    report.standing = tend::standing(report.record, today);
    return report;
}

std::vector<std::string> doubts(const render::BatchReport& report,
                                const std::vector<tend::Weighed>& weighed) {
    std::vector<std::string> out;
    render::BatchReport asked; // what there is to remark is said by `show`
    asked.path = report.path;
    asked.record = report.record;
    auto recipe = recipe_of(asked);
    if (!recipe) return out;
    Kitchens kitchens(KitchenWords{});
    const LoadedKitchen& kitchen = kitchens.of(recipe->path);
    if (!kitchen.ok()) return out;
    const auto among = [&](const plan::Setting& setting) {
        return std::any_of(weighed.begin(), weighed.end(),
                           [&](const tend::Weighed& one) { return one.name == setting.name; });
    };
    for (const tend::Weighed& one : weighed)
        asked.record.weighings.push_back(one);
    plan::Request request = request_of(asked, recipe->document).request;
    request.vessels = plan::Request::Vessels::unknown;
    for (plan::Setting& setting : request.settings)
        setting.certain = !among(setting);
    plan::RequestFindings found;
    language::Findings findings;
    static_cast<void>(plan::weigh(recipe->document, kitchen.kitchen, request, findings, found));
    for (const language::Findings& list : found.settings)
        for (const language::Diagnostic& one : list.all())
            if (one.code.starts_with("measured-"))
                out.push_back(one.message + " " + one.advice + " [" + one.code + "]");
    return out;
}

std::vector<Weighable> weighable(const render::BatchReport& report) {
    std::vector<Weighable> out;
    for (const tend::Weighed& planned : report.record.planned)
        out.push_back({planned.name, planned.pieces});
    render::BatchReport asked; // what there is to remark is said by `show`
    asked.path = report.path;
    asked.record = report.record;
    const auto recipe = recipe_of(asked);
    if (!recipe) return out;
    for (const language::Line& line : recipe->document.lines) {
        const auto* quantity = std::get_if<language::Quantity>(&line.statement);
        if (quantity == nullptr || quantity->word == language::QuantityWord::let) continue;
        const std::string& name = quantity->name.value;
        if (std::none_of(out.begin(), out.end(), [&](const auto& w) { return w.name == name; }))
            out.push_back({name, quantity->word == language::QuantityWord::count});
    }
    return out;
}

void judge(render::BatchReport& report, const KitchenWords& words) {
    auto recipe = recipe_of(report);
    Kitchens kitchens(words);
    // Where the recipe is not found, the record's own kitchen is that of its folder.
    const LoadedKitchen& kitchen = kitchens.of(recipe ? recipe->path : report.path);
    if (kitchen.ok()) {
        report.shown = kitchen.kitchen.shown;
        report.standing = tend::standing(report.record, report.today, report.shown);
    }
    if (!recipe) return;
    const language::Source& source = recipe->document.source;
    if (source.own_text().size() < source.text().size())
        report.remarks.emplace_back(
            "The recipe is based on another, which is taken as it is today.");
    if (!kitchen.ok()) {
        report.remarks.emplace_back("The kitchen has faults, so the salt is not judged.");
        return;
    }
    Asked asked = request_of(report, recipe->document);
    // It is made: whatever the kitchen would choose today, it is in the vessels that it is in.
    asked.request.vessels = plan::Request::Vessels::unknown;
    plan::RequestFindings found;
    report.made =
        plan::weigh(recipe->document, kitchen.kitchen, asked.request, recipe->findings, found);
    if (!report.made)
        report.remarks.emplace_back("The recipe cannot be weighed with what is noted, so the salt "
                                    "is not judged.");
    find_salt(report, recipe->path, asked.words);
}

std::vector<render::BatchReport> load_batches(const std::string& folder, tend::Date today,
                                              bool& unread) {
    std::vector<render::BatchReport> out;
    for (const std::string& path :
         is_folder(folder) ? files_below(folder) : std::vector<std::string>{}) {
        // Recipes and kitchens may lie in the same folder.
        const FileContent content = read_file(path);
        language::Findings ignored;
        if (!content.fault) {
            const auto source = language::read_source(path, content.bytes, ignored);
            if (source && language::parse(*source, ignored).kind != language::FileKind::batch &&
                fs::path(path).parent_path().filename() != "batches")
                continue;
        }
        if (auto report = load_batch(path, today))
            out.push_back(std::move(*report));
        else
            unread = true;
    }
    return out;
}

} // namespace jarful::cli
