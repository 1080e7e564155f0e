#include "cli/request.hpp"

#include "cli/files.hpp"
#include "cli/terminal.hpp"
#include "engine/plan/packing.hpp"

namespace jarful::cli {

namespace {

constexpr std::string_view bowl_option = "--bowl ";
constexpr std::string_view bowl_setting = "bowl=";

/// Findings about `bowl=640g` as findings about `--bowl 640g`, which is what was typed.
language::Findings as_option(const language::Findings& findings) {
    constexpr std::uint32_t shift = bowl_option.size() - bowl_setting.size();
    const auto moved = [](language::Place place) {
        // What begins before the value is about the option's name.
        const std::uint32_t begin = place.begin < bowl_setting.size() ? 0 : place.begin + shift;
        return language::Place{begin, place.end + shift};
    };
    language::Findings out;
    for (language::Diagnostic found : findings.all()) {
        if (found.place) found.place = moved(*found.place);
        for (language::Related& related : found.related)
            related.place = moved(related.place);
        out.add(std::move(found));
    }
    return out;
}

template <class List>
void explain_each(const std::vector<std::string>& texts, const List& found) {
    for (std::size_t i = 0; i < found.size() && i < texts.size(); ++i)
        explain_aside(request_source(texts[i]), found[i]);
}

} // namespace

language::Source request_source(const std::string& text) {
    return {"the request", text};
}

bool read_request(const RequestWords& words, plan::Request& request) {
    plan::RequestFindings found;
    const bool sound = plan::read_request(words, request, found);
    explain_request(words, found);
    return sound;
}

void explain_request(const RequestWords& words, const plan::RequestFindings& found) {
    explain_each(words.settings, found.settings);
    explain_each(words.without, found.without);
    explain_each(words.poured, found.poured);
    explain_aside(request_source("--for " + words.moving.value_or("")), found.moving);
    explain_aside(request_source(std::string(bowl_option) + words.bowl.value_or("")),
                  as_option(found.bowl));
}

std::optional<Ready> make_ready(const std::string& name, const KitchenWords& words,
                                const std::string& undone) {
    const FoundRecipe found = find_recipe(name);
    if (found.fault) {
        complain(found.fault->message + " " + found.fault->advice);
        return std::nullopt;
    }
    Ready ready;
    ready.recipe = load(found.path);
    LoadedFile& recipe = ready.recipe;
    load::want_recipe(recipe);
    Kitchens kitchens(words);
    const LoadedKitchen& kitchen = kitchens.of(found.path);
    if (!kitchen.ok()) explain_aside(kitchen.file.document.source, kitchen.file.findings);
    if (!recipe.ok()) {
        recipe.findings.sort();
        explain_aside(recipe.document.source, recipe.findings);
        if (recipe.read) complain(undone + ": mend the recipe first.");
        return std::nullopt;
    }
    if (!kitchen.ok()) {
        if (kitchen.file.read)
            complain(undone + (kitchen.path.ends_with("house.jarful")
                                   ? ": mend the house file first."
                                   : ": mend the kitchen first."));
        return std::nullopt;
    }
    ready.kitchen = kitchen.kitchen;
    return ready;
}

std::optional<WeighAnswer> weigh_out(const WeighQuestion& question, const std::string& undone) {
    const auto first = [&](const char* what) {
        complain(undone + ": " + what);
        return std::nullopt;
    };
    plan::Request request;
    if (question.jars_needed) request.vessels = plan::Request::Vessels::needed;
    const bool asked_well = read_request(question.words, request);
    std::optional<Ready> ready = make_ready(question.recipe, question.kitchen, undone);
    if (!ready) return std::nullopt;
    if (!asked_well) return first("say again what you have.");
    LoadedFile& recipe = ready->recipe;
    plan::RequestFindings found;
    auto out = plan::weigh(recipe.document, ready->kitchen, request, recipe.findings, found);
    recipe.findings.sort();
    explain_aside(recipe.document.source, recipe.findings);
    explain_request(question.words, found);
    if (out) return WeighAnswer{*std::move(ready), *std::move(out)};
    if (question.jars_needed && ready->kitchen.vessels.empty()) return first("describe one first.");
    return first(recipe.ok() ? "say again what you have." : "mend the recipe first.");
}

int status_of(const plan::WeighOut& out) {
    return plan::all_well(out) ? status::nothing_to_say : status::something_found;
}

} // namespace jarful::cli
