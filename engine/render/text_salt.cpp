#include "engine/render/ruler.hpp"
#include "engine/render/text_parts.hpp"
#include "engine/render/weigh_words.hpp"
#include "engine/render/words.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::render {

namespace {

void print_ruler(Page& page, const plan::SaltJudgement& salt) {
    std::vector<double> shown{salt.figure.percent, salt.figure.bounds.low, salt.figure.bounds.high};
    if (salt.low) shown.push_back(salt.low->percent);
    if (salt.high) shown.push_back(salt.high->percent);
    const Ruler ruler(shown, page.width() - 6);
    const std::string margin(3, ' ');
    const std::string words = "this batch, " + percents(salt.figure.bounds);
    std::string mark = margin + ruler.stretch(salt.figure.bounds);
    if (columns(mark) + 1 + columns(words) <= page.width()) {
        mark += " " + words;
    } else { // beside it on the left, or else on a line of its own
        const int at = static_cast<int>(mark.find_first_not_of(' ')) - columns(words) - 1;
        if (at >= 0) {
            mark.replace(static_cast<std::size_t>(at), static_cast<std::size_t>(columns(words)),
                         words);
        } else {
            page.raw(margin + words);
        }
    }
    page.gap();
    page.raw(mark);
    page.raw(margin + ruler.marks());
    page.raw(margin + ruler.figures());
    if (salt.low || salt.high) {
        page.raw(margin +
                 ruler.words(salt.low ? std::optional(salt.low->percent) : std::nullopt,
                             salt.high ? std::optional(salt.high->percent) : std::nullopt));
    }
    page.gap();
}

std::string bounds_words(const plan::HoldCheck& check) {
    const auto figure = [&](double value) { return figures(units::Interval(value), check.unit); };
    if (check.at_least && check.at_most) {
        return "the house wants " + figure(*check.at_least) + " to " + figure(*check.at_most);
    }
    if (check.at_least) return "the house wants at least " + figure(*check.at_least);
    if (check.at_most) return "the house wants at most " + figure(*check.at_most);
    return "no bound";
}

/// A source in one line: its beginning, and the section in parentheses at its end.
std::string shortened(const std::string& source, int width) {
    if (columns(source) <= width) return source;
    const std::size_t open = source.rfind(" (");
    std::string tail = "…";
    if (source.ends_with(')') && open != std::string::npos &&
        columns(source.substr(open)) < width / 2 + 4) {
        tail += source.substr(open);
    }
    const std::string head = wrap(source, width - columns(tail)).front();
    return head + tail;
}

} // namespace

void print_safety(Page& page, const std::vector<plan::Warning>& cautions, std::string_view longer) {
    if (cautions.empty()) return;
    if (page.brief()) {
        page.heading("SAFETY, in short (at length: " + std::string(longer) + ")");
        page.paragraph(cautions_in_short(cautions));
        return;
    }
    page.heading("SAFETY");
    for (const plan::Warning& warning : cautions)
        page.titled(warning.title, stopped(warning.text));
}

void print_nearby(Page& page, const std::vector<plan::NearbyRow>& rows, int indent) {
    const int text = 30;
    const int source = page.width() - indent - text - 2;
    for (const plan::NearbyRow& row : rows) {
        page.row({{.text = row.text, .width = text},
                  {.text = shortened(row.source, source), .width = source}},
                 indent);
    }
}

std::string salt_in_short(const plan::SaltJudgement& salt) {
    std::string out =
        percent(salt.figure.percent) + " % " + std::string(larder::describe(salt.figure.basis));
    const std::string bounds = percents(salt.figure.bounds);
    if (bounds != percent(salt.figure.percent) + " %") out += " (" + bounds + ")";
    if (!salt.low && !salt.high) return out + "; " + verdict_words(salt);
    return out + "; " + range_words(salt.low, salt.high) + ": " + verdict_words(salt);
}

std::string hold_in_short(const plan::HoldCheck& check) {
    return check.text + " is " + figures(check.value, check.unit) + "; " + bounds_words(check);
}

std::string hold_judged(const plan::HoldCheck& check) {
    return hold_in_short(check) + ": " + loud(check.verdict);
}

void print_salt(Page& page, const plan::WeighOut& out) {
    if (!out.salt) {
        page.heading("SALT: not judged");
        page.paragraph(out.no_salt_reason.empty() ? "The recipe says no kind of ferment."
                                                  : stopped(out.no_salt_reason));
        return;
    }
    const plan::SaltJudgement& salt = *out.salt;
    page.heading("SALT: " + salt_headline(salt));
    print_ruler(page, salt);
    for (const std::string& words : salt_reasons(salt))
        page.paragraph(words);
    for (const std::string& words : range_rests_on(salt))
        page.paragraph(words, 2, 4);
    if (!salt.why.empty()) page.paragraph(stopped(salt.why));
    if (!salt.nearby.empty()) {
        page.paragraph("What the sources say near this figure:");
        print_nearby(page, salt.nearby, 4);
    }
    for (const auto& variant : salt.variants) {
        page.paragraph(capital(variant.text) + ": " + percents(variant.bounds) + ", " +
                           loud(variant.verdict) + ".",
                       2, 4);
    }
    if (salt.by_the_spoon) {
        page.paragraph("By the spoon alone, without a scale, it would be " +
                       percents(*salt.by_the_spoon) + ".");
    }
}

void print_other_bases(Page& page, const plan::WeighOut& out) {
    if (out.other_bases.empty()) return;
    page.heading("THE SAME SALT, COUNTED OTHERWISE");
    for (const plan::BasisFigure& figure : out.other_bases) {
        page.row({{.text = percent(figure.percent) + " %", .width = 8, .right = true},
                  {.text = std::string(larder::describe(figure.basis)), .width = 32},
                  {.text = percents(figure.bounds), .width = 24, .dim = true}});
    }
}

void print_holds(Page& page, const plan::WeighOut& out) {
    if (out.checks.empty()) return;
    page.heading("BOUNDS OF THE HOUSE");
    for (const plan::HoldCheck& check : out.checks) {
        page.item(loud(check.verdict), hold_words(check), 2, 13);
    }
}

} // namespace jarful::render
