#include "engine/render/text_weigh.hpp"

#include "engine/render/reading_column.hpp"
#include "engine/render/text_jars.hpp"
#include "engine/render/text_parts.hpp"
#include "engine/render/weigh_words.hpp"
#include "engine/render/words.hpp"
#include "engine/units/amount.hpp"
#include "engine/units/display.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::render {

namespace {

using plan::Fate;
using plan::Item;

class WeighPage {
  public:
    WeighPage(const plan::WeighOut& out, const TextStyle& style)
        : out_(out)
        , page_(style)
        , units_(style.units)
        , items_(items_in_order(out)) {
        for (const Item* item : items_) {
            if (!on_a_scale(*item)) continue;
            for (const auto& portion : portions_of(*item)) {
                readings_.add(portion.reading_g, item->step_g);
                if (!units::reads_ounces(item->step_g)) continue;
                number_width_ = std::max(number_width_,
                                         columns(reading_figure(portion.reading_g, item->step_g)));
                if (units_ == Units::us) truth_width_ = 28; // "1 lb 15.5 oz to 2 lb 0.5 oz"
            }
        }
    }

    std::string text() {
        head();
        print_refusal(page_, out_, units_);
        stocks();
        weigh();
        counts();
        spoons();
        later();
        print_salt(page_, out_);
        print_holds(page_, out_);
        print_other_bases(page_, out_);
        top_up();
        room();
        jars();
        method();
        print_safety(page_, out_.cautions);
        notes();
        page_.next(next_words(out_, units_));
        return page_.text();
    }

  private:
    void head() {
        page_.heading(title_words(out_));
        const std::string kind = kind_words(out_);
        if (!kind.empty()) page_.paragraph(kind, 0, 0);
        print_answer(page_, out_, units_);
        page_.paragraph(made_from(out_, units_), 0, 0);
        if (!out_.left_out.empty()) {
            page_.paragraph("Made without " + listed(out_.left_out) + ".", 0, 0);
        }
        page_.paragraph(out_.kitchen_built_in
                            ? "Kitchen: none found, so one scale is taken as given: 1 g steps up "
                              "to 5 kg."
                            : "Kitchen: " + stopped(out_.kitchen),
                        0, 0);
        print_bowl(page_, out_, units_);
    }

    void notes_below(const std::string& words) {
        if (words.empty()) return;
        page_.row({{.text = "", .width = number_width_},
                   {.text = words, .width = page_.width() - number_width_ - 4, .dim = true}});
    }

    void weigh_row(const Item& item, const plan::Portion& portion, const std::string& name,
                   bool alone) {
        page_.row({{.text = readings_.figure(portion.reading_g, item.step_g),
                    .width = number_width_,
                    .keep = true,
                    .right = true,
                    .bold = true},
                   {.text = name,
                    .width = page_.width() - number_width_ - truth_width_ - 20,
                    .bold = true},
                   {.text = portion.scale.empty() ? item.scale : portion.scale, .width = 12},
                   {.text = alone ? reading_between(item.truth, item.step_g, units_) : "",
                    .width = 22,
                    .dim = true}});
    }

    void weigh_header(const std::string& what) {
        page_.row({{.text = "wait for", .width = number_width_, .right = true, .dim = true},
                   {.text = what,
                    .width = page_.width() - number_width_ - truth_width_ - 20,
                    .dim = true},
                   {.text = "on scale", .width = 12, .dim = true},
                   {.text = "may really be", .width = truth_width_, .dim = true}});
    }

    void weigh() {
        if (std::none_of(items_.begin(), items_.end(), [](auto* i) { return on_a_scale(*i); })) {
            return;
        }
        page_.heading("WEIGH, in this order");
        weigh_header("what");
        for (const Item* item : items_) {
            if (on_a_scale(*item)) weigh_item(*item);
        }
    }

    void weigh_item(const Item& item) {
        const auto portions = portions_of(item);
        for (std::size_t i = 0; i < portions.size(); ++i) {
            std::string name = visible(item.name);
            if (portions.size() > 1) {
                name += ", go " + std::to_string(i + 1) + " of " + std::to_string(portions.size());
            }
            weigh_row(item, portions[i], name, portions.size() == 1);
        }
        std::string words;
        for (const std::string& remark : remarks_of(out_, item, units_)) {
            words += (words.empty() ? "" : "; ") + remark;
        }
        notes_below(words);
    }

    void counts() {
        if (out_.counts.empty()) return;
        page_.heading("COUNT");
        for (const plan::Count& count : out_.counts) {
            std::string words = named(count.name, count.material);
            if (count.each_jar) words += " in each jar";
            if (count.each_jar && out_.jars.size() > 1)
                words += ", " + std::to_string(count.count * static_cast<int>(out_.jars.size())) +
                         " in all";
            if (count.fate != Fate::in_jar) words += ", " + std::string(plan::describe(count.fate));
            if (std::abs(count.exact - count.count) > 1e-9) {
                words += "; the recipe comes to " + units::print_number(count.exact, 3);
            }
            if (!count.label.empty()) words += "; " + count.label;
            const std::string figure = std::to_string(count.count);
            page_.row({{.text = figure, .width = number_width_, .right = true, .bold = true},
                       {.text = words, .width = page_.width() - number_width_ - 4}});
        }
    }

    void spoons() {
        bool first = true;
        for (const Item* item : items_) {
            if (!item->too_small || item->fate == Fate::stock) continue;
            if (first) page_.heading("TOO LITTLE FOR THE SCALE, so by the spoon");
            first = false;
            page_.paragraph(pinch_words(*item, units_), 4, 6);
        }
    }

    void later() {
        bool first = true;
        for (const Item* item : items_) {
            if (item->fate != Fate::later || item->entered) continue;
            if (first) page_.heading("WEIGH LATER, and ask again with the number");
            first = false;
            page_.paragraph(later_words(*item, units_), 4, 6);
        }
    }

    void stocks() {
        for (const plan::Stock& stock : out_.stocks) {
            page_.heading("MIX FIRST: " + stock_title(stock));
            weigh_header("what");
            for (const Item* item : {&stock.water, &stock.salt}) {
                weigh_item(*item);
            }
            page_.paragraph(stock_words(stock, units_));
        }
    }

    void top_up() {
        if (!out_.top_up) return;
        page_.heading("IF THE JUICE DOES NOT COVER");
        page_.paragraph(top_up_words(*out_.top_up, units_));
    }

    void room() {
        const std::string words = room_words(out_, units_);
        if (words.empty()) return;
        page_.heading("ROOM IN THE JAR");
        page_.paragraph(words);
    }

    /// What goes into each: where the jars were named, or something is the matter with them.
    void jars() {
        const bool named = out_.jar_choice && out_.jar_choice->by_name;
        if (!named && jars_in_the_way(out_, units_).empty()) return;
        print_jars(page_, out_, units_);
        print_left_over(page_, out_, units_);
    }

    void method() {
        const auto& lines = out_.method_lines;
        if (lines.empty()) return;
        // What is looked after stands under its own heading, unless a step still follows it.
        std::size_t steps_end = 0;
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (is_step(lines[i])) steps_end = i + 1;
        }
        int number = 0;
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (i == 0 && steps_end > 0) page_.heading("METHOD");
            if (i == steps_end) page_.heading("AFTERWARDS");
            const std::string mark = is_step(lines[i]) ? std::to_string(++number) + "." : "-";
            page_.item(mark, sentence(lines[i], units_), 2, 6);
        }
    }

    void notes() {
        if (!out_.assumptions.empty()) {
            page_.heading("TAKEN FOR GRANTED");
            for (const std::string& text : out_.assumptions)
                page_.item("-", stopped(text), 2, 4);
        }
        if (!out_.sources.empty()) {
            page_.heading("ABOUT THE RECIPE");
            for (const std::string& text : out_.sources)
                page_.item("-", stopped(text), 2, 4);
        }
    }

    const plan::WeighOut& out_;
    Page page_;
    Units units_;
    std::vector<const Item*> items_;
    int number_width_ = 10;
    int truth_width_ = 22;
    ReadingColumn readings_;
};

} // namespace

std::string weigh_text(const plan::WeighOut& out, const TextStyle& style) {
    return WeighPage(out, style).text();
}

} // namespace jarful::render
