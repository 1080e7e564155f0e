#include "engine/assist/meanings.hpp"

#include <array>

namespace jarful::assist {

namespace {

struct Meaning {
    std::string_view word;
    std::string_view meaning;
};

constexpr std::array statements{
    Meaning{"language", "The version of the language; 1 is the default."},
    Meaning{"recipe", "The header of a recipe: its title, and its version as a whole number."},
    Meaning{"kitchen", "The header of a kitchen: scales and jars for the recipes beside it."},
    Meaning{"house", "The header of a house file: what the house knows better than the larder."},
    Meaning{"batch", "The header of the record of one batch, and the recipe that it was made by."},
    Meaning{"kind",
            "The kind of ferment, with its method where there are several: by it the salt is "
            "judged."},
    Meaning{"by", "Who wrote the recipe."},
    Meaning{"source", "Where the recipe comes from."},
    Meaning{"note", "A remark."},
    Meaning{"material",
            "A material of your own, or one in place of the larder's: its role, and what "
            "is known of its density, salt, water and piece."},
    Meaning{"based", "Inherits the lines of another recipe of the book."},
    Meaning{"without", "Leaves out the inherited line of that name."},
    Meaning{"given",
            "A weight that is known at the counter and can be set from outside; everything "
            "else follows from it."},
    Meaning{"total", "A weight that `share` lines split into parts."},
    Meaning{"share", "A part of a `total`: goes on a scale."},
    Meaning{"weigh", "Goes on a scale. A volume is made a weight by its material's density."},
    Meaning{"count", "Whole pieces."},
    Meaning{"let", "A working value; nobody weighs it."},
    Meaning{"measure", "Weighed later, when it is there: about so much until then."},
    Meaning{"brine",
            "A stock of salt and water that is made beforehand; only what is poured counts."},
    Meaning{"fill", "The room that the batch takes, as a volume."},
    Meaning{"headspace", "What stays free at the top of a jar: a percentage, or a height."},
    Meaning{"topup", "The brine to add when the juice does not cover."},
    Meaning{"cap", "A layer on top, of salt for example; judged with and without."},
    Meaning{"hold", "A bound of your own, with its reason; judged as the salt is."},
    Meaning{"step", "A step of the method. `{salt}` prints a value."},
    Meaning{"rest", "A time to wait."},
    Meaning{"tend", "What is looked after later: how often, or on which day."},
    Meaning{"ready", "The days on which it is ready, and at which temperature."},
    Meaning{"keep", "Where and for how long it keeps."},
    Meaning{"scale", "A scale: its step, what it carries, and how far it may be off."},
    Meaning{"jar", "A jar: what it holds brimful, and how wide it is."},
    Meaning{"crock", "A crock: what it holds brimful, and how wide it is."},
    Meaning{"spoons",
            "Whose spoons and cups a bare `tbsp` or `cup` means: us, metric or imperial."},
    Meaning{"units", "What weights, volumes and temperatures are shown in: us or metric."},
    Meaning{"room", "How warm the kitchen is."},
    Meaning{"range",
            "The house's own salt range for a kind. Wider than the published one only with "
            "a reason."},
    Meaning{"begun", "The day on which the jar was packed: day 0."},
    Meaning{"left_out", "An optional line that was left out."},
    Meaning{"vessel", "A jar of the kitchen that the batch stands in."},
    Meaning{"planned", "What the plan said."},
    Meaning{"weighed", "What was really weighed, and when."},
    Meaning{"noted", "What was seen, measured or done on a day."},
    Meaning{"corrected", "Puts right something that was noted or weighed."},
};

constexpr std::array words{
    Meaning{"of", "Multiplies: `2.2 % of cabbage`. A sum behind it needs parentheses."},
    Meaning{"per", "So much with every: `1.5 g per kg of cabbage`."},
    Meaning{"as", "What a line is made of: a material of the larder, or a brine of the recipe."},
    Meaning{"optional", "May be left out; the salt is judged with and without it."},
    Meaning{"discarded", "Weighed, used and poured off again."},
    Meaning{"keeps", "How much of the salt stays when the line is poured off."},
    Meaning{"counts", "`counts as ROLE` overrules what the material is in the jar."},
    Meaning{"replaces", "What this is weighed in place of."},
    Meaning{"about", "What is expected until it is weighed."},
    Meaning{"make", "How much of the brine is made."},
    Meaning{"each", "`each jar`: so many in every jar."},
    Meaning{"between", "Both bounds."},
    Meaning{"every", "How often."},
    Meaning{"reads", "The step of the scale's display."},
    Meaning{"within", "How far the display may be off."},
    Meaning{"holds", "What the vessel takes up to its very rim, with `brimful`."},
    Meaning{"across", "The inner width."},
    Meaning{"have", "How many there are."},
    Meaning{"weights", "The room that the weights in the vessel take."},
    Meaning{"version", "The recipe's version, a whole number."},
    Meaning{"on", "`based on`, or the day of something in a record."},
    Meaning{"is", "Before the role of a material."},
    Meaning{"density",
            "How much of the material goes into a spoon or a jar, as a weight by volume."},
    Meaning{"piece", "What one piece of the material weighs."},
    Meaning{"section", "The inner area of the vessel, where it is not round."},
    Meaning{"brimful", "Up to the very rim."},
    Meaning{"up", "`up to`: the most that the scale carries."},
    Meaning{"to", "The end of a span, or the most that a scale carries."},
    Meaning{"from", "The day on which it begins."},
    Meaning{"at", "A bound (`at least`, `at most`), or a temperature."},
    Meaning{"least", "`at least`: the lower bound."},
    Meaning{"most", "`at most`: the upper bound."},
    Meaning{"for", "For how long."},
    Meaning{"day", "A day, counted from the day on which the jar was packed."},
    Meaning{"and", "Both: of two bounds, or of two conditions."},
    Meaning{"or", "One of two conditions, or both."},
    Meaning{"not", "The condition does not hold."},
    Meaning{"then", "The value if the condition holds."},
    Meaning{"else", "The value if the condition does not hold."},
    Meaning{"true", "Holds."},
    Meaning{"false", "Does not hold."},
    Meaning{"did", "What was done on that day."},
    Meaning{"filled", "How much brine was added on that day."},
    Meaning{"if", "`if CONDITION then A else B`; inside a longer expression in parentheses."},
    Meaning{"vegetable", "A role: counts as vegetable; the salt is a share of these."},
    Meaning{"salt", "A role: counts with its salt content."},
    Meaning{"water", "A role: counts as liquid that is added."},
    Meaning{"aromatic", "A role: spices and herbs; they count in `everything` alone."},
    Meaning{"seasoning", "A role: brings salt and water of its own."},
    Meaning{"acid", "A role: vinegar and its like; counts as liquid."},
    Meaning{"other", "A role: counts in `everything` alone."},
    Meaning{"all_produce", "The weight of all vegetables in the jar."},
    Meaning{"all_salt", "The weight of all salt in the jar."},
    Meaning{"all_water", "The weight of all liquid that was added."},
    Meaning{"everything", "The weight of everything in the jar."},
    Meaning{"burp", "A task: let the gas out."},
    Meaning{"skim", "A task: take off what floats."},
    Meaning{"press", "A task: press it under the brine."},
    Meaning{"stir", "A task: stir."},
    Meaning{"turn", "A task: turn the jar or its contents."},
    Meaning{"top_up", "A task: add brine."},
    Meaning{"rinse", "A task: rinse."},
    Meaning{"look", "A task: look."},
    Meaning{"taste", "A task: taste."},
    Meaning{"test", "A task: test the pH."},
};

constexpr std::array functions{
    FunctionForm{"min", "min(A, B, …)", {"A", "B, …"}, "The least of two values or more."},
    FunctionForm{"max", "max(A, B, …)", {"A", "B, …"}, "The greatest of two values or more."},
    FunctionForm{"abs", "abs(A)", {"A", ""}, "The value without its sign."},
    FunctionForm{"sqrt", "sqrt(A)", {"A", ""}, "The square root."},
    FunctionForm{
        "round",
        "round(A, STEP)",
        {"A", "STEP"},
        "To the nearest whole number of steps; halves away from zero. A plain number needs "
        "no step."},
    FunctionForm{"floor",
                 "floor(A, STEP)",
                 {"A", "STEP"},
                 "Down to a whole number of steps. A plain number needs no step."},
    FunctionForm{"ceil",
                 "ceil(A, STEP)",
                 {"A", "STEP"},
                 "Up to a whole number of steps. A plain number needs no step."},
    FunctionForm{
        "cover",
        "cover(PRODUCE, PACKED)",
        {"PRODUCE", "PACKED"},
        "The water that fills the gaps of the produce when it is packed at this density; in "
        "a vessel, up to its headspace."},
};

template <std::size_t N>
std::string_view meaning_in(const std::array<Meaning, N>& table, std::string_view word) {
    for (const Meaning& one : table)
        if (one.word == word) return one.meaning;
    return {};
}

} // namespace

std::string_view statement_meaning(std::string_view word) {
    return meaning_in(statements, word);
}

std::string_view word_meaning(std::string_view word) {
    if (const FunctionForm* function = function_form(word)) return function->about;
    return meaning_in(words, word);
}

const FunctionForm* function_form(std::string_view name) {
    for (const FunctionForm& one : functions)
        if (one.name == name) return &one;
    return nullptr;
}

} // namespace jarful::assist
