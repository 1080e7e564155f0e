#include "cli/batch.hpp"

#include "cli/batch_correct.hpp"
#include "cli/clock.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/options.hpp"
#include "cli/records.hpp"
#include "cli/request.hpp"
#include "cli/tending.hpp"
#include "cli/terminal.hpp"
#include "engine/language/command_line.hpp"
#include "engine/language/parse.hpp"
#include "engine/language/words.hpp"
#include "engine/render/batch_compare_report.hpp"
#include "engine/render/words.hpp"
#include "engine/tend/identity.hpp"
#include "engine/tend/record_file.hpp"
#include "engine/units/nearest.hpp"

#include <algorithm>
#include <array>
#include <filesystem>

namespace jarful::cli {

namespace fs = std::filesystem;

namespace {

using Words = std::vector<std::string>;

int nothing_begun(const std::string& why) {
    complain("No batch was begun: " + why);
    return status::not_done;
}

// ---- start ----

struct StartOptions {
    std::string recipe;
    RequestWords request;
    tend::Date day;
    std::optional<double> room_celsius;
    std::optional<std::string> name, folder, kitchen;
};

/// What the record says of the plan.
tend::Record record_of(const plan::WeighOut& out, const StartOptions& options) {
    tend::Record record;
    record.title = out.title;
    record.kind = out.kind;
    record.method = out.method;
    record.begun = options.day;
    record.without = out.left_out;
    for (const plan::JarShare& jar : out.jars)
        record.vessels.push_back(jar.name);
    const auto add = [&](const plan::Item& item) {
        const bool later = item.fate == plan::Fate::later && !item.entered;
        const bool known = record.plan_of(item.name) != nullptr;
        if (!later && !known && !item.too_small && item.fate != plan::Fate::stock)
            record.planned.push_back({item.name, item.reading_g, false, {}});
    };
    for (const plan::Item& item : out.givens)
        add(item);
    for (const plan::Item& item : out.items)
        add(item);
    for (const plan::Count& count : out.counts) {
        const std::size_t times =
            count.each_jar ? std::max<std::size_t>(1, record.vessels.size()) : 1;
        record.planned.push_back(
            {count.name, static_cast<double>(count.count) * static_cast<double>(times), true, {}});
    }
    for (plan::MethodLine line : out.method_lines) {
        if (render::is_step(line)) continue;
        // A record's texts hold no values: they are printed into it now.
        plan::TextPiece words;
        words.words = render::plain(line.text, render::Units::metric);
        line.text.clear();
        if (!words.words.empty()) line.text.push_back(std::move(words));
        record.tending.push_back(std::move(line));
    }
    return record;
}

/// "2026-11-25-winter-kraut", from the recipe's file or the name that was given.
std::string stem_of(const StartOptions& options, const std::string& recipe) {
    std::string name = options.name.value_or(fs::path(recipe).stem().string());
    for (char& c : name)
        if (c == '/' || c == ' ' || static_cast<unsigned char>(c) < 0x20) c = '-';
    return tend::print_date(options.day) + "-" + name;
}

int begin(const StartOptions& options, const std::string& path, tend::Record record) {
    const fs::path folder = options.folder.value_or(batches_folder(path));
    std::error_code error;
    fs::create_directories(folder, error);
    if (error)
        return nothing_begun("the folder " + in_quotes(folder.string()) + " cannot be made.");
    const fs::path from_there = fs::proximate(fs::absolute(path), fs::absolute(folder), error);
    record.recipe = error ? path : from_there.string();
    const std::string text = tend::print_record(record);
    const std::string stem = stem_of(options, path);
    for (int number = 1; number <= 99; ++number) {
        const std::string file =
            (folder / (stem + (number == 1 ? "" : "-" + std::to_string(number)) + ".jarful"))
                .string();
        bool exists = false;
        const auto fault = tend::begin_record(file, text, exists);
        if (!fault) {
            return finish(
                "Begun: " + render::visible(file) + "\n\nNote what was really weighed:\n" + "  " +
                    language::command_line({"jarful", "batch", "note",
                                            language::path_word(fs::path(file).stem().string()),
                                            "--weighed", "NAME=AMOUNT"}) +
                    "\n",
                status::nothing_to_say);
        }
        if (!exists) return nothing_begun(*fault);
    }
    return nothing_begun("there are too many of that name and day. Give it a --name.");
}

int start(const Command& command, const Words& words) {
    StartOptions options;
    std::optional<std::string> day;
    std::optional<std::string> room;
    Options reader(command);
    reader.recipe(options.recipe, options.request);
    reader.text("--today", day);
    reader.text("--room", room);
    reader.text("--name", options.name);
    reader.text("--folder", options.folder);
    reader.text("--kitchen", options.kitchen);
    if (const auto failed = reader.parse(words)) return *failed;
    if (const auto failed = read_day(day, "--today", command, options.day)) return *failed;
    if (room)
        if (const auto failed = read_celsius(*room, "--room", command, options.room_celsius))
            return *failed;
    if (options.recipe == "-")
        return nothing_begun("a record needs a recipe in a file, to be found again.");
    const auto weighed =
        weigh_out({options.recipe, options.request, {options.kitchen}}, "No batch was begun");
    if (!weighed) return status::not_done;
    tend::Record record = record_of(weighed->out, options);
    const std::string path = weighed->ready.recipe.document.source.name();
    record.revision = tend::blob_id(read_file(path).bytes);
    record.room_celsius =
        options.room_celsius ? options.room_celsius : kitchen::room_celsius(weighed->ready.kitchen);
    return begin(options, path, std::move(record));
}

// ---- note ----

struct NoteWords {
    Words words, weighed, did;
    bool yes = false;
    std::optional<std::string> day, ph, temperature, filled, folder;
    CorrectionWords correction;
};

std::optional<int> read_deeds(const Words& typed, const Command& command,
                              std::vector<std::string>& did) {
    for (const std::string& list : typed) {
        for (std::size_t at = 0; at <= list.size();) {
            const std::size_t end = std::min(list.find(',', at), list.size());
            const std::string deed = list.substr(at, end - at);
            at = end + 1;
            const auto known = language::deed_words();
            if (!language::contains(known, deed)) {
                std::string words = in_quotes(deed) + " is nothing that --did knows.";
                if (const auto near = units::nearest(deed, known))
                    words += " Did you mean " + in_quotes(*near) + "?";
                return usage_fault(words, command);
            }
            did.push_back(deed);
        }
    }
    return std::nullopt;
}

std::optional<int> read_weighings(const Words& typed, tend::Date day,
                                  std::vector<tend::Weighed>& weighings) {
    for (const std::string& text : typed) {
        language::Findings findings;
        const auto setting = plan::read_setting(text, findings);
        if (setting && !findings.has_faults()) {
            double grams = 0;
            bool pieces = setting->parts.size() == 1 && setting->parts.front().plain_number;
            bool mass = !setting->parts.empty();
            bool one = true;
            for (const units::Amount& part : setting->parts) {
                grams += part.value;
                mass = mass && part.dimension == units::dim::mass;
                one = one && !part.range && !part.uncertain;
            }
            if (one && (pieces || mass)) {
                weighings.push_back({setting->name, grams, pieces, day});
                continue;
            }
            findings.fault("wrong-dimension", setting->value_place,
                           one ? "What is weighed is a weight, and this is none."
                               : "What the scale showed is one weight, and no range.",
                           "Write it as in --weighed salt=41g.");
        }
        explain_aside(request_source(text), findings);
        return status::not_done;
    }
    return std::nullopt;
}

/// A record is only added to, so that a slip of the name or the unit would stay in it.
bool can_be_meant(const std::vector<tend::Weighed>& weighings, render::BatchReport& batch) {
    constexpr double many_times = 5; // a decimal point that slips makes it ten times
    const std::vector<Weighable> known = weighable(batch);
    for (const tend::Weighed& one : weighings) {
        const auto same = std::find_if(known.begin(), known.end(),
                                       [&](const Weighable& w) { return w.name == one.name; });
        if (same == known.end()) {
            if (known.empty()) continue; // neither a plan nor a recipe
            std::vector<std::string_view> names;
            for (const Weighable& other : known)
                names.push_back(other.name);
            const auto near = units::nearest(one.name, names);
            complain("Nothing was noted: the recipe weighs nothing called " + in_quotes(one.name) +
                     "." + (near ? " Did you mean " + in_quotes(*near) + "?" : ""));
            return false;
        }
        if (same->pieces != one.pieces) {
            complain("Nothing was noted: " + one.name +
                     (same->pieces ? " is counted. Write a number, as in " + one.name + "=2."
                                   : " is weighed. Write the unit, as in " + one.name + "=30g."));
            return false;
        }
        const tend::Weighed* planned = batch.record.plan_of(one.name);
        // What was left out altogether is no slip.
        if (planned != nullptr && planned->amount > 0 && one.amount > 0 &&
            (one.amount > many_times * planned->amount ||
             one.amount * many_times < planned->amount)) {
            Kitchens kitchens(KitchenWords{});
            const units::Shown shown = kitchens.of(batch.path).kitchen.shown;
            const auto amount = [&](const tend::Weighed& w) {
                return w.pieces ? units::print_number(w.amount, 9)
                                : units::print_mass(w.amount, shown);
            };
            complain("Nothing was noted: " + amount(one) + " of " + one.name + ", where " +
                     amount(*planned) +
                     " was planned? Check the number and the unit. If it is right, write the line "
                     "into " +
                     in_quotes(batch.path) + " by hand.");
            return false;
        }
    }
    return true;
}

/// A measured weight that the recipe does not expect is not noted unless it is meant.
bool believed(const std::vector<tend::Weighed>& weighings, const render::BatchReport& batch,
              bool yes) {
    bool all = true;
    for (const std::string& doubt : doubts(batch, weighings)) {
        if (yes && doubt.ends_with("[measured-unlikely]")) continue;
        complain("Nothing was noted: " + doubt);
        all = false;
    }
    return all;
}

std::optional<int> read_note(const NoteWords& typed, const Command& command, tend::Note& note) {
    if (typed.ph) {
        const auto amount = units::read_amount(*typed.ph);
        if (!amount || !amount->plain_number || amount->value < 0 || amount->value > 14)
            return usage_fault(in_quotes(*typed.ph) +
                                   " behind --ph is no pH. Write a number, as in "
                                   "--ph 3.9.",
                               command);
        note.ph = amount->value;
    }
    if (typed.temperature)
        if (const auto failed = read_celsius(*typed.temperature, "--temp", command, note.celsius))
            return failed;
    if (typed.filled) {
        const auto amount = units::read_amount(*typed.filled);
        if (!amount || !(amount->dimension == units::dim::volume) || !(amount->value > 0))
            return usage_fault(in_quotes(*typed.filled) + " behind --filled is no volume. Write it "
                                                          "as in --filled 1.9L.",
                               command);
        note.filled_ml = amount->value;
    }
    return read_deeds(typed.did, command, note.did);
}

/// What is added is read back before it is written, so that no line spoils the record.
bool readable(const std::string& lines) {
    language::Findings findings;
    auto source = language::read_source(
        "the note", "batch \"x\" of \"x\"\nbegun 2026-01-01\n" + lines, findings);
    if (source) {
        const language::Document document = language::parse(std::move(*source), findings);
        if (!findings.has_faults()) static_cast<void>(tend::read_record(document, findings));
    }
    if (!findings.has_faults()) return true;
    for (const language::Diagnostic& found : findings.all())
        complain("Nothing was noted. " + found.message + " " + found.advice);
    return false;
}

int note(const Command& command, const Words& words) {
    NoteWords typed;
    Options reader(command);
    reader.words(typed.words);
    reader.text("--ph", typed.ph);
    reader.text("--temp", typed.temperature);
    reader.text("--filled", typed.filled);
    reader.texts("--weighed", typed.weighed);
    reader.flag("--yes", typed.yes);
    reader.texts("--did", typed.did);
    reader.text("--corrects", typed.correction.corrects);
    reader.text("--withdraws", typed.correction.withdraws);
    reader.text("--on", typed.correction.on);
    reader.text("--today", typed.day);
    reader.text("--folder", typed.folder);
    if (const auto failed = reader.parse(words)) return *failed;
    if (typed.words.empty()) return usage_fault("Which batch?", command);
    if (typed.words.size() > 2) return stray_word(typed.words[2], command);
    tend::Note note;
    if (const auto failed = read_day(typed.day, "--today", command, note.date)) return *failed;
    if (typed.words.size() == 2) note.text = typed.words[1];
    if (const auto failed = read_note(typed, command, note)) return *failed;
    std::vector<tend::Weighed> weighings;
    if (const auto failed = read_weighings(typed.weighed, note.date, weighings)) return *failed;
    std::string lines;
    for (const tend::Weighed& one : weighings)
        lines += tend::print_weighed(one);
    const bool says =
        note.ph || note.celsius || note.filled_ml || !note.did.empty() || !note.text.empty();
    if (says) lines += tend::print_note(note);
    if (lines.empty() && !typed.correction.any())
        return usage_fault("Note what? A text, or one of the options.", command);
    std::string path;
    if (const auto failed = find_batch(typed.words[0], typed.folder, path)) return *failed;
    auto batch = load_batch(path, note.date);
    if (!batch) return status::not_done;
    if (note.date < batch->record.begun) {
        complain("Nothing was noted: the batch was begun on " +
                 tend::print_date(batch->record.begun) + ", which is after " +
                 tend::print_date(note.date) + ".");
        return status::not_done;
    }
    if (!can_be_meant(weighings, *batch) || !believed(weighings, *batch, typed.yes))
        return status::not_done;
    if (typed.correction.any()) {
        auto line = correction_line(typed.correction, note, weighings, batch->record);
        if (!line) return status::not_done;
        lines = *std::move(line);
    } else if (!readable(lines)) {
        return status::not_done;
    }
    if (const auto fault = tend::add_to_record(path, lines)) {
        complain("Nothing was noted in " + in_quotes(path) + ": " + *fault);
        return status::not_done;
    }
    return finish(lines, status::nothing_to_say);
}

// ---- show and list ----

int show(const Command& command, const Words& words) {
    Words names;
    std::optional<std::string> day;
    std::optional<std::string> folder;
    std::optional<std::string> kitchen;
    bool full = false;
    bool json = false;
    std::optional<render::Units> units;
    Options reader(command);
    reader.words(names);
    reader.text("--today", day);
    reader.text("--folder", folder);
    reader.text("--kitchen", kitchen);
    reader.units(units);
    reader.flag("--full", full);
    reader.flag("--json", json);
    if (const auto failed = reader.parse(words)) return *failed;
    if (names.empty()) return usage_fault("Which batch?", command);
    if (names.size() > 1) return stray_word(names[1], command);
    tend::Date today;
    if (const auto failed = read_day(day, "--today", command, today)) return *failed;
    std::string path;
    if (const auto failed = find_batch(names[0], folder, path)) return *failed;
    auto report = load_batch(path, today);
    if (!report) return status::not_done;
    judge(*report, {kitchen, units, json});
    return finish(json ? render::batch_json(*report)
                       : render::batch_text(*report, result_style(report->shown, full)),
                  status_of(*report));
}

int list(const Command& command, const Words& words) {
    Words folders;
    std::optional<std::string> day;
    std::optional<std::string> folder;
    std::optional<std::string> kitchen;
    bool json = false;
    Options reader(command);
    reader.words(folders);
    reader.text("--today", day);
    reader.text("--folder", folder);
    reader.text("--kitchen", kitchen);
    reader.flag("--json", json);
    if (const auto failed = reader.parse(words)) return *failed;
    if (folders.size() > 1) return stray_word(folders[1], command);
    if (!folders.empty()) folder = folders.front();
    tend::Date today;
    if (const auto failed = read_day(day, "--today", command, today)) return *failed;
    if (folder && !is_folder(*folder)) {
        complain("There is no folder " + in_quotes(*folder) + ".");
        return status::not_done;
    }
    bool unread = false;
    auto reports = load_batches(folder.value_or(batches_folder("-")), today, unread);
    int code = unread ? status::not_done : status::nothing_to_say;
    for (render::BatchReport& report : reports) {
        if (!report.standing.ended) judge(report, {kitchen, std::nullopt, json});
        code = std::max(code, status_of(report));
    }
    return finish(
        json ? render::batches_json(reports) : render::batches_text(reports, result_style()), code);
}

// ---- compare ----

int compare(const Command& command, const Words& words) {
    Words names;
    std::optional<std::string> day;
    std::optional<std::string> folder;
    std::optional<std::string> kitchen;
    bool full = false;
    bool json = false;
    bool svg = false;
    std::optional<render::Units> units;
    Options reader(command);
    reader.words(names);
    reader.text("--today", day);
    reader.text("--folder", folder);
    reader.text("--kitchen", kitchen);
    reader.units(units);
    reader.flag("--full", full);
    reader.flag("--json", json);
    reader.flag("--svg", svg);
    if (const auto failed = reader.parse(words)) return *failed;
    if (names.size() < 2) return usage_fault("Compare which two batches?", command);
    if (names.size() > 2) return stray_word(names[2], command);
    tend::Date today;
    if (const auto failed = read_day(day, "--today", command, today)) return *failed;
    std::vector<render::BatchReport> reports;
    for (const std::string& name : names) {
        std::string path;
        if (const auto failed = find_batch(name, folder, path)) return *failed;
        auto report = load_batch(path, today);
        if (!report) return status::not_done;
        judge(*report, {kitchen, units, json});
        reports.push_back(std::move(*report));
    }
    if (svg)
        return finish(render::batch_plot_svg({&reports[0], &reports[1]}), status::nothing_to_say);
    return finish(json ? render::batch_compare_json(reports[0], reports[1])
                       : render::batch_compare_text(reports[0], reports[1],
                                                    result_style(reports[0].shown, full)),
                  status::nothing_to_say);
}

struct Subcommand {
    std::string_view name;
    int (*run)(const Command&, const Words&);
};
constexpr std::array subcommands{Subcommand{"start", start},     Subcommand{"note", note},
                                 Subcommand{"show", show},       Subcommand{"list", list},
                                 Subcommand{"compare", compare}, Subcommand{"adopt", adopt}};

int run(const Command& command, const Words& words) {
    if (words.empty())
        return usage_fault("What about a batch? start, note, show, list, compare or adopt.",
                           command);
    std::vector<std::string_view> known;
    for (const Subcommand& sub : subcommands) {
        if (sub.name == words.front()) return sub.run(command, {words.begin() + 1, words.end()});
        known.push_back(sub.name);
    }
    std::string sentence = "`jarful batch` does not know " + in_quotes(words.front()) + ".";
    if (const auto near = units::nearest(words.front(), known))
        sentence += " Did you mean " + in_quotes(*near) + "?";
    return usage_fault(sentence, command);
}

constexpr std::array flags{
    Flag{"--weighed", "NAME=AMOUNT", "note: what was really weighed; may be given again"},
    Flag{"--ph", "NUMBER", "note: the pH that was measured"},
    Flag{"--temp", "TEMPERATURE", "note: how warm it stands, as in 19C or 66F"},
    Flag{"--filled", "VOLUME", "note: the room that it really takes in the jar, as in 1.9L"},
    Flag{"--did", "TASK",
         "note: burp, skim, press, stir, turn, top_up, rinse, look, taste or test; ready, move (to "
         "the cold) or end (used up, or thrown away); may be given again"},
    Flag{"--corrects", "ENTRY",
         "note: puts an earlier entry right, as in --corrects \"pH 3.1\" --ph 4.1; the old value "
         "stays in the record"},
    Flag{"--withdraws", "ENTRY",
         "note: takes an earlier entry back, as in --withdraws \"did ready\""},
    Flag{"--on", "DATE", "note: the day of the entry that is corrected, where several fit"},
    Flag{"--room", "TEMPERATURE", "start: how warm the room is; otherwise as the kitchen says"},
    Flag{"--name", "TEXT", "start: a name instead of the recipe's"},
    Flag{"--folder", "FOLDER",
         "where the records are; otherwise \"batches\" beside the kitchen.jarful"},
    Flag{"--svg", "", "compare: pH and temperature over the days, as a drawing (SVG)"},
    Flag{"--write", "", "adopt: make the changes that are proposed, on those lines alone"},
    without_flag,
    yes_flag,
    kitchen_flag,
    today_flag,
    units_flag,
    full_flag,
    json_flag,
};
constexpr std::array<std::string_view, 9> examples{
    "jarful batch start winter-kraut cabbage=1.84kg",
    "jarful batch note winter-kraut --weighed salt=41g",
    "jarful batch note winter-kraut \"smells clean\" --ph 3.9 --temp 19C --did burp,look",
    "jarful batch note winter-kraut --ph 4.1 --corrects \"pH 3.1\"",
    "jarful batch show winter-kraut",
    "jarful batch list",
    "jarful batch list --json",
    "jarful batch compare 2026-11-25 2027-01-10 --svg > kraut.svg",
    "jarful batch adopt winter-kraut",
};

} // namespace

int status_of(const render::BatchReport& report) {
    const auto& findings = report.standing.findings;
    const bool wrong = std::any_of(findings.begin(), findings.end(),
                                   [](const tend::Finding& finding) { return finding.wrong(); });
    return wrong || !report.damage.empty() ? status::something_found : status::nothing_to_say;
}

const Command batch_command{
    .name = "batch",
    .usage = "start RECIPE [NAME=AMOUNT …] | note BATCH [TEXT] | show BATCH | list | compare A B | "
             "adopt RECIPE",
    .about = "the record of what was made: begin one, add to it, see how it stands",
    .more = "`start` writes a record: the recipe's revision, the plan and its days. `note` adds a "
            "dated line and changes nothing that is there; a slip is put right by a line, too. "
            "`show` judges the salt by what was "
            "really weighed, and says what is due, overdue or not as it should be; `list` does so "
            "in a line for each. `compare` puts two side by side; `adopt` "
            "proposes changes of single lines of a recipe from its batches. BATCH is a path or "
            "part of a "
            "record's name. Exit status: 0 if "
            "nothing is wrong, 1 if something is wrong or overdue, or proposed by `adopt`, 2 if it "
            "could not be done.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
