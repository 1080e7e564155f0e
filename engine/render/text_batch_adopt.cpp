#include "engine/render/batch_adopt_report.hpp"
#include "engine/render/words.hpp"

#include <fmt/core.h>

namespace jarful::render {

std::string adopt_text(const AdoptReport& report, const TextStyle& style) {
    Page page(style);
    page.heading(report.title.empty() ? report.path : report.title);
    page.paragraph(fmt::format("{} {} of this recipe, {} of them noted as ready or moved.",
                               report.batches, report.batches == 1 ? "batch" : "batches",
                               report.finished),
                   0, 0);
    for (std::size_t i = 0; i < report.proposals.size(); ++i) {
        const tend::Proposal& one = report.proposals[i];
        page.heading(fmt::format("LINE {}: {}", report.lines[i], one.what));
        page.row({{.text = "now", .width = 7, .dim = true},
                  {.text = one.added ? "no such line" : one.old_text, .width = page.width() - 11}});
        page.row({{.text = report.written ? "written" : "propose", .width = 7, .dim = true},
                  {.text = one.new_text, .width = page.width() - 11, .bold = true}});
        for (const std::string& sentence : one.evidence)
            page.item("-", sentence, 2, 4);
        if (one.evidence.size() == 1) page.paragraph("That is one batch only.");
        if (!one.meaning.empty()) page.paragraph(one.meaning);
    }
    if (report.proposals.empty()) {
        page.gap();
        page.paragraph(
            report.held_back.empty()
                ? "Nothing is proposed: the batches say what the recipe says, or too little."
                : "No line is changed.",
            0, 0);
    }
    if (!report.held_back.empty()) {
        page.heading("NOT PROPOSED");
        for (const std::string& sentence : report.held_back)
            page.item("-", capital(sentence), 2, 4);
    }
    page.gap();
    if (report.written)
        page.paragraph("Next: read the change with `git diff`, and commit it.", 0, 6, true);
    else if (!report.proposals.empty())
        page.paragraph(
            "Next: nothing was written. --write changes these lines; others move by blanks at "
            "most.",
            0, 6, true);
    else if (!report.held_back.empty())
        page.paragraph("Next: change by hand what you find right, and run jarful check.", 0, 6,
                       true);
    return page.text();
}

} // namespace jarful::render
