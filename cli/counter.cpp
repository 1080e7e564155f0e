#include "engine/plan/counter.hpp"

#include "cli/line_editor.hpp"
#include "cli/request.hpp"
#include "cli/terminal.hpp"
#include "engine/render/counter_report.hpp"

namespace jarful::cli {

namespace {

void explain_refusals(const language::Source& recipe, const plan::CounterReply& reply) {
    for (const plan::CounterReply::Refusal& refusal : reply.refusals) {
        explain_aside(refusal.text.empty() ? recipe : request_source(refusal.text),
                      refusal.findings);
    }
}

} // namespace

int run_counter(const CounterOptions& options) {
    plan::Request request;
    const bool asked_well = read_request(options.request, request);
    std::optional<Ready> ready =
        make_ready(options.recipe, options.kitchen, "There is nothing to talk about");
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
    const render::TextStyle style = result_style(options.units);
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
    const plan::WeighOut& last = *counter.now();
    const bool too_much =
        !last.chosen_jars.empty() && last.room && last.room->fill_ml > last.usable_ml * (1 + 1e-9);
    return last.verdict == plan::Verdict::inside && !last.no_reading && !too_much
               ? status::nothing_to_say
               : status::something_found;
}

} // namespace jarful::cli
