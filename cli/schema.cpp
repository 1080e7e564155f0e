#include "engine/render/fields/schema.hpp"

#include "cli/commands.hpp"
#include "cli/options.hpp"
#include "cli/terminal.hpp"
#include "engine/page/described.hpp"
#include "engine/units/nearest.hpp"

#include <array>

namespace jarful::cli {

namespace {

std::string listed(const std::vector<const fields::Result*>& results) {
    render::Page page(result_style());
    for (const fields::Result* result : results)
        page.row({{.text = result->notes.name, .width = 14, .bold = true},
                  {.text = result->notes.meaning, .width = page.width() - 18}});
    page.gap();
    page.paragraph("Next: jarful schema weigh", 0, 6, true);
    return page.text();
}

int run(const Command& command, const std::vector<std::string>& words) {
    std::vector<std::string> positionals;
    Options reader(command);
    reader.words(positionals);
    if (const auto failed = reader.parse(words)) return *failed;
    if (positionals.size() > 1) return stray_word(positionals[1], command);
    if (positionals.empty())
        return finish(listed(page::described_results()), status::nothing_to_say);
    const std::string& name = positionals.front();
    if (const fields::Result* result = page::described_result(name))
        return finish(fields::schema(*result), status::nothing_to_say);
    std::vector<std::string_view> known;
    for (const fields::Result* result : page::described_results())
        known.emplace_back(result->notes.name);
    std::string sentence = "There is no result called " + in_quotes(name) + ".";
    if (const auto near = units::nearest(name, known))
        sentence += " Did you mean " + in_quotes(*near) + "?";
    complain(sentence + " `jarful schema` lists them all.");
    return status::not_done;
}

constexpr std::array<std::string_view, 2> examples{
    "jarful schema",
    "jarful schema weigh > weigh.schema.json",
};

} // namespace

const Command schema_command{
    .name = "schema",
    .usage = "[RESULT]",
    .about = "what is in the JSON of each --json, for programs that read it",
    .more = "Without a name, every result that there is. With one, its JSON Schema (draft 7): each "
            "field with its type and its meaning, which are always there, and that there are no "
            "others. It needs no other file. The same files are in docs/schemas.",
    .flags = {},
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
