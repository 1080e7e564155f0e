#include "engine/page/counter_steps.hpp"

namespace jarful::page {

namespace {

void add(std::vector<std::string>& words, const std::string& text) {
    if (!text.empty()) words.push_back(text);
}

CounterStep number_step(const render::CardNumbers& group, const render::CardNumber& row) {
    CounterStep step;
    step.title = row.name;
    step.figure = row.figure;
    step.unit = row.unit;
    add(step.words, group.heading);
    if (!row.scale.empty()) step.words.push_back("On " + row.scale + ".");
    add(step.words, row.beside);
    if (!row.truth.empty()) step.words.push_back("May really be " + row.truth + ".");
    return step;
}

CounterStep portion_step(const render::CardJar& jar, const render::CardPortion& portion) {
    CounterStep step;
    step.title = portion.title;
    if (step.title.ends_with(":")) step.title.pop_back();
    for (const render::CardPart& part : portion.parts)
        step.words.push_back(part.figure + " " + part.name);
    add(step.words, jar.level);
    return step;
}

void add_method(std::vector<CounterStep>& steps, const std::vector<std::string>& method,
                std::size_t first, std::size_t all) {
    for (std::size_t i = 0; i < method.size(); ++i)
        steps.push_back({"Step " + std::to_string(first + i) + " of " + std::to_string(all),
                         "",
                         "",
                         {method[i]}});
}

} // namespace

std::vector<CounterStep> counter_steps(const render::Card& card) {
    std::vector<CounterStep> steps;
    if (!card.obstacles.empty()) steps.push_back({"Not like this", "", "", card.obstacles});
    for (const render::CardNumbers& group : card.numbers) {
        for (const render::CardNumber& row : group.rows)
            steps.push_back(number_step(group, row));
        if (!group.words.empty()) steps.push_back({group.heading, "", "", {group.words}});
    }
    for (const render::CardJar& jar : card.jars)
        for (const render::CardPortion& portion : jar.portions)
            steps.push_back(portion_step(jar, portion));
    const std::size_t all = card.method.size() + card.afterwards.size();
    add_method(steps, card.method, 1, all);
    if (!card.top_up.empty())
        steps.push_back({"If the juice does not cover", "", "", {card.top_up}});
    if (!card.dates.empty()) {
        CounterStep step{card.dates_heading, "", "", {}};
        for (const render::CardDate& date : card.dates)
            step.words.push_back(date.when + ": " + date.what);
        steps.push_back(std::move(step));
    }
    add_method(steps, card.afterwards, card.method.size() + 1, all);
    return steps;
}

} // namespace jarful::page
