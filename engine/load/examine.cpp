#include "engine/language/command_line.hpp"
#include "engine/load/load.hpp"
#include "engine/tend/record.hpp"

namespace jarful::load {

using language::FileKind;

namespace {

/// That a recipe is not judged, since its kitchen or house file is not whole.
void say_faulty(const LoadedKitchen& kitchen, language::Findings& findings) {
    if (!kitchen.file.read) {
        findings.fault("faulty-kitchen", std::nullopt,
                       "The kitchen of this recipe, \"" + kitchen.path +
                           "\", cannot be read, so the recipe is not judged.",
                       "Check the spelling of its path.");
        return;
    }
    const char* what = kitchen.path.ends_with("house.jarful") ? "house file" : "kitchen";
    findings.fault(
        "faulty-kitchen", std::nullopt,
        std::string("The ") + what + " of this recipe, \"" + kitchen.path +
            "\", has faults, so the recipe is not judged.",
        std::string("Mend the ") + what + " first: `" +
            language::command_line({"jarful", "check", language::path_word(kitchen.path)}) + "`.");
}

} // namespace

std::optional<plan::CheckResult> examine(LoadedFile& file,
                                         const std::function<const LoadedKitchen&()>& kitchen_of,
                                         plan::Reasons reasons) {
    std::optional<plan::CheckResult> out;
    const language::Document& document = file.document;
    if (file.ok() && document.kind == FileKind::kitchen)
        static_cast<void>(kitchen::read_kitchen(document, file.findings));
    if (file.ok() && document.kind == FileKind::house) {
        static_cast<void>(larder::House::read(document, file.findings));
        static_cast<void>(kitchen::house_materials(document, file.findings));
    }
    if (file.ok() && document.kind == FileKind::batch)
        static_cast<void>(tend::read_record(document, file.findings));
    if (file.ok() && document.kind == FileKind::recipe) {
        const LoadedKitchen& kitchen = kitchen_of();
        if (kitchen.ok()) {
            out = plan::check(document, kitchen.kitchen, file.findings, reasons);
        } else {
            say_faulty(kitchen, file.findings);
        }
    }
    file.findings.sort();
    if (!file.ok()) out.reset();
    return out;
}

} // namespace jarful::load
