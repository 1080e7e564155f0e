#include "engine/render/card_pages.hpp"
#include "engine/render/html_style.hpp"
#include "engine/render/mark.hpp"
#include "engine/render/page.hpp"

#include <algorithm>

namespace jarful::render {

namespace {

constexpr std::size_t labels_to_a_sheet = 8;

/// Whole rounds of all labels, as many as fit a sheet; at least one.
std::vector<const CardLabel*> rounds(const std::vector<CardLabel>& labels) {
    std::vector<const CardLabel*> once;
    for (const CardLabel& label : labels)
        once.insert(once.end(), static_cast<std::size_t>(std::max(1, label.copies)), &label);
    std::vector<const CardLabel*> all = once;
    while (!once.empty() && all.size() + once.size() <= labels_to_a_sheet)
        all.insert(all.end(), once.begin(), once.end());
    return all;
}

/// How small a label is printed so that what is on it has room.
std::string class_of(const CardLabel& label) {
    const int letters = columns(label.title) + columns(label.contents) + columns(label.salt);
    if (letters > 330) return "label longer";
    return letters > 200 ? "label long" : "label";
}

class LabelSheet {
  public:
    std::string written(const std::vector<CardLabel>& labels) {
        const std::string title = labels.empty() ? "Labels" : "Labels: " + labels.front().title;
        page_.declaration();
        page_.element("html", {{"lang", "en"}}, [&] {
            put_head(page_, title, card_style());
            page_.element("body", {}, [&] {
                page_.element("main", {}, [&] {
                    page_.element("h1", {{"class", "only-screen"}}, title);
                    page_.element("ul", {{"class", "labels"}}, [&] {
                        for (const CardLabel* label : rounds(labels))
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
        page_.element("li", {{"class", class_of(label)}}, [&] {
            page_.element("h2", {{"dir", "auto"}}, label.title);
            page_.element("dl", {}, [&] {
                row("Packed", label.packed, true);
                if (!label.ready.empty()) row("Ready", label.ready, false);
                if (!label.keep.empty()) row("Keeps", label.keep, false);
                if (!label.salt.empty()) row("Salt", label.salt, false);
                if (!label.jar.empty()) row("Jar", label.jar, false);
            });
            page_.element("p", {{"class", "contents"}}, "By weight: " + label.contents);
            page_.element("p", {{"class", "notes"}}, "Notes");
        });
    }

    /// What is not known is written on the label by hand.
    void row(const char* what, const std::string& text, bool by_hand) {
        page_.element("dt", {}, what);
        if (text.empty() && by_hand) {
            page_.element("dd", {{"class", "write"}}, "\xc2\xa0");
        } else {
            page_.element("dd", {}, text);
        }
    }

    Markup page_;
};

} // namespace

std::string labels_html(const std::vector<CardLabel>& labels) {
    return with_mark(LabelSheet().written(labels), made::labels, MarkForm::markup);
}

} // namespace jarful::render
