#include "cli/help.hpp"

#include "cli/commands.hpp"
#include "engine/render/page.hpp"

#include <array>

namespace jarful::cli {

namespace {

void print_flag(render::Page& page, const Flag& flag) {
    std::string name(flag.name);
    if (!flag.value.empty()) name += " " + std::string(flag.value);
    page.row({{.text = name, .width = 22}, {.text = std::string(flag.about), .width = 52}});
}

constexpr std::array everywhere_flags{
    Flag{"--help", "", "what a command does, with examples"},
    Flag{"--version", "", "the version of the program"},
};

} // namespace

std::span<const Flag> everywhere() {
    return everywhere_flags;
}

std::string help_text(bool colour) {
    render::Page page({.colour = colour});
    page.heading("Jarful");
    page.paragraph(about_program, 0, 0);
    page.heading("Commands");
    for (const Command* command : commands()) {
        page.row({{.text = std::string(command->name), .width = 8, .bold = true},
                  {.text = std::string(command->about), .width = 66}});
    }
    page.row({{.text = "help", .width = 8, .bold = true},
              {.text = "this page, or with a command's name what that one does", .width = 66}});
    page.heading("Everywhere");
    for (const Flag& flag : everywhere())
        print_flag(page, flag);
    page.gap();
    page.paragraph(about_streams, 0, 0);
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
    if (!command.flags.empty()) page.heading("Options");
    for (const Flag& flag : command.flags)
        print_flag(page, flag);
    page.heading("Examples");
    for (const std::string_view example : command.examples)
        page.raw("  " + std::string(example));
    return page.text();
}

} // namespace jarful::cli
