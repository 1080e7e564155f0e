#include "engine/render/card_pages.hpp"
#include "engine/render/html_style.hpp"
#include "engine/render/lettering.hpp"
#include "engine/render/mark.hpp"
#include "engine/render/page.hpp"

#include <algorithm>
#include <array>

namespace jarful::render {

namespace {

/// How a sheet is divided, as the style sheet has it under `name`. Every label of a sheet is alike,
/// so that they are cut along straight lines.
struct Division {
    const char* name;
    std::size_t labels; ///< on a sheet
    double width_mm;    ///< of a label on A4, the narrower of the sheets
    double height_mm;   ///< so that the rows fit Letter, the lower one
    double points;      ///< of the type
};
constexpr std::array divisions{Division{"labels", 8, 96, 64, 10},
                               Division{"labels type-9", 8, 96, 64, 9},
                               Division{"labels type-8", 8, 96, 64, 8},
                               Division{"labels six type-9", 6, 96, 86, 9},
                               Division{"labels six type-8", 6, 96, 86, 8},
                               Division{"labels four type-9", 4, 96, 129, 9},
                               Division{"labels four type-8", 4, 96, 129, 8},
                               Division{"labels two type-9", 2, 192, 129, 9},
                               Division{"labels two type-8", 2, 192, 129, 8}};

/// Whole rounds of all labels, as many as fit a sheet; at least one.
std::vector<const CardLabel*> rounds(const std::vector<CardLabel>& labels, std::size_t to_a_sheet) {
    std::vector<const CardLabel*> once;
    for (const CardLabel& label : labels)
        once.insert(once.end(), static_cast<std::size_t>(std::max(1, label.copies)), &label);
    std::vector<const CardLabel*> all = once;
    while (!once.empty() && all.size() + once.size() <= to_a_sheet)
        all.insert(all.end(), once.begin(), once.end());
    return all;
}

/// The rows of a label's list, in their order.
struct LabelRow {
    const char* what;
    const std::string& words;
    bool by_hand = false; ///< it is written on the label where it is not known
};
std::array<LabelRow, 5> rows_of(const CardLabel& label) {
    return {{{"Packed", label.packed, true},
             {"Ready", label.ready},
             {"Keeps", label.keep},
             {"Salt", label.salt},
             {"Jar", label.jar}}};
}
constexpr const char* before_contents = "By weight: ";

/// Whether what is on a label has room on it, with the style sheet's sizes and whichever font.
bool has_room(const CardLabel& label, const Division& division) {
    constexpr double points_to_a_mm = 72 / 25.4;
    const double em = division.points / points_to_a_mm; // in mm
    constexpr double padding_and_border = 2 * (5 + 0.3);
    const double width = (division.width_mm - padding_and_border) / em;
    constexpr double line = 1.25;
    constexpr double title_size = 1.3;
    constexpr double title_line = 1.15;
    double height = line_count(label.title, width / title_size, true) * title_line * title_size;
    const double beside = width - width_of_words("Packed") - 0.6;
    for (const LabelRow& row : rows_of(label))
        if (row.by_hand || !row.words.empty())
            height += std::max(1.35, line_count(row.words, beside) * line) + 0.1;
    height += line_count(before_contents + label.contents, width) * line;
    constexpr double notes = 2.6;
    constexpr double padding_and_gaps = 2 * (4 + 0.3) + 3 * 0.8;
    return (height + notes) * em + padding_and_gaps <= division.height_mm;
}

const Division& division_for(const std::vector<CardLabel>& labels) {
    for (const Division& division : divisions) {
        const auto fits = [&](const CardLabel& label) { return has_room(label, division); };
        if (std::all_of(labels.begin(), labels.end(), fits)) return division;
    }
    return divisions.back();
}

class LabelSheet {
  public:
    std::string written(const std::vector<CardLabel>& labels) {
        const std::string title = labels.empty() ? "Labels" : "Labels: " + labels.front().title;
        const Division& division = division_for(labels);
        page_.declaration();
        page_.element("html", {{"lang", "en"}}, [&] {
            put_head(page_, title, card_style());
            page_.element("body", {}, [&] {
                page_.element("main", {}, [&] {
                    page_.element("h1", {{"class", "only-screen"}}, title);
                    page_.element("ul", {{"class", division.name}}, [&] {
                        for (const CardLabel* label : rounds(labels, division.labels))
                            put(*label);
                    });
                });
            });
        });
        page_.text("\n");
        return page_.written();
    }

  private:
    void put(const CardLabel& label) {
        page_.element("li", {{"class", "label"}}, [&] {
            page_.element("h2", {{"dir", "auto"}}, label.title);
            page_.element("dl", {}, [&] {
                for (const LabelRow& each : rows_of(label))
                    row(each);
            });
            page_.element("p", {{"class", "contents"}}, before_contents + label.contents);
            page_.element("p", {{"class", "notes"}}, "Notes");
        });
    }

    void row(const LabelRow& row) {
        if (row.words.empty() && !row.by_hand) return;
        page_.element("dt", {}, row.what);
        if (row.words.empty()) {
            page_.element("dd", {{"class", "write"}}, "\xc2\xa0");
        } else {
            page_.element("dd", {}, row.words);
        }
    }

    Markup page_;
};

} // namespace

std::string labels_html(const std::vector<CardLabel>& labels) {
    return with_mark(LabelSheet().written(labels), made::labels, MarkForm::markup);
}

} // namespace jarful::render
