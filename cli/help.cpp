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
    kitchen_flag,
    Flag{"--units", "metric|us|both", "how to print weights and volumes; metric if not said"},
    json_flag,
};
constexpr std::array<std::string_view, 5> weigh_examples{
    "jarful weigh winter-kraut",
    "jarful weigh winter-kraut cabbage=1.84kg",
    "jarful weigh winter-kraut cabbage=\"4 lb 1 oz\" --units both",
    "jarful weigh kraut-with-apple without apple",
    "jarful weigh - < recipe.jarful",
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

constexpr std::array all_commands{
    Command{"weigh", "RECIPE [NAME=AMOUNT …] [without NAME] [OPTIONS]",
            "what to put on the scale for the produce that you have",
            "RECIPE is a path, the name of a recipe of the book without its ending, or - for "
            "standard input. NAME=AMOUNT sets what the recipe calls given; several weighings may "
            "be added up, as in cabbage=4.2kg+3.9kg. Exit status: 0 if the salt and the bounds of "
            "the house are kept, 1 if they are not or cannot be told, 2 if nothing was weighed.",
            weigh_flags, weigh_examples},
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
