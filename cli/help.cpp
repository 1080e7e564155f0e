#include "cli/help.hpp"

#include "engine/render/page.hpp"

#include <array>

namespace jarful::cli {

namespace {

constexpr Flag kitchen_flag{"--kitchen", "FILE",
                            "the kitchen to use, instead of the kitchen.jarful beside the recipe "
                            "or in a folder above it"};
constexpr Flag json_flag{"--json", "", "the result as JSON, described in docs/schemas"};

constexpr std::array weigh_flags{
    Flag{"--without", "NAME", "leave out an optional line; may be given again"},
    Flag{"--for", "NAME", "what may move to answer a question; everything else stays"},
    Flag{"--poured", "NAME=AMOUNT",
         "what really went in, and is judged in place of the recipe's; may be given again"},
    Flag{"--bowl", "AMOUNT",
         "the empty bowl that all is weighed into: shows what the display says with each thing"},
    kitchen_flag,
    Flag{"--units", "metric|us|both", "how to print weights and volumes; metric if not said"},
    json_flag,
};
constexpr std::array<std::string_view, 9> weigh_examples{
    "jarful weigh winter-kraut",
    "jarful weigh winter-kraut cabbage=1.84kg",
    "jarful weigh winter-kraut cabbage=\"4 lb 1 oz\" --units both",
    "jarful weigh kraut-with-apple without apple",
    "jarful weigh winter-kraut salt=24g",
    "jarful weigh winter-kraut jar=tall,squat --for cabbage",
    "jarful weigh winter-kraut cabbage=1.84kg --poured salt=52g",
    "jarful weigh winter-kraut cabbage=1.84kg --bowl 640g",
    "jarful weigh - < recipe.jarful",
};
constexpr std::array jars_flags{
    Flag{"--without", "NAME", "leave out an optional line; may be given again"},
    kitchen_flag,
    Flag{"--units", "metric|us|both", "how to print weights and volumes; metric if not said"},
    json_flag,
};
constexpr std::array<std::string_view, 3> jars_examples{
    "jarful jars winter-kraut",
    "jarful jars winter-kraut cabbage=4.2kg",
    "jarful jars half-sours cucumbers=1.9kg --json",
};
constexpr Flag units_flag{"--units", "metric|us|both",
                          "how to print weights and volumes; metric if not said"};
constexpr std::array mend_flags{
    Flag{"--poured", "NAME=AMOUNT", "what really went in; may be given again"},
    Flag{"--lost", "NAME=AMOUNT", "so much of it is gone; may be given again"},
    Flag{"--evaporated", "AMOUNT", "water that has gone from an open crock"},
    Flag{"--without", "NAME", "leave out an optional line; may be given again"},
    kitchen_flag,
    units_flag,
    json_flag,
};
constexpr std::array<std::string_view, 4> mend_examples{
    "jarful mend winter-kraut cabbage=1.84kg --poured salt=62g",
    "jarful mend winter-kraut cabbage=1.84kg --poured salt=25g jar=tall,squat",
    "jarful mend winter-kraut cabbage=1.84kg --lost cabbage=600g",
    "jarful mend half-sours --evaporated 120ml",
};
constexpr std::array chart_flags{
    Flag{"--every", "AMOUNT", "the step from row to row; a round one if not said"},
    Flag{"--without", "NAME", "leave out an optional line; may be given again"},
    Flag{"--for", "NAME", "what may move, where the rows go by something that is worked out"},
    kitchen_flag,
    units_flag,
    json_flag,
    Flag{"--csv", "", "the rows for a spreadsheet: grams and millilitres, commas between"},
    Flag{"--markdown", "", "the table as Markdown"},
};
constexpr std::array<std::string_view, 4> chart_examples{
    "jarful chart winter-kraut cabbage=500g..5kg",
    "jarful chart winter-kraut cabbage=500g..5kg --every 250g --markdown",
    "jarful chart winter-kraut salt=10g..60g --csv",
    "jarful chart winter-kraut fill=1L..8L",
};
constexpr std::array brine_flags{
    Flag{"--salt", "AMOUNT", "the salt that is to hand"},
    Flag{"--of", "brine|water",
         "what % and g/L are of; the finished brine if not said, or the water where an amount of "
         "water is named"},
    Flag{"--at", "TEMPERATURE", "of the brine, 0 to 30 °C; 20 °C if not said"},
    Flag{"--kitchen", "FILE",
         "the kitchen whose scales are used, instead of the kitchen.jarful in this folder or in a "
         "folder above it"},
    units_flag,
    json_flag,
};
constexpr std::array<std::string_view, 8> brine_examples{
    "jarful brine 1.5 L at 3.5 %",      "jarful brine 2 L of water at 5 %",
    "jarful brine --salt 40g at 3.5 %", "jarful brine --salt 40g in 1 L of water",
    "jarful brine 1 L from 5 % to 2 %", "jarful brine 40 salometer",
    "jarful brine 1.036 sg --at 15C",   "jarful brine 50 g/L --of water",
};
constexpr std::array check_flags{kitchen_flag, json_flag};
constexpr std::array<std::string_view, 3> check_examples{
    "jarful check",
    "jarful check recipes winter-kraut.jarful",
    "jarful check --json recipes",
};
constexpr std::array ranges_flags{json_flag};
constexpr std::array<std::string_view, 3> ranges_examples{
    "jarful ranges",
    "jarful ranges kraut",
    "jarful ranges --json kimchi",
};

constexpr Flag spoons_flag{"--spoons", "SYSTEM",
                           "us, metric, imperial or label; otherwise the kitchen's, otherwise US "
                           "ones with the figures reaching to the metric ones"};
constexpr Flag this_kitchen_flag{"--kitchen", "FILE",
                                 "the kitchen to use, instead of the kitchen.jarful in this folder "
                                 "or in a folder above it"};
constexpr std::array convert_flags{
    Flag{"--per", "AMOUNT", "what the amount is for: the answer is in percent of that"},
    spoons_flag, this_kitchen_flag, json_flag};
constexpr std::array<std::string_view, 7> convert_examples{
    "jarful convert \"2 tbsp\" \"coarse flake kosher salt\"",
    "jarful convert 500 g caraway seed to tbsp",
    "jarful convert \"3/4 cup\" \"canning salt\" --per \"25 lb\"",
    "jarful convert 4 tbsp canning salt per 1 quart water to %",
    "jarful convert \"10 g/lb\" to %",
    "jarful convert 68F to C",
    "jarful convert - < amounts.txt",
};
constexpr std::array salts_flags{spoons_flag, this_kitchen_flag, json_flag};
constexpr std::array<std::string_view, 2> salts_examples{
    "jarful salts",
    "jarful salts --spoons metric",
};

constexpr std::array trace_flags{
    Flag{"--without", "NAME", "leave out an optional line; may be given again"},
    Flag{"--poured", "NAME=AMOUNT", "what really went in; may be given again"},
    Flag{"--for", "NAME", "the one given that may move for a question"},
    kitchen_flag,
    json_flag,
    Flag{"--dot", "", "the graph of what depends on what, for Graphviz"},
};
constexpr std::array<std::string_view, 4> trace_examples{
    "jarful trace winter-kraut salt",
    "jarful trace winter-kraut salt cabbage=1.84kg",
    "jarful trace half-sours verdict",
    "jarful trace winter-kraut everything --dot | dot -Tsvg > kraut.svg",
};
constexpr std::array counter_flags{
    Flag{"--without", "NAME", "leave out an optional line; may be given again"},
    kitchen_flag,
    Flag{"--units", "metric|us|both", "how to print weights and volumes; metric if not said"},
};
constexpr std::array<std::string_view, 3> counter_examples{
    "jarful counter winter-kraut",
    "jarful counter winter-kraut cabbage=1.84kg",
    "printf 'cabbage=1.84kg\\ncheck\\n' | jarful counter winter-kraut",
};

constexpr std::array appraise_flags{
    Flag{"--kind", "KIND", "the kind of ferment, where it cannot be told; a method may follow it"},
    Flag{"--salt", "SALT",
         "which salt a spoon of plain \"salt\" is, as in \"coarse flake kosher salt\""},
    Flag{"--weighs", "NAME=AMOUNT", "what you have weighed; NAME=AMOUNT alone does as well"},
    Flag{"--as-recipe", "OUT.jarful", "write it as a recipe in grams; - for standard output"},
    Flag{"--units", "metric|us|both", "how to print weights; metric if not said"},
    json_flag,
};
constexpr std::array<std::string_view, 4> appraise_examples{
    "jarful appraise found.txt",
    "jarful appraise found.txt --salt \"coarse flake kosher salt\" cabbage=1.84kg",
    "jarful appraise page.html --as-recipe found.jarful",
    "jarful appraise --json - < found.txt",
};

constexpr std::array all_commands{
    Command{
        "appraise", "[FILE|-] [NAME=AMOUNT …] [OPTIONS]",
        "the salt of a recipe found elsewhere, from its ingredient lines",
        "FILE is a text with the ingredient lines of a recipe, with or without its method, or a "
        "saved web page; standard input, if there is none. Every line is shown as it was "
        "understood. Exit status: 0 if the salt is inside the published range, 1 if it is not, "
        "cannot be told, or the recipe is no ferment, 2 if nothing could be read.",
        appraise_flags, appraise_examples},
    Command{
        "weigh", "RECIPE [NAME=AMOUNT …] [without NAME] [OPTIONS]",
        "what to put on the scale for the produce that you have",
        "RECIPE is a path, the name of a recipe of the book without its ending, or - for "
        "standard input. NAME=AMOUNT sets what the recipe calls given; several weighings may "
        "be added up, as in cabbage=4.2kg+3.9kg. Any other line of the recipe, and fill=1.2L or "
        "jar=tall,squat, asks for the batch that makes it so. Exit status: 0 if the salt and the "
        "bounds of "
        "the house are kept, 1 if they are not or cannot be told, 2 if nothing was weighed.",
        weigh_flags, weigh_examples},
    Command{
        "chart", "RECIPE NAME=FROM..TO [NAME=AMOUNT …] [OPTIONS]",
        "the recipe as a table, to hang beside the scale",
        "A row for each weight (or volume, for fill) from FROM to TO, 60 rows at most. Only "
        "readings whose worst case keeps the salt and the bounds of the house are shown; where "
        "there are none, a dash and the reason. Exit status: 0 if every row holds, 1 if some do "
        "not, 2 if there is no chart.",
        chart_flags, chart_examples},
    Command{
        "mend", "RECIPE [NAME=AMOUNT …] [OPTIONS]",
        "too much or too little went in: what to add to come back",
        "Says what is wrong with what is in the jar by now, and each thing that can be added by "
        "weight to bring it back inside every bound, with the room that it takes. Exit status: 0 "
        "if nothing needs mending, 1 if something does, 2 if nothing was worked out.",
        mend_flags, mend_examples},
    Command{
        "brine", "[AMOUNT [of water]] [at STRENGTH | from STRENGTH to STRENGTH] [OPTIONS]",
        "salt water: how much of what, at which strength",
        "AMOUNT is of the finished brine, or of the water if that is said. STRENGTH is 5 %, 5 % "
        "of water, 5 % of brine, 50 g/L, 40 salometer, 5 baume or 1.036 sg; alone, it is shown "
        "in all of these. Exit status: 0, 1 if more salt is asked for than dissolves, 2 if the "
        "question was not understood.",
        brine_flags, brine_examples},
    Command{"jars", "RECIPE [NAME=AMOUNT …] [without NAME] [OPTIONS]",
            "which of the kitchen's jars a batch goes into, and what goes into each",
            "Everything is placed if it can be, then in the fewest vessels, then with the least "
            "room left empty; none is filled past its headspace. What the recipe fills is said by "
            "its `fill` line. The jars are described in the kitchen. Exit status: 0 if everything "
            "has its place and every jar's salt is inside, 1 if not, 2 if nothing was chosen.",
            jars_flags, jars_examples},
    Command{"trace", "RECIPE NAME [NAME=AMOUNT …] [OPTIONS]",
            "where a number comes from: lines, steps, sources, uncertainty",
            "NAME is a line of the recipe, a constant of the kitchen, all_produce, all_salt, "
            "all_water, everything, fill, headspace, topup, or verdict for the salt that is "
            "judged. Exit status: 0, or 2 if nothing was traced.",
            trace_flags, trace_examples},
    Command{"counter", "RECIPE [NAME=AMOUNT …] [OPTIONS]",
            "a conversation beside the scale: say what changed, see what changes",
            "Say cabbage=1.84kg, jar=tall, salt=24g, why salt, undo, check, help, quit. Lines may "
            "come from a pipe. Exit status: 0 if the salt and the bounds of the house are kept at "
            "the end, 1 if they are not or cannot be told, 2 if there was nothing to begin with.",
            counter_flags, counter_examples},
    Command{"check", "[PATH …] [OPTIONS]", "the salt and the faults of recipes and whole folders",
            "PATH is a recipe, a kitchen, a folder, or - for standard input; the folder that you "
            "are in, if there is none. Exit status: 0 if every file is sound and inside its range, "
            "1 if one is outside or undecided, 2 if one has faults or cannot be read.",
            check_flags, check_examples},
    Command{"ranges", "[KIND] [OPTIONS]", "the salt ranges of every kind of ferment, with sources",
            "With a KIND, that one at length: which figure rules and why, and all figures side by "
            "side.",
            ranges_flags, ranges_examples},
    Command{"convert", "AMOUNT [MATERIAL] [per AMOUNT] [to UNIT] [OPTIONS]",
            "spoons in grams, pounds in kilograms, rates in percent, degrees",
            "The words may stand in quotes or not; - reads a line for each amount from standard "
            "input. A spoon or cup becomes a weight only through a named material, with the least "
            "and the most that it may be. `label` is the rule for nutrition labels: tsp 5 mL, tbsp "
            "15 mL, fl oz 30 mL, cup 240 mL. Exit status: 0 if everything was converted, 2 if "
            "anything was not.",
            convert_flags, convert_examples},
    Command{"salts", "[OPTIONS]", "the salts side by side: a spoon of each, what replaces what",
            "For every salt what a teaspoon and a tablespoon weigh, how many tablespoons replace "
            "one of fine table salt, and what to beware of.",
            salts_flags, salts_examples},
};

void print_flag(render::Page& page, const Flag& flag) {
    std::string name(flag.name);
    if (!flag.value.empty()) name += " " + std::string(flag.value);
    page.row({{.text = name, .width = 22}, {.text = std::string(flag.about), .width = 52}});
}

} // namespace

std::span<const Command> commands() {
    return all_commands;
}

const Command* find_command(std::string_view name) {
    for (const Command& command : all_commands) {
        if (command.name == name) return &command;
    }
    return nullptr;
}

std::string help_text(bool colour) {
    render::Page page({.colour = colour});
    page.heading("Jarful");
    page.paragraph("House recipes for fermented vegetables, scaled to the produce, the jar and the "
                   "scale that you have, with the salt held to published ranges.",
                   0, 0);
    page.heading("Commands");
    for (const Command& command : all_commands) {
        page.row({{.text = std::string(command.name), .width = 8, .bold = true},
                  {.text = std::string(command.about), .width = 66}});
    }
    page.row({{.text = "help", .width = 8, .bold = true},
              {.text = "this page, or with a command's name what that one does", .width = 66}});
    page.heading("Everywhere");
    print_flag(page, {"--help", "", "what a command does, with examples"});
    print_flag(page, {"--version", "", "the version of the program"});
    page.gap();
    page.paragraph("Results go to standard output, everything else to standard error. NO_COLOR "
                   "turns colour off.",
                   0, 0);
    page.gap();
    page.paragraph("Next: jarful weigh RECIPE, or jarful help weigh", 0, 6, true);
    return page.text();
}

std::string help_text(const Command& command, bool colour) {
    render::Page page({.colour = colour});
    page.heading("jarful " + std::string(command.name) + " " + std::string(command.usage));
    page.paragraph(std::string(command.about) + ".", 2, 2);
    page.gap();
    page.paragraph(command.more, 0, 0);
    page.heading("Options");
    for (const Flag& flag : command.flags)
        print_flag(page, flag);
    page.heading("Examples");
    for (const std::string_view example : command.examples)
        page.raw("  " + std::string(example));
    return page.text();
}

} // namespace jarful::cli
