#include "engine/render/ranges_report.hpp"
#include "engine/render/ruler.hpp"
#include "engine/render/text_parts.hpp"
#include "engine/render/words.hpp"
#include "engine/units/amount.hpp"

#include <algorithm>

namespace jarful::render {

namespace {

using larder::Kind;
using larder::RangeRow;
using larder::Ruling;

std::optional<plan::RangeEnd> end_of(const std::optional<larder::Bound>& bound) {
    if (!bound) return std::nullopt;
    plan::RangeEnd end;
    end.percent = bound->percent;
    if (bound->row != nullptr) {
        end.source = std::string(bound->row->source);
        if (!bound->row->section.empty()) end.source += ", " + std::string(bound->row->section);
        end.status = std::string(larder::standing(*bound->row));
        end.row = std::string(bound->row->id);
    }
    return end;
}

/// "2 to 3 %", with "typical" where that is all a row has.
std::string row_range(const RangeRow& row) {
    if (row.low && row.high) return percent(*row.low) + " to " + percent(*row.high) + " %";
    if (row.low) return "at least " + percent(*row.low) + " %";
    if (row.high) return "at most " + percent(*row.high) + " %";
    if (row.typical) return percent(*row.typical) + " %";
    return "no figure";
}

std::string short_status(const std::string& status) {
    if (status == larder::describe(larder::Status::house)) return "house";
    if (status == larder::describe(larder::RowRole::judgement)) return "our own";
    if (status == "tried in a study") return "tried";
    return status == larder::describe(larder::Status::common_practice) ? "practice" : status;
}

/// What a range rests on, in one line if both ends rest on the same.
std::vector<std::string> rests_on(const Ruling& ruling) {
    const auto low = end_of(ruling.low);
    const auto high = end_of(ruling.high);
    const auto words = [](const plan::RangeEnd& end) {
        if (end.source.find(end.status) != std::string::npos) return end.source;
        if (end.status == "common practice, no published figure") return end.status;
        return end.source + " (" + end.status + ")";
    };
    if (!low && !high) return {"no figure, published or practised"};
    if (low && high && words(*low) == words(*high)) return {words(*low)};
    std::vector<std::string> out;
    if (low) out.push_back("low: " + words(*low));
    if (high) out.push_back("high: " + words(*high));
    return out;
}

std::string name_of(const Kind& kind, const Ruling& ruling) {
    std::string name(kind.name);
    if (!ruling.method.empty()) name += " " + std::string(ruling.method);
    return name;
}

/// "That is 20 to 30 g of salt to 1 kg of the vegetables."; empty where there is no range.
std::string in_grams(const Ruling& ruling) {
    if (!ruling.low && !ruling.high) return "";
    const auto grams = [](const larder::Bound& bound) {
        return units::print_number(bound.percent * 10, 4);
    };
    const std::string figure = ruling.low && ruling.high
                                   ? grams(*ruling.low) + " to " + grams(*ruling.high)
                               : ruling.low ? "at least " + grams(*ruling.low)
                                            : "at most " + grams(*ruling.high);
    const bool drained = ruling.basis == larder::Basis::of_drained_brine;
    return "That is " + figure + " g of salt " + (drained ? "in 1 L " : "to 1 kg ") +
           std::string(larder::describe(ruling.basis)) + ".";
}

void print_ruling(Page& page, const Kind& kind, const Ruling& ruling) {
    const auto low = end_of(ruling.low);
    const auto high = end_of(ruling.high);
    page.heading("SALT " + range_words(low, high) + " " +
                 std::string(larder::describe(ruling.basis)) + ": kind " + name_of(kind, ruling));
    std::string words = kind.rulings.size() > 1 ? stopped(capital(ruling.title)) + " " : "";
    words += in_grams(ruling);
    if (ruling.typical) words += " Usual: " + percent(*ruling.typical) + " %.";
    page.paragraph(words);
    if (page.brief() && kind.rulings.size() > 2) return;
    for (const std::string& source : rests_on(ruling))
        page.paragraph("Source: " + stopped(source), 2, 4);
    if (!page.brief()) page.paragraph(stopped(ruling.why));
}

/// The rows of one basis on one ruler, numbered, and below it what each is.
void print_rows(Page& page, larder::Basis basis, const std::vector<const RangeRow*>& rows) {
    std::vector<double> shown;
    for (const RangeRow* row : rows) {
        for (const auto& figure : {row->low, row->typical, row->high})
            if (figure) shown.push_back(*figure);
    }
    page.heading((basis == larder::Basis::of_drained_brine ? "FIGURES, " : "FIGURES, percent ") +
                 std::string(larder::describe(basis)));
    const Ruler ruler(shown, page.width() - 8);
    const std::string margin(6, ' ');
    page.gap();
    page.raw(margin + ruler.figures());
    page.raw(margin + ruler.marks());
    int number = 0;
    for (const RangeRow* row : rows) {
        const double low = row->low.value_or(row->high ? -1 : row->typical.value_or(-1));
        const double high = row->high.value_or(row->low ? 1000 : row->typical.value_or(1000));
        std::string label = std::to_string(++number);
        label.insert(0, static_cast<std::size_t>(std::max(0, 4 - static_cast<int>(label.size()))),
                     ' ');
        const bool figured = row->low || row->high || row->typical;
        page.raw(label + "  " + (figured ? ruler.stretch({low, high}) : ""));
    }
    page.gap();
    number = 0;
    for (const RangeRow* row : rows) {
        std::string words = row_range(*row);
        if (row->typical && (row->low || row->high)) {
            words += ", usually " + percent(*row->typical) + " %";
        }
        words += "; " + std::string(larder::describe(row->role)) + "; " +
                 std::string(larder::describe(row->status)) +
                 "; method: " + std::string(row->method) + ".";
        page.item(std::to_string(++number) + ".", words, 2, 6);
        std::string source(row->source);
        if (!row->section.empty()) source += ", " + std::string(row->section);
        page.paragraph(stopped(source), 6, 6);
        if (!row->note.empty()) page.paragraph(stopped(row->note), 6, 6);
    }
}

/// The cautions of a kind, and those of every kind; at length with their sources.
void print_cautions(Page& page, const Kind& kind) {
    std::vector<plan::Warning> all;
    const auto add = [&](const larder::Caution& caution, const std::string& text) {
        all.push_back({std::string(caution.id), std::string(caution.title), text, ""});
    };
    for (const std::string_view id : kind.cautions) {
        if (const larder::Caution* caution = larder::find_caution(id))
            add(*caution, stopped(caution->text) + " Source: " + std::string(caution->source) +
                              " (" + std::string(larder::describe(caution->status)) + ").");
    }
    for (const larder::Caution& caution : larder::cautions())
        if (caution.always) add(caution, std::string(caution.text));
    print_safety(page, all);
}

} // namespace

std::vector<const Kind*> kinds_with(const larder::House* house) {
    std::vector<const Kind*> out;
    for (const Kind& kind : larder::kinds())
        out.push_back(house == nullptr ? &kind : house->find_kind(kind.name));
    if (house != nullptr) {
        const auto own = house->own_kinds();
        out.insert(out.end(), own.begin(), own.end());
    }
    return out;
}

std::string ranges_text(const larder::House* house, const TextStyle& style) {
    Page page(style);
    page.heading("Salt by kind of ferment");
    page.paragraph("Below a range is a safety matter, above it a quality one. Percentages on "
                   "different bases are not the same thing.",
                   0, 0);
    if (house != nullptr) {
        page.paragraph("With what the house \"" + house->name() +
                           "\" says of its own; what is published beside it: jarful ranges KIND.",
                       0, 0);
    }
    page.gap();
    const int name = 25;
    const int figure = 14;
    const int basis = 25;
    const int status = page.width() - name - figure - basis - 6;
    page.row({{.text = "kind, method", .width = name, .dim = true},
              {.text = "low to high", .width = figure, .dim = true},
              {.text = "salt, as percent", .width = basis, .dim = true},
              {.text = "status", .width = status, .dim = true}},
             0);
    for (const Kind* kind : kinds_with(house)) {
        for (const Ruling& ruling : kind->rulings) {
            const auto low = end_of(ruling.low);
            const auto high = end_of(ruling.high);
            const std::string a = low ? low->status : high ? high->status : "";
            const std::string b = high ? high->status : a;
            page.row({{.text = name_of(*kind, ruling), .width = name, .bold = true},
                      {.text = range_words(low, high), .width = figure},
                      {.text = std::string(larder::describe(ruling.basis)), .width = basis},
                      {.text = a == b ? short_status(a) : "mixed", .width = status}},
                     0);
            if (page.brief()) continue;
            for (const std::string& words : rests_on(ruling))
                page.paragraph(words, 4, 6);
        }
    }
    page.next("jarful ranges KIND says more of one kind, as in `jarful ranges kraut`.");
    page.more("sources");
    return page.text();
}

std::string ranges_text(const Kind& kind, const TextStyle& style) {
    Page page(style);
    page.heading(std::string(kind.name) + ": " + std::string(kind.title));
    if (!kind.names.empty()) {
        std::vector<std::string> names(kind.names.begin(), kind.names.end());
        page.paragraph("Also understood: " + listed(names) + ".", 0, 0);
    }
    if (kind.method_needed) {
        page.paragraph("A recipe has to say which method it means: they have ranges of their own.",
                       0, 0);
    }
    for (const Ruling& ruling : kind.rulings)
        print_ruling(page, kind, ruling);
    std::vector<larder::Basis> bases;
    for (const std::uint16_t index : kind.rows) {
        const larder::Basis basis = larder::range_rows()[index].basis;
        if (std::find(bases.begin(), bases.end(), basis) == bases.end()) bases.push_back(basis);
    }
    for (const larder::Basis basis : bases) {
        if (page.brief()) break;
        std::vector<const RangeRow*> rows;
        for (const std::uint16_t index : kind.rows) {
            const RangeRow& row = larder::range_rows()[index];
            if (row.basis == basis) rows.push_back(&row);
        }
        print_rows(page, basis, rows);
    }
    print_cautions(page, kind);
    page.next("write `kind " + name_of(kind, kind.rulings.front()) +
              "` in the recipe, and run jarful weigh.");
    page.more("every figure beside the others, reasons, sources");
    return page.text();
}

} // namespace jarful::render
