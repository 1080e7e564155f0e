#include "cli/commands.hpp"
#include "cli/load.hpp"
#include "cli/options.hpp"
#include "cli/request.hpp"
#include "cli/terminal.hpp"
#include "engine/plan/brine_sheet.hpp"
#include "engine/render/brine_report.hpp"

#include <array>

namespace jarful::cli {

namespace {

struct BrineOptions {
    std::string words; ///< as typed, joined by blanks
    std::optional<std::string> salt, of, at;
    std::optional<std::string> kitchen;
    std::optional<render::Units> units;
    bool full = false;
    bool json = false;
};

/// One part of the question; what is wrong with it is explained with its own text.
template <class Read>
auto read_part(const std::string& text, bool& sound, Read read) {
    language::Findings findings;
    auto out = read(text, findings);
    explain_aside(request_source(text), findings);
    sound = sound && out.has_value();
    return out;
}

int answer(const BrineOptions& options) {
    bool sound = true;
    std::optional<bool> of_water;
    if (options.of) {
        of_water = *options.of == "water";
        if (*options.of != "water" && *options.of != "brine") {
            complain("A strength is of the brine or of the water. Write --of brine or --of water.");
            return status::not_done;
        }
    }
    std::optional<double> salt;
    if (options.salt) salt = read_part(*options.salt, sound, larder::read_brine_salt);
    std::optional<double> celsius = larder::default_celsius;
    if (options.at) celsius = read_part(*options.at, sound, larder::read_brine_celsius);
    if (!sound) return status::not_done;
    const auto question = read_part(options.words, sound, [&](auto& text, auto& findings) {
        return larder::read_brine_question(text, salt, of_water, *celsius, findings);
    });
    if (!question) return status::not_done;
    Kitchens kitchens({options.kitchen, options.units, options.json});
    const LoadedKitchen& kitchen = kitchens.of("-");
    if (!kitchen.ok()) {
        explain_aside(kitchen.file.document.source, kitchen.file.findings);
        return status::not_done;
    }
    std::string asked = options.words;
    if (options.salt) asked = *options.salt + " of salt" + (asked.empty() ? "" : " ") + asked;
    const plan::BrineSheet sheet = plan::brine_sheet(*question, kitchen.kitchen);
    const bool too_strong = sheet.taken.answer.sort == larder::BrineAnswer::Sort::too_strong;
    return finish(
        options.json
            ? render::brine_json(sheet, asked)
            : render::brine_text(sheet, asked, result_style(kitchen.kitchen.shown, options.full)),
        too_strong ? status::something_found : status::nothing_to_say);
}

int run(const Command& command, const std::vector<std::string>& words) {
    BrineOptions options;
    std::vector<std::string> positionals;
    Options reader(command);
    reader.words(positionals);
    reader.text("--salt", options.salt);
    reader.text("--of", options.of);
    reader.text("--at", options.at);
    reader.text("--kitchen", options.kitchen);
    reader.units(options.units);
    reader.flag("--full", options.full);
    reader.flag("--json", options.json);
    if (const auto failed = reader.parse(words)) return *failed;
    options.words = joined(positionals);
    return answer(options);
}

constexpr std::array flags{
    Flag{"--salt", "AMOUNT", "the salt that is to hand"},
    Flag{"--of", "brine|water",
         "what % and g/L are of; the finished brine if not said, or the water where an amount of "
         "water is named"},
    Flag{"--at", "TEMPERATURE", "of the brine, 0 to 30 °C; 20 °C if not said"},
    Flag{"--kitchen", "FILE",
         "the kitchen whose scales are used, instead of the kitchen.jarful in this folder or in a "
         "folder above it"},
    units_flag,
    full_flag,
    json_flag,
};
constexpr std::array<std::string_view, 8> examples{
    "jarful brine 1.5 L at 3.5 %",      "jarful brine 2 L of water at 5 %",
    "jarful brine --salt 40g at 3.5 %", "jarful brine --salt 40g in 1 L of water",
    "jarful brine 1 L from 5 % to 2 %", "jarful brine 40 salometer",
    "jarful brine 1.036 sg --at 15C",   "jarful brine 50 g/L --of water",
};

} // namespace

const Command brine_command{
    .name = "brine",
    .usage = "[AMOUNT [of water]] [at STRENGTH | from STRENGTH to STRENGTH] [OPTIONS]",
    .about = "salt water: how much of what, at which strength",
    .more =
        "AMOUNT is of the finished brine, or of the water if that is said. STRENGTH is 5 %, 5 % "
        "of water, 5 % of brine, 50 g/L, 40 salometer, 5 baume or 1.036 sg; alone, it is shown "
        "in all of these. Exit status: 0, 1 if more salt is asked for than dissolves, 2 if the "
        "question was not understood.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
