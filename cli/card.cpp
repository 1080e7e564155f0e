#include "cli/commands.hpp"
#include "cli/options.hpp"
#include "cli/page_address.hpp"
#include "cli/request.hpp"
#include "cli/tending.hpp"
#include "cli/terminal.hpp"
#include "cli/writing.hpp"
#include "engine/plan/plan.hpp"
#include "engine/render/card_pages.hpp"
#include "engine/render/mark.hpp"

#include <algorithm>
#include <array>

namespace jarful::cli {

namespace {

struct CardOptions {
    std::string recipe; ///< a path, "-", or a name from the book
    RequestWords request;
    std::optional<std::string> kitchen, start, output, address;
    std::optional<render::Units> units;
    bool force = false; ///< replace whatever file is there
    enum class Form : std::uint8_t { html, svg, markdown, label } form = Form::html;
};
using Form = CardOptions::Form;

int no_card(const std::string& why) {
    complain("No card was made: " + why);
    return status::not_done;
}

std::string laid_out(const plan::WeighOut& out, const render::CardTimes& times,
                     const CardOptions& options, const render::CardAddress& address) {
    if (options.form == Form::label) return labels_html(make_labels(out, times, out.shown));
    const render::Card card = make_card(out, times, out.shown);
    if (options.form == Form::svg) return card_svg(card);
    if (options.form == Form::markdown) return card_markdown(card, address);
    return card_html(card, address);
}

std::string_view what_it_is(Form form) {
    switch (form) {
    case Form::label:
        return render::made::labels;
    case Form::svg:
        return render::made::picture;
    case Form::markdown:
        return render::made::card_text;
    case Form::html:
        break;
    }
    return render::made::card;
}

/// On standard output, or into a file, where it replaces nothing but what was made as the same.
int put(const std::string& text, const CardOptions& options, int status) {
    if (!options.output || *options.output == "-") return finish(text, status);
    const auto unwritten =
        put_files({{*options.output, text, std::string(what_it_is(options.form))}}, options.force);
    if (!unwritten) {
        const bool printed = options.form == Form::html || options.form == Form::label;
        return finish("Written: " + *options.output + "\n" +
                          (printed ? "Next: open it in a browser, and print it from there.\n" : ""),
                      status);
    }
    complain(unwritten_words(options.form == Form::label ? "The sheet of labels" : "The card",
                             *unwritten));
    return status::not_done;
}

/// The address of the page with this batch, as it goes on the card; empty if there is none to be.
std::optional<render::CardAddress> address_of(const CardOptions& options,
                                              const language::Document& recipe,
                                              const plan::Request& request, std::string& why) {
    if (!options.address) return render::CardAddress{};
    if (!is_address(*options.address)) {
        why = no_address(*options.address);
        return std::nullopt;
    }
    const auto fragment =
        page_fragment(recipe, options.request, request, options.start, options.units, why);
    if (!fragment) return std::nullopt;
    return with_code(*options.address + (fragment->empty() ? "" : "#") + *fragment, why);
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
    std::optional<Ready> ready =
        make_ready(options.recipe, {options.kitchen, options.units}, "No card was made");
    if (!ready) return status::not_done;
    if (!asked_well) return no_card("say again what you have.");
    plan::RequestFindings found;
    LoadedFile& recipe = ready->recipe;
    std::string why;
    const auto address = address_of(options, recipe.document, request, why);
    if (!address) return no_card(why);
    const auto out = plan::weigh(recipe.document, ready->kitchen, request, recipe.findings, found);
    recipe.findings.sort();
    explain_aside(recipe.document.source, recipe.findings);
    explain_request(options.request, found);
    if (!out) return no_card(recipe.ok() ? "say again what you have." : "mend the recipe first.");
    return put(laid_out(*out,
                        render::card_times(*out, kitchen::room_celsius(ready->kitchen), start),
                        options, *address),
               options, status_of(*out));
}

bool ends_in(std::string_view path, std::initializer_list<std::string_view> endings) {
    std::string small(path);
    std::transform(small.begin(), small.end(), small.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
    return std::any_of(endings.begin(), endings.end(),
                       [&](std::string_view ending) { return small.ends_with(ending); });
}

/// The form that a file's name says.
Form form_of(const std::string& path) {
    if (ends_in(path, {".svg"})) return Form::svg;
    if (ends_in(path, {".md", ".markdown"})) return Form::markdown;
    return Form::html;
}

/// Whether a file of this name would be taken for something else than it holds; a name without an
/// ending says nothing.
bool misnamed(const std::string& path, Form form) {
    const std::string name = path.substr(path.find_last_of('/') + 1);
    if (path == "-" || name.find('.', 1) == std::string::npos) return false;
    switch (form) {
    case Form::svg:
        return !ends_in(path, {".svg"});
    case Form::markdown:
        return !ends_in(path, {".md", ".markdown", ".txt"});
    case Form::html:
    case Form::label:
        return !ends_in(path, {".html", ".htm", ".xhtml"});
    }
    return false;
}

/// What to do about a name that does not fit.
std::string right_name(const std::string& path) {
    if (ends_in(path, {".pdf", ".ps"}))
        return in_quotes(path) +
               " would hold no such document: a card is a page. Write it to a file that ends in "
               ".html, open that in a browser, and print it into a PDF from there.";
    return "What is written is not what the name " + in_quotes(path) +
           " says. A page ends in .html, a picture in .svg (--svg), Markdown in .md (--md).";
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
    reader.flag("--force", options.force);
    reader.text("--address", options.address);
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
    if (options.output && misnamed(*options.output, options.form))
        return no_card(right_name(*options.output));
    if (options.address && (options.form == Form::svg || options.form == Form::label))
        return usage_fault(
            "--address goes on a page or into Markdown, not on a picture or a label.", command);
    return answer(options);
}

constexpr std::array flags{
    Flag{"--html", "",
         "a page that prints on one sheet or two, which is what comes if nothing is said"},
    Flag{"--svg", "", "a picture of the numbers, the salt and the jars"},
    Flag{"--md", "", "Markdown, without drawings"},
    Flag{"--label", "", "labels for the jars, several to a sheet, as a page"},
    Flag{"--start", "DATE", "the day of packing, as in 2026-11-25; otherwise days are numbered"},
    Flag{"-o", "FILE",
         "write it to this file, as a picture if it ends in .svg, as Markdown if in .md; - for "
         "standard output"},
    force_flag,
    Flag{
        "--address", "URL",
        "where the recipe's page stands (`jarful page`): put on the card with this batch, and with "
        "a code for a telephone's camera"},
    without_flag,
    yes_flag,
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
        "the cautions. The jars are chosen from the kitchen's own as `jarful jars` does, unless "
        "you name them, as in jar=tall,squat. A card "
        "is one file that needs no other, for a printer, a phone or a screen reader. Exit status: "
        "0 if the salt and the bounds of the house are kept and the jars take it all, 1 if not or "
        "if it cannot be told, 2 if no card was made.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
