#include "engine/plan/counter.hpp"

#include "cli/commands.hpp"
#include "cli/line_editor.hpp"
#include "cli/options.hpp"
#include "cli/request.hpp"
#include "cli/terminal.hpp"
#include "engine/render/counter_report.hpp"

#include <array>

namespace jarful::cli {

namespace {

struct CounterOptions {
    std::string recipe;
    RequestWords request; ///< how the conversation begins
    std::optional<std::string> kitchen;
    std::optional<render::Units> units;
};

void explain_refusals(const language::Source& recipe, const plan::CounterReply& reply) {
    for (const plan::CounterReply::Refusal& refusal : reply.refusals) {
        explain_aside(refusal.text.empty() ? recipe : request_source(refusal.text),
                      refusal.findings);
    }
}

int answer(const CounterOptions& options) {
    plan::Request request;
    const bool asked_well = read_request(options.request, request);
    std::optional<Ready> ready = make_ready(options.recipe, {options.kitchen, options.units},
                                            "There is nothing to talk about");
    if (!ready) return status::not_done;
    if (!asked_well) {
        complain("There is nothing to talk about: say again what you have.");
        return status::not_done;
    }
    if (options.recipe == "-") {
        complain("At the counter standard input is what you say; name the recipe's file.");
        return status::not_done;
    }
    const language::Source& source = ready->recipe.document.source;
    explain_aside(source, ready->recipe.findings);
    plan::Counter counter(ready->recipe.document, ready->kitchen, std::move(request),
                          options.request.settings, options.request.poured);
    const auto lines = line_source("> ", [&](std::string_view typed) {
        plan::Counter::Completion found = counter.complete(typed);
        return WordChoice{found.from, std::move(found.words)};
    });
    const render::TextStyle style = result_style(ready->kitchen.shown);
    const plan::CounterReply first = counter.open();
    explain_refusals(source, first);
    if (!counter.now()) return status::not_done;
    bool written = true;
    if (lines->typed()) {
        written = write_result(counter.now()->title + "\n" + render::counter_text(first, style) +
                               "  help shows what you can say.\n");
    }
    std::string line;
    while (written) {
        const LineSource::Event event = lines->next(line);
        if (event == LineSource::Event::end) break;
        if (event == LineSource::Event::cancelled) continue;
        const plan::CounterReply reply = counter.say(line);
        explain_refusals(source, reply);
        written = write_result(render::counter_text(reply, style));
        if (reply.sort == plan::CounterReply::Sort::quit) break;
    }
    if (!written) return status::not_done;
    return status_of(*counter.now());
}

int run(const Command& command, const std::vector<std::string>& words) {
    CounterOptions options;
    Options reader(command);
    reader.recipe(options.recipe, options.request);
    reader.text("--kitchen", options.kitchen);
    reader.units(options.units);
    if (const auto failed = reader.parse(words)) return *failed;
    return answer(options);
}

constexpr std::array flags{
    without_flag,
    yes_flag,
    kitchen_flag,
    units_flag,
};
constexpr std::array<std::string_view, 3> examples{
    "jarful counter winter-kraut",
    "jarful counter winter-kraut cabbage=1.84kg",
    "printf 'cabbage=1.84kg\\ncheck\\n' | jarful counter winter-kraut",
};

} // namespace

const Command counter_command{
    .name = "counter",
    .usage = "RECIPE [NAME=AMOUNT …] [OPTIONS]",
    .about = "a conversation beside the scale: say what changed, see what changes",
    .more = "Say cabbage=1.84kg, jar=tall, salt=24g, why salt, undo, check, help, quit. Lines may "
            "come from a pipe. Exit status: 0 if the salt and the bounds of the house are kept at "
            "the end, 1 if they are not or cannot be told, 2 if there was nothing to begin with.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
