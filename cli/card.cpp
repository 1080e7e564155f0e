#include "cli/commands.hpp"
#include "cli/options.hpp"
#include "cli/request.hpp"
#include "cli/terminal.hpp"
#include "cli/writing.hpp"
#include "engine/render/card_pages.hpp"

#include <algorithm>
#include <array>

namespace jarful::cli {

namespace {

struct CardOptions {
    std::string recipe; ///< a path, "-", or a name from the book
    RequestWords request;
    std::optional<std::string> kitchen, start, output;
    render::Units units = render::Units::metric;
    enum class Form : std::uint8_t { html, svg, markdown, label } form = Form::html;
};
using Form = CardOptions::Form;

int no_card(const std::string& why) {
    complain("No card was made: " + why);
    return status::not_done;
}

/// The jars are chosen from the kitchen's own, unless the cook names some or asks how much it takes
/// to fill a room, or there are none to choose from.
bool chooses_jars(const plan::Request& request, const kitchen::Kitchen& kitchen) {
    const auto about_room = [](const plan::Setting& setting) {
        return setting.name == "jar" || setting.name == "fill";
    };
    return !kitchen.vessels.empty() &&
           std::none_of(request.settings.begin(), request.settings.end(), about_room);
}

/// The kitchen with only those of its jars that were named, each as often as it was.
kitchen::Kitchen with_only(kitchen::Kitchen kitchen, const std::vector<std::string>& names) {
    for (kitchen::Vessel& vessel : kitchen.vessels)
        vessel.have = static_cast<int>(std::count(names.begin(), names.end(), vessel.name));
    return kitchen;
}

/// A batch in jars, in those with less air where there is a choice; without jars where the recipe
/// does not say what room it takes.
std::optional<plan::WeighOut> weighed(Ready& ready, plan::Request& request,
                                      plan::RequestFindings& found) {
    request.choose_jars = chooses_jars(request, ready.kitchen);
    if (request.choose_jars) {
        language::Findings findings = ready.recipe.findings;
        plan::RequestFindings asked;
        auto out = plan::weigh(ready.recipe.document, ready.kitchen, request, findings, asked);
        if (out && out->jar_choice && !out->jar_choice->less_air.empty()) {
            ready.kitchen = with_only(std::move(ready.kitchen), out->jar_choice->less_air);
            findings = ready.recipe.findings;
            asked = {};
            out = plan::weigh(ready.recipe.document, ready.kitchen, request, findings, asked);
        }
        const auto& all = findings.all();
        const bool only_room = std::any_of(
            all.begin(), all.end(), [](const auto& finding) { return finding.code == "no-fill"; });
        if (out || !only_room) {
            ready.recipe.findings = std::move(findings);
            found = std::move(asked);
            return out;
        }
        request.choose_jars = false;
    }
    return plan::weigh(ready.recipe.document, ready.kitchen, request, ready.recipe.findings, found);
}

render::CardTimes times_of(const plan::WeighOut& out, const kitchen::Kitchen& kitchen,
                           std::optional<tend::Date> start) {
    constexpr double zero_celsius = 273.15;
    std::optional<double> room;
    if (kitchen.room_kelvin) room = *kitchen.room_kelvin - zero_celsius;
    render::CardTimes times;
    times.dated = start.has_value();
    // Without a day of packing any will do: days are then told by their numbers.
    constexpr tend::Date any{std::chrono::year{2000}, std::chrono::January, std::chrono::day{1}};
    times.schedule =
        tend::make_schedule(out.kind, out.method, out.method_lines, start.value_or(any), room);
    return times;
}

std::string laid_out(const plan::WeighOut& out, const render::CardTimes& times,
                     const CardOptions& options) {
    if (options.form == Form::label) return labels_html(make_labels(out, times, options.units));
    const render::Card card = make_card(out, times, options.units);
    if (options.form == Form::svg) return card_svg(card);
    if (options.form == Form::markdown) return card_markdown(card);
    return card_html(card);
}

/// On standard output, or into a file, where it replaces nothing of another sort.
int put(const std::string& text, const CardOptions& options, int status) {
    if (!options.output || *options.output == "-") return finish(text, status);
    // A page begins with its kind of document, Markdown with the title.
    const std::string beginning = text.substr(0, text.find('\n'));
    const auto fault = put_file(*options.output, text, beginning);
    if (!fault) return status;
    complain("The card was not written to " + in_quotes(*options.output) + ". " + fault->message +
             " " + fault->advice);
    return status::not_done;
}

int answer(const CardOptions& options) {
    std::optional<tend::Date> start;
    if (options.start) {
        start = tend::read_date(*options.start);
        if (!start)
            return no_card(in_quotes(*options.start) +
                           " is no day of a calendar. Write it as in --start 2026-11-25.");
    }
    plan::Request request;
    const bool asked_well = read_request(options.request, request);
    std::optional<Ready> ready = make_ready(options.recipe, options.kitchen, "No card was made");
    if (!ready) return status::not_done;
    if (!asked_well) return no_card("say again what you have.");
    plan::RequestFindings found;
    const auto out = weighed(*ready, request, found);
    LoadedFile& recipe = ready->recipe;
    recipe.findings.sort();
    explain_aside(recipe.document.source, recipe.findings);
    explain_request(options.request, found);
    if (!out) return no_card(recipe.ok() ? "say again what you have." : "mend the recipe first.");
    const bool too_much = out->jar_choice && out->jar_choice->unplaced_ml > 0;
    const int status = too_much ? status::something_found : status_of(*out);
    return put(laid_out(*out, times_of(*out, ready->kitchen, start), options), options, status);
}

/// The form that a file's name says.
Form form_of(const std::string& path) {
    if (path.ends_with(".svg")) return Form::svg;
    if (path.ends_with(".md")) return Form::markdown;
    return Form::html;
}

int run(const Command& command, const std::vector<std::string>& words) {
    CardOptions options;
    Options reader(command);
    reader.recipe(options.recipe, options.request);
    reader.texts("--poured", options.request.poured);
    reader.text("--for", options.request.moving);
    reader.text("--kitchen", options.kitchen);
    reader.text("--start", options.start);
    reader.units(options.units);
    reader.text("-o", options.output);
    std::array<bool, 4> asked{};
    reader.flag("--html", asked[0]);
    reader.flag("--svg", asked[1]);
    reader.flag("--md", asked[2]);
    reader.flag("--label", asked[3]);
    if (const auto failed = reader.parse(words)) return *failed;
    if (std::count(asked.begin(), asked.end(), true) > 1)
        return usage_fault("Only one of --html, --svg, --md and --label can be asked for at once.",
                           command);
    const auto found = std::find(asked.begin(), asked.end(), true);
    options.form = found == asked.end() ? form_of(options.output.value_or(""))
                                        : static_cast<Form>(found - asked.begin());
    return answer(options);
}

constexpr std::array flags{
    Flag{"--html", "", "a page that prints on one sheet, which is what comes if nothing is said"},
    Flag{"--svg", "", "a picture of the numbers, the salt and the jars"},
    Flag{"--md", "", "Markdown, without drawings"},
    Flag{"--label", "", "labels for the jars, several to a sheet, as a page"},
    Flag{"--start", "DATE", "the day of packing, as in 2026-11-25; otherwise days are numbered"},
    Flag{"-o", "FILE",
         "write it to this file, as a picture if it ends in .svg, as Markdown if in .md; - for "
         "standard output"},
    without_flag,
    Flag{"--for", "NAME", "what may move to answer a question; everything else stays"},
    Flag{"--poured", "NAME=AMOUNT",
         "what really went in, and is judged in place of the recipe's; may be given again"},
    kitchen_flag,
    units_flag,
};
constexpr std::array<std::string_view, 5> examples{
    "jarful card winter-kraut -o winter-kraut.html",
    "jarful card winter-kraut cabbage=1.84kg --start 2026-11-25 -o kraut.html",
    "jarful card half-sours jar=tall,tall --units both -o half-sours.html",
    "jarful card winter-kraut --label --start 2026-11-25 -o labels.html",
    "jarful card winter-kraut -o winter-kraut.svg",
};

} // namespace

const Command card_command{
    .name = "card",
    .usage = "RECIPE [NAME=AMOUNT …] [without NAME] [OPTIONS]",
    .about = "a card to cook from, and labels for the jars",
    .more =
        "The numbers to wait for, the jars and the salt drawn to scale, the method, the days and "
        "the cautions. The jars are chosen from the kitchen's own as `jarful jars` does, those "
        "with less air where there is a choice, unless you name them, as in jar=tall,squat. A card "
        "is one file that needs no other, for a printer, a phone or a screen reader. Exit status: "
        "0 if the salt and the bounds of the house are kept and the jars take it all, 1 if not or "
        "if it cannot be told, 2 if no card was made.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
