#include "engine/language/command_line.hpp"
#include "engine/render/chart_report.hpp"
#include "engine/render/words.hpp"
#include "engine/units/display.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::render {

namespace {

constexpr std::string_view dash = "–";

struct Column {
    std::string head, unit;
    std::vector<std::string> cells; ///< one a row
    [[nodiscard]] int width() const {
        int w = std::max(columns(head), columns(unit));
        for (const std::string& cell : cells)
            w = std::max(w, columns(cell));
        return w;
    }
};

struct Table {
    Column first;
    std::vector<Column> others;
    std::vector<std::string> notes; ///< sentences
};

std::string label_of(const plan::Chart& chart, const plan::ChartRow& row, Units units) {
    const Units shown = units == Units::metric && chart.us ? Units::us : units;
    if (chart.dimension == units::dim::mass) return mass(row.label, shown);
    if (chart.dimension == units::dim::volume) return volume(row.label, shown);
    return units::print_value(row.label, chart.dimension);
}

std::string grams_of(double grams, double step_g) {
    if (units::reads_ounces(step_g)) // the column says grams
        return units::print_fixed(grams, units::reading_decimals(step_g));
    std::string shown = units::print_reading(grams, step_g);
    if (shown.ends_with(" g")) shown.resize(shown.size() - 2);
    return shown;
}

class Builder {
  public:
    Builder(const plan::Chart& chart, Units units)
        : chart_(chart)
        , units_(units) {}

    Table table() {
        table_.first.head = visible(chart_.name);
        for (const plan::ChartRow& row : chart_.rows) {
            table_.first.cells.push_back(label_of(chart_, row, units_) + (in_goes(row) ? "*" : ""));
        }
        for (const ChartColumn& column : chart_columns(chart_))
            add(column);
        add_fill();
        notes();
        return std::move(table_);
    }

  private:
    /// Whether what the row goes by is itself more than the scale carries.
    bool in_goes(const plan::ChartRow& row) {
        if (!row.holds || chart_.us) return false;
        for (const plan::Item& item : row.out->givens) {
            if (item.name != chart_.name || item.portions.size() < 2) continue;
            several_ = true;
            return true;
        }
        return false;
    }

    void add(const ChartColumn& column) {
        Column out;
        out.head = visible(column.name);
        ounces_ = in_ounces(column);
        out.unit = column.pieces ? (column.each_jar ? "each jar" : "pieces") : ounces_ ? "oz" : "g";
        for (const plan::ChartRow& row : chart_.rows)
            out.cells.push_back(row.holds ? cell(*row.out, column) : std::string(dash));
        table_.others.push_back(std::move(out));
    }

    /// Whether who reads the column weighs all of it in ounces.
    [[nodiscard]] bool in_ounces(const ChartColumn& column) const {
        if (column.pieces || units_ != Units::us) return false;
        return std::all_of(chart_.rows.begin(), chart_.rows.end(), [&](const plan::ChartRow& row) {
            const plan::Item* item = row.holds ? chart_item(*row.out, column) : nullptr;
            return item == nullptr || units::reads_ounces(item->step_g);
        });
    }

    [[nodiscard]] std::string step_words(double step_g) const {
        const bool ounces = units_ == Units::us && units::reads_ounces(step_g);
        return ounces ? units::print_reading(step_g, step_g) : units::print_number(step_g) + " g";
    }

    [[nodiscard]] std::string number(double grams, double step_g) const {
        if (!ounces_) return grams_of(grams, step_g);
        // Of an ounce no more than the step has; pounds would not stand under each other.
        const double steps = std::round(grams / step_g);
        return units::print_number(steps * (step_g / units::ounce_g), 7);
    }

    std::string cell(const plan::WeighOut& out, const ChartColumn& column) {
        const plan::Item* item = chart_item(out, column);
        if (item == nullptr) return std::to_string(out.counts[column.index].count);
        if (item->too_small) {
            small_ = true;
            return "<" + number(item->step_g, item->step_g);
        }
        const bool goes = item->portions.size() > 1;
        several_ = several_ || goes;
        return number(item->reading_g, item->step_g) + (goes ? "*" : "");
    }

    void add_fill() {
        if (!chart_.any().room || chart_.name == "fill") return;
        Column out;
        out.head = "fills";
        for (const plan::ChartRow& row : chart_.rows) {
            out.cells.push_back(row.holds && row.out->room ? volume(row.out->room->fill_ml, units_)
                                                           : std::string(dash));
        }
        table_.others.push_back(std::move(out));
    }

    void notes() {
        const plan::WeighOut& any = chart_.any();
        const auto holding =
            std::find_if(chart_.rows.begin(), chart_.rows.end(), [](auto& r) { return r.holds; });
        const plan::WeighOut* out = holding == chart_.rows.end() ? nullptr : &*holding->out;
        if (out != nullptr && out->salt && (out->salt->low || out->salt->high)) {
            table_.notes.push_back("Every row keeps the salt inside " +
                                   range_words(out->salt->low, out->salt->high) + " " +
                                   std::string(larder::describe(out->salt->figure.basis)) + ": " +
                                   range_standing(out->salt->low, out->salt->high) +
                                   (any.checks.empty() ? "." : "; and the bounds of the house."));
        } else if (!any.no_salt_reason.empty()) {
            table_.notes.push_back("The salt is not judged: " + stopped(any.no_salt_reason));
        }
        dashes();
        if (small_) {
            table_.notes.emplace_back("<: less than the scale shows; by the spoon, as `jarful "
                                      "weigh` says it.");
        }
        if (several_) {
            table_.notes.emplace_back(
                "*: more than the scale carries at once, so in several goes.");
        }
        for (const plan::Item& item : any.items) {
            if (item.fate == plan::Fate::later && !item.entered) {
                table_.notes.push_back(visible(item.name) + " is weighed later; the rows take what "
                                                            "it likely comes to.");
            }
        }
        std::vector<std::string> scales;
        for (const ChartColumn& column : chart_columns(chart_)) {
            for (const plan::ChartRow& row : chart_.rows) {
                const plan::Item* item = row.holds ? chart_item(*row.out, column) : nullptr;
                if (item == nullptr || item->scale.empty()) continue;
                const std::string words =
                    visible(item->scale) + " (reads " + step_words(item->step_g) + ")";
                if (std::find(scales.begin(), scales.end(), words) == scales.end())
                    scales.push_back(words);
            }
        }
        if (!scales.empty()) {
            table_.notes.push_back("Scales: " + listed(scales) +
                                   "; decimals show on which. On others the readings differ.");
        }
    }

    /// Rows without a reading; neighbours with the same reason in one sentence.
    void dashes() {
        for (std::size_t i = 0; i < chart_.rows.size();) {
            const plan::ChartRow& row = chart_.rows[i];
            std::size_t end = i + 1;
            while (end < chart_.rows.size() && chart_.rows[end].note == row.note)
                ++end;
            if (!row.holds) {
                std::string from = label_of(chart_, row, units_);
                if (end > i + 1) from += " to " + label_of(chart_, chart_.rows[end - 1], units_);
                table_.notes.push_back(from + " " + std::string(dash) + " " +
                                       stopped(visible(row.note)));
            }
            i = end;
        }
    }

    const plan::Chart& chart_;
    Units units_;
    Table table_;
    bool small_ = false;
    bool ounces_ = false; ///< of the column that is being written
    bool several_ = false;
};

std::string title_of(const plan::Chart& chart) {
    const plan::WeighOut& any = chart.any();
    std::string title = any.title.empty() ? "A recipe without a title" : any.title;
    if (any.version) title += ", version " + std::to_string(*any.version);
    return title;
}

/// What the chart is about, besides the table.
std::vector<std::string> introduction(const plan::Chart& chart) {
    const plan::WeighOut& any = chart.any();
    std::vector<std::string> lines;
    std::string kind = any.kind;
    if (!any.method.empty()) kind += " " + any.method;
    if (!any.kind_title.empty()) kind += (kind.empty() ? "" : ": ") + any.kind_title;
    if (!kind.empty()) lines.push_back(stopped(capital(kind)));
    lines.push_back("The rows go by " + visible(chart.name) + ". Kitchen: " +
                    stopped(any.kitchen_built_in ? "none found, so one scale that reads 1 g is "
                                                   "taken as given"
                                                 : visible(any.kitchen)));
    if (!any.left_out.empty()) lines.push_back("Made without " + listed(any.left_out) + ".");
    return lines;
}

void print_rows(Page& page, const std::vector<const Column*>& shown, std::size_t rows) {
    const auto line = [&](auto text_of, bool bold, bool dim) {
        std::vector<Cell> cells;
        for (std::size_t i = 0; i < shown.size(); ++i) {
            cells.push_back({.text = text_of(*shown[i]),
                             .width = shown[i]->width(),
                             .keep = true,
                             .right = true,
                             .bold = bold || (i == 0 && !dim),
                             .dim = dim});
        }
        page.row(cells);
    };
    page.gap();
    line([](const Column& c) { return c.head; }, true, false);
    line([](const Column& c) { return c.unit; }, false, true);
    for (std::size_t y = 0; y < rows; ++y)
        line([&](const Column& c) { return c.cells[y]; }, false, false);
}

} // namespace

std::vector<ChartColumn> chart_columns(const plan::Chart& chart) {
    const plan::WeighOut& any = chart.any();
    std::vector<ChartColumn> out;
    for (std::size_t i = 0; i < any.stocks.size(); ++i) {
        out.push_back({any.stocks[i].name + ": water", false, 3, i, false});
        out.push_back({any.stocks[i].name + ": salt", false, 4, i, false});
    }
    for (std::size_t i = 0; i < any.givens.size(); ++i) {
        // What the rows go by stands in front, unless it is said in other units than the scale's.
        if (any.givens[i].name == chart.name && !chart.us) continue;
        out.push_back({any.givens[i].name, false, 0, i, false});
    }
    for (std::size_t i = 0; i < any.items.size(); ++i) {
        const plan::Item& item = any.items[i];
        if (item.fate == plan::Fate::stock) continue;
        if (item.fate == plan::Fate::later && !item.entered) continue;
        out.push_back({item.name, false, 1, i, false});
    }
    for (std::size_t i = 0; i < any.counts.size(); ++i)
        out.push_back({any.counts[i].name, true, 2, i, any.counts[i].each_jar});
    return out;
}

const plan::Item* chart_item(const plan::WeighOut& out, const ChartColumn& column) {
    switch (column.list) {
    case 0:
        return &out.givens[column.index];
    case 1:
        return &out.items[column.index];
    case 3:
        return &out.stocks[column.index].water;
    case 4:
        return &out.stocks[column.index].salt;
    default:
        return nullptr;
    }
}

std::string chart_text(const plan::Chart& chart, const TextStyle& style) {
    const Table table = Builder(chart, style.units).table();
    Page page(style);
    page.heading(title_of(chart));
    for (const std::string& line : introduction(chart))
        page.paragraph(line, 0, 0);
    const int room = page.width() - 2;
    std::size_t at = 0;
    do {
        std::vector<const Column*> shown{&table.first};
        int used = table.first.width();
        while (at < table.others.size()) {
            const int width = table.others[at].width() + 2;
            if (used + width > room && shown.size() > 1) break;
            used += width;
            shown.push_back(&table.others[at++]);
        }
        print_rows(page, shown, chart.rows.size());
    } while (at < table.others.size());
    page.gap();
    for (const std::string& note : table.notes)
        page.paragraph(note, 0, 2);
    page.gap();
    const double between = (chart.rows[0].label + chart.rows[1].label) / 2;
    std::string value = chart.dimension == units::dim::mass && style.units == Units::us
                            ? units::print_number(between / units::pound_g, 3) + "lb"
                        : chart.dimension == units::dim::mass   ? units::print_mass(between)
                        : chart.dimension == units::dim::volume ? units::print_volume(between)
                                                                : "AMOUNT";
    value.erase(std::remove(value.begin(), value.end(), ' '), value.end());
    const bool any = std::any_of(chart.rows.begin(), chart.rows.end(),
                                 [](const auto& row) { return row.holds; });
    page.paragraph(
        (any ? "Next: hang it beside the scale. Between the rows, "
             : "Next: begin at more, or with a finer scale. What it comes to, and what "
               "would do: ") +
            language::command_line({"jarful", "weigh", "RECIPE", chart.name + "=" + value}) +
            (any ? " says it for any amount." : ""),
        0, 6, true);
    return page.text();
}

std::string chart_markdown(const plan::Chart& chart, Units units) {
    const Table table = Builder(chart, units).table();
    std::string out = "# " + markdown(visible(title_of(chart))) + "\n\n";
    for (const std::string& line : introduction(chart))
        out += markdown(visible(line)) + "\n";
    out += "\n";
    std::vector<const Column*> all{&table.first};
    for (const Column& column : table.others)
        all.push_back(&column);
    std::string rule = "|";
    out += "|";
    for (const Column* column : all) {
        out +=
            " " + markdown(column->head) + (column->unit.empty() ? "" : ", " + column->unit) + " |";
        rule += " ---: |";
    }
    out += "\n" + rule + "\n";
    for (std::size_t y = 0; y < chart.rows.size(); ++y) {
        out += "|";
        for (const Column* column : all)
            out += " " + markdown(column->cells[y]) + " |";
        out += "\n";
    }
    if (!table.notes.empty()) out += "\n";
    for (const std::string& note : table.notes)
        out += "- " + markdown(note) + "\n";
    return out;
}

} // namespace jarful::render
