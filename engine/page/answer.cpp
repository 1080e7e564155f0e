#include "engine/page/answer.hpp"

#include "engine/appraise/appraise.hpp"
#include "engine/page/counter_steps.hpp"
#include "engine/page/problems.hpp"
#include "engine/page/question.hpp"
#include "engine/page/recipe.hpp"
#include "engine/page/results.hpp"
#include "engine/page/spoons.hpp"
#include "engine/plan/packing.hpp"
#include "engine/plan/trace.hpp"
#include "engine/render/appraise_report.hpp"
#include "engine/render/card_pages.hpp"
#include "engine/render/json_weigh.hpp"
#include "engine/render/tend_report.hpp"
#include "engine/units/amount.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace jarful::page {

struct Session::State {
    PageRecipe recipe;
};

namespace {

constexpr int nothing_to_say = 0;
constexpr int something_found = 1;
constexpr int not_done = 2;

// ---- The reader's own scale and jar ----

kitchen::Vessel own_jar(const ReaderJar& reader) {
    kitchen::Vessel jar;
    jar.name = "mine";
    jar.brimful_ml = reader.brimful_ml;
    jar.have = reader.have.value_or(1);
    if (reader.across_cm)
        jar.area_cm2 = std::numbers::pi / 4 * *reader.across_cm * *reader.across_cm;
    return jar;
}

kitchen::Kitchen kitchen_for(const kitchen::Kitchen& of_page, const WeighQuestion& question) {
    kitchen::Kitchen kitchen = of_page;
    if (question.step_g) {
        kitchen::Scale scale;
        scale.name = "mine";
        scale.step_g = *question.step_g;
        // As little as a pocket scale carries, as much as a bench scale does.
        scale.capacity_g = *question.step_g < 0.5 ? 500 : 5000 * std::max(1.0, *question.step_g);
        scale.tolerance_g = *question.step_g;
        kitchen.scales = {scale};
        // A scale that reads less than grams stands beside one that carries the bowl.
        if (*question.step_g < 0.5) kitchen.scales.push_back({"bowl", 1, 5000, 1});
    }
    if (question.jar) {
        if (question.jar->name.empty()) {
            kitchen.vessels = {own_jar(*question.jar)};
        } else {
            std::erase_if(kitchen.vessels, [&](const kitchen::Vessel& vessel) {
                return vessel.name != question.jar->name;
            });
            for (kitchen::Vessel& vessel : kitchen.vessels)
                vessel.have = question.jar->have.value_or(vessel.have);
        }
    }
    if (question.room_celsius) kitchen.room_kelvin = *question.room_celsius + units::zero_celsius;
    const bool jar = question.jar && question.jar->name.empty();
    if (question.step_g || jar) {
        kitchen.built_in = false;
        kitchen.name = question.step_g && jar ? "your own scale and jar"
                       : question.step_g      ? "your own scale"
                                              : "your own jar";
    }
    return kitchen;
}

// ---- Weighing ----

void add_found(Problems& problems, const plan::RequestWords& words,
               const plan::RequestFindings& found) {
    problems.add_each(words.settings, found.settings);
    problems.add_each(words.without, found.without);
    problems.add_each(words.poured, found.poured);
    problems.add(words.moving.value_or(""), found.moving);
}

std::string calendar(plan::WeighOut out, const kitchen::Kitchen& kitchen,
                     const WeighQuestion& question, units::Shown units) {
    render::CalendarForm form;
    out.shown = units;
    form.made = question.made.value_or(std::chrono::sys_days{*question.start});
    return render::tend_calendar(
        render::tend_report(out, *question.start, kitchen::room_celsius(kitchen)), form);
}

std::string nothing(const Problems& problems) {
    return page_json(WeighAnswer{.status = not_done, .problems = &problems.all()});
}

/// A card for a reader without a scale: the spoons stand beside the grams, and nothing is said of
/// how far a scale may be off.
void say_spoons(render::Card& card, const std::vector<Spoonful>& spoons) {
    for (render::CardNumbers& numbers : card.numbers) {
        for (render::CardNumber& row : numbers.rows) {
            row.truth.clear();
            row.scale.clear();
            for (const Spoonful& one : spoons) {
                std::string name = render::shown(one.name);
                std::replace(name.begin(), name.end(), '_', ' ');
                if (one.text.empty() || !numbers.weighed || row.name != name) continue;
                row.beside =
                    "without a scale " + one.text + (row.beside.empty() ? "" : "; ") + row.beside;
            }
        }
    }
}

std::string weigh(const PageRecipe& recipe, const WeighQuestion& question) {
    Problems problems;
    problems.add(recipe.found);
    if (!recipe.sound && recipe.found.empty())
        problems.add("bad-question", "No recipe is loaded.", "Load one, then ask.");
    if (!recipe.sound) return nothing(problems);
    // The figures are in g, mL and °C; what is written for the reader is in the reader's units.
    kitchen::Kitchen kitchen = kitchen_for(recipe.kitchen, question);
    const units::Shown units = kitchen::shown_units(kitchen, question.units);
    kitchen.shown = units::Shown::metric;
    plan::Request request;
    plan::RequestFindings found;
    const bool sound = plan::read_request(question.words, request, found);
    add_found(problems, question.words, found);
    if (!sound) return nothing(problems);
    language::Findings findings;
    found = {};
    const auto out = plan::weigh(recipe.document, kitchen, request, findings, found);
    findings.sort();
    problems.add(recipe.document.source, findings);
    add_found(problems, question.words, found);
    if (!out) return nothing(problems);
    // The card is for the reader's eyes: in the reader's units, and it names no scale to who has
    // none.
    kitchen::Kitchen shown_kitchen = kitchen;
    shown_kitchen.shown = units;
    if (question.no_scale)
        for (kitchen::Scale& scale : shown_kitchen.scales)
            scale.name.clear();
    language::Findings said_already;
    plan::RequestFindings found_already;
    const auto again =
        plan::weigh(recipe.document, shown_kitchen, request, said_already, found_already);
    plan::WeighOut shown = again ? *again : *out;
    shown.shown = units;
    render::Card card = render::make_card(
        shown, render::card_times(shown, kitchen::room_celsius(kitchen), question.start), units);
    std::optional<std::vector<Spoonful>> spoons;
    if (question.no_scale) {
        spoons = by_the_spoon(*out, recipe, question.grain,
                              question.spoons.value_or(larder::measures_of(kitchen.spoons)));
        say_spoons(card, *spoons);
    }

    return page_json(WeighAnswer{
        .status = plan::all_well(*out) ? nothing_to_say : something_found,
        .weigh = render::weigh_json(*out),
        .card_html = render::card_body(card).written(),
        .counter = counter_steps(card),
        .calendar = question.start ? calendar(*out, kitchen, question, units) : "",
        .spoons = std::move(spoons),
        .problems = &problems.all(),
    });
}

// ---- Appraising ----

std::string appraise(const AppraiseQuestion& question) {
    Problems problems;
    appraise::Request request;
    appraise::set_kind(request, question.kind);
    std::optional<appraise::Appraisal> appraisal;
    if (appraise::is_page(question.text)) {
        problems.add("page-source", "This is the source of a web page, not a list of ingredients.",
                     "Copy the lines as the page shows them, or save the page and give it to "
                     "`jarful appraise`.");
    } else {
        appraise::Refusal refusal;
        appraisal = appraise::appraise(question.text, request, refusal);
        if (!appraisal) problems.add("not-appraised", refusal.message, refusal.advice);
    }
    AppraiseAnswer answer{.status = not_done, .problems = &problems.all()};
    if (appraisal) {
        const bool inside = appraisal->verdict == appraise::Verdict::inside;
        answer.status = inside ? nothing_to_say : something_found;
        answer.appraise = render::appraise_json(std::span(&*appraisal, 1));
        answer.html = render::appraise_body(*appraisal, question.units).written();
    }
    return page_json(answer);
}

// ---- Loading ----

/// What the recipe's `total` lines come to.
std::vector<Named> totals(const PageRecipe& recipe) {
    std::vector<Named> out;
    for (const language::Line& line : recipe.document.lines) {
        const auto* q = std::get_if<language::Quantity>(&line.statement);
        if (q == nullptr || q->word != language::QuantityWord::total) continue;
        language::Findings findings, of_name;
        plan::RequestFindings found;
        const auto trace = plan::trace(recipe.document, recipe.kitchen, {}, q->name.value, findings,
                                       found, of_name);
        if (!trace || trace->nodes.empty()) continue;
        out.push_back({q->name.value, q->tail.label ? q->tail.label->value : "",
                       trace->nodes.front().value.value});
    }
    return out;
}

std::vector<std::string> optional_names(const language::Document& document) {
    std::vector<std::string> out;
    for (const language::Line& line : document.lines)
        if (const auto* q = std::get_if<language::Quantity>(&line.statement))
            if (q->tail.optional) out.push_back(q->name.value);
    return out;
}

/// What is weighed later.
std::vector<Named> measures(const language::Document& document) {
    std::vector<Named> out;
    for (const language::Line& line : document.lines)
        if (const auto* q = std::get_if<language::Quantity>(&line.statement))
            if (q->word == language::QuantityWord::measure)
                out.push_back({q->name.value, q->tail.label ? q->tail.label->value : ""});
    return out;
}

std::vector<Grain> kinds() {
    std::vector<Grain> out;
    for (const larder::Kind& kind : larder::kinds()) {
        const std::string name(kind.name), title(kind.title);
        if (!kind.method_needed) {
            out.push_back({name, title});
            continue;
        }
        for (const larder::Ruling& ruling : kind.rulings)
            out.push_back({name + " " + std::string(ruling.method),
                           title + ", " + std::string(ruling.title)});
    }
    return out;
}

/// Salt that a reader may have so much left of, and ask what batch it does for.
bool asks_backwards(const plan::Item& item) {
    return item.role == larder::Role::salt && item.word == "weigh" &&
           item.fate == plan::Fate::in_jar;
}

LoadedRecipe loaded_recipe(const PageRecipe& recipe, const plan::WeighOut& out) {
    LoadedRecipe loaded;
    loaded.out = &out;
    loaded.kitchen = &recipe.kitchen;
    for (const plan::Item& item : out.givens)
        loaded.givens.push_back({item.name, item.label, item.exact_g});
    loaded.totals = totals(recipe);
    for (const plan::Item& item : out.items)
        if (asks_backwards(item)) loaded.salts.push_back({item.name, item.label});
    loaded.measures = measures(recipe.document);
    loaded.optional = optional_names(recipe.document);
    loaded.grains = salt_grains();
    loaded.kinds = kinds();
    return loaded;
}

} // namespace

Session::Session()
    : state_(std::make_unique<State>()) {
}
Session::~Session() = default;
Session::Session(Session&&) noexcept = default;
Session& Session::operator=(Session&&) noexcept = default;

std::string Session::load(std::string_view json) {
    Problems problems;
    std::string fault;
    state_->recipe = {};
    const auto request = read_load(json, fault);
    if (!request) problems.add("bad-question", fault, "");
    std::optional<plan::WeighOut> out;
    if (request) {
        state_->recipe = read_recipe(*request);
        problems.add(state_->recipe.found);
        if (state_->recipe.sound) {
            language::Findings findings;
            plan::RequestFindings found;
            out = plan::weigh(state_->recipe.document, state_->recipe.kitchen, {}, findings, found);
            problems.add(state_->recipe.document.source, findings);
        }
    }
    Loaded loaded{.problems = &problems.all()};
    if (out) loaded.recipe = loaded_recipe(state_->recipe, *out);
    return page_load_json(loaded);
}

std::string Session::answer(std::string_view json) const {
    const Question question = read_question(json);
    if (question.weigh) return weigh(state_->recipe, *question.weigh);
    if (question.appraise) return appraise(*question.appraise);
    Problems problems;
    problems.add("bad-question", question.fault, "");
    return nothing(problems);
}

} // namespace jarful::page
