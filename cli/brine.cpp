#include "cli/commands.hpp"
#include "cli/load.hpp"
#include "cli/request.hpp"
#include "cli/terminal.hpp"
#include "engine/plan/brine_sheet.hpp"
#include "engine/render/brine_report.hpp"

namespace jarful::cli {

namespace {

/// One part of the question; what is wrong with it is explained with its own text.
template <class Read>
auto read_part(const std::string& text, bool& sound, Read read) {
    language::Findings findings;
    auto out = read(text, findings);
    explain_aside(request_source(text), findings);
    sound = sound && out.has_value();
    return out;
}

} // namespace

int run_brine(const BrineOptions& options) {
    bool sound = true;
    std::optional<bool> of_water;
    if (options.of) {
        of_water = *options.of == "water";
        if (*options.of != "water" && *options.of != "brine") {
            complain("A strength is of the brine or of the water. Write --of brine or --of water.");
            return status::not_done;
        }
    }
    std::optional<double> salt;
    if (options.salt) salt = read_part(*options.salt, sound, larder::read_brine_salt);
    std::optional<double> celsius = larder::default_celsius;
    if (options.at) celsius = read_part(*options.at, sound, larder::read_brine_celsius);
    if (!sound) return status::not_done;
    const auto question = read_part(options.words, sound, [&](auto& text, auto& findings) {
        return larder::read_brine_question(text, salt, of_water, *celsius, findings);
    });
    if (!question) return status::not_done;
    Kitchens kitchens(options.kitchen);
    const LoadedKitchen& kitchen = kitchens.of("-");
    if (!kitchen.ok()) {
        explain_aside(kitchen.file.document.source, kitchen.file.findings);
        return status::not_done;
    }
    std::string asked = options.words;
    if (options.salt) asked = *options.salt + " of salt" + (asked.empty() ? "" : " ") + asked;
    const plan::BrineSheet sheet = plan::brine_sheet(*question, kitchen.kitchen);
    const bool too_strong = sheet.taken.answer.sort == larder::BrineAnswer::Sort::too_strong;
    return finish(options.json ? render::brine_json(sheet, asked)
                               : render::brine_text(sheet, asked, result_style(options.units)),
                  too_strong ? status::something_found : status::nothing_to_say);
}

} // namespace jarful::cli
