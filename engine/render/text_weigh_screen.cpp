#include "engine/language/command_line.hpp"
#include "engine/render/jar_words.hpp"
#include "engine/render/reading_column.hpp"
#include "engine/render/text_jars.hpp"
#include "engine/render/text_parts.hpp"
#include "engine/render/text_weigh.hpp"
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
using plan::Verdict;

constexpr int number_width = 11;
constexpr int scale_width = 8;
constexpr int true_width = 11;
constexpr int remark_width = 16;
/// Rows to weigh that fit on a screen with all else; with more of them the cautions stand above.
constexpr std::size_t most_rows = 6;

/// How far the truth may lie from the number that is shown: "± 1.5 g", rounded upward to a decimal
/// more than the scale shows.
std::string plus_minus(const Item& item) {
    const double off = std::max(item.reading_g - item.truth.low, item.truth.high - item.reading_g);
    if (!std::isfinite(off)) return "";
    // On a scale of ounces a part of a step says nothing.
    if (units::reads_ounces(item.step_g))
        return "± " +
               units::print_reading(std::ceil(off / item.step_g - 1e-9) * item.step_g, item.step_g);
    const int decimals = units::reading_decimals(item.step_g) + 1;
    const double factor = std::pow(10.0, decimals);
    return "± " + units::print_number(std::ceil(off * factor - 1e-6) / factor, 4) + " g";
}

/// The one thing that is to be known of a row while weighing.
std::string remark_of(const Item& item) {
    if (item.display_g) return "display " + units::print_reading(*item.display_g, item.step_g);
    if (item.fate == Fate::discarded) return "poured off again";
    if (item.fate == Fate::on_top) return "a layer on top";
    if (item.poured) return "as poured";
    if (item.entered) return "you entered it";
    if (item.solved) return "as asked";
    if (item.fate == Fate::optional) return "optional";
    if (item.moved) return "keeps it inside";
    return "";
}

class Screen {
  public:
    Screen(const plan::WeighOut& out, const TextStyle& style, std::string_view recipe)
        : out_(out)
        , page_(style)
        , units_(style.units)
        , recipe_(recipe)
        , items_(items_in_order(out)) {
        for (const Item* item : items_) {
            if (!on_a_scale(*item)) continue;
            for (const auto& portion : portions_of(*item)) {
                ++rows_;
                readings_.add(portion.reading_g, item->step_g);
            }
        }
        rows_ += out.counts.size() + 2 * out.stocks.size();
    }

    std::string text() {
        head();
        verdict();
        print_refusal(page_, out_, units_);
        const bool above = rows_ > most_rows || !out_.stocks.empty();
        if (above) cautions();
        stocks();
        weigh();
        beside_the_table();
        jars();
        if (!above) cautions();
        page_.next(next_words(out_, units_));
        more();
        return page_.text();
    }

  private:
    // ---- Verdict first ----

    void head() {
        const std::string title = visible(title_words(out_));
        const std::string kitchen =
            "kitchen: " +
            (out_.kitchen_built_in ? std::string("none found, 1 g steps") : visible(out_.kitchen));
        const int room = page_.width() - columns(title) - columns(kitchen);
        if (room >= 2) {
            page_.raw(title + std::string(static_cast<std::size_t>(room), ' ') + kitchen, true);
        } else {
            page_.paragraph(title, 0, 0, true);
            page_.paragraph(kitchen, 2, 2);
        }
        print_answer(page_, out_, units_);
        if (!out_.left_out.empty())
            page_.paragraph("Made without " + listed(out_.left_out) + ".", 0, 0);
        print_bowl(page_, out_, units_);
    }

    void verdict() {
        if (!out_.salt) {
            page_.paragraph("SALT NOT JUDGED. " +
                                (out_.no_salt_reason.empty()
                                     ? std::string("The recipe says no kind of ferment.")
                                     : stopped(out_.no_salt_reason)),
                            0, 2, true);
            return holds_broken();
        }
        const plan::SaltJudgement& salt = *out_.salt;
        const std::string figure = "SALT " + percent(salt.figure.percent) + " % " +
                                   std::string(larder::describe(salt.figure.basis));
        std::string line = figure + ": " + judged_by(salt);
        if (salt.verdict == Verdict::below) line = "DO NOT PACK. " + line;
        if (salt.verdict == Verdict::above) line = "TOO MUCH SALT. " + line;
        if (salt.verdict == Verdict::undecided)
            line = "DO NOT PACK YET. SALT " + percents(salt.figure.bounds) + " " +
                   std::string(larder::describe(salt.figure.basis)) + ": UNDECIDED; the range is " +
                   range_words(salt.low, salt.high);
        page_.paragraph(line, 0, 2, true);
        if (salt.verdict != Verdict::inside) answer_in_grams(salt);
        if (of_the_house(salt)) page_.paragraph(stopped(salt.why));
        holds_broken();
    }

    /// "inside the published range, 2 to 3 %".
    static std::string judged_by(const plan::SaltJudgement& salt) {
        if (!salt.low && !salt.high) return verdict_words(salt);
        constexpr std::string_view of = "the range of ";
        const std::string standing = range_standing(salt.low, salt.high);
        const std::string range = range_words(salt.low, salt.high);
        if (!standing.starts_with(of)) return loud(salt.verdict) + " " + standing + ", " + range;
        return loud(salt.verdict) + " the range, " + range + " (" + standing.substr(of.size()) +
               ")";
    }

    /// The grams of salt that would do, of this batch.
    void answer_in_grams(const plan::SaltJudgement& salt) {
        std::string words;
        if (salt.verdict == Verdict::below) words = "A safety matter.";
        if (salt.verdict == Verdict::above) words = "A quality matter.";
        if (salt.verdict == Verdict::undecided && !salt.decides.empty())
            words = stopped(capital(salt.decides));
        if (out_.salt_needed) {
            const plan::SaltNeeded& needed = *out_.salt_needed;
            const Item* item = find(needed.name);
            if (item != nullptr && salt.verdict != Verdict::undecided) {
                words += " " + units::print_reading(item->reading_g, item->step_g) + " is too " +
                         (salt.verdict == Verdict::below ? "little" : "much") + " for this batch:";
            } else {
                words += (words.empty() ? "" : " ") + std::string("For this batch");
            }
            words += " " + needed_words(needed) + " is inside.";
        } else if (salt.verdict != Verdict::undecided) {
            words += " This batch has " + range_words(salt.low, salt.high) + " to keep to.";
        }
        if (!words.empty()) page_.paragraph(words, 2, 2);
    }

    static std::string needed_words(const plan::SaltNeeded& needed) {
        if (!needed.high_g) return units::print_reading(needed.low_g, needed.step_g) + " or more";
        return reading_figure(needed.low_g, needed.step_g) + " to " +
               units::print_reading(*needed.high_g, needed.step_g);
    }

    void holds_broken() {
        for (const plan::HoldCheck& check : out_.checks) {
            if (check.verdict == Verdict::inside) continue;
            page_.paragraph("YOUR LIMIT: " + hold_judged(check) + "." +
                                (check.why.empty() ? "" : " " + stopped(capital(check.why))),
                            0, 2, true);
        }
    }

    // ---- What to weigh ----

    [[nodiscard]] int name_width() const {
        return page_.width() - number_width - scale_width - true_width - remark_width - 10;
    }

    void row(const std::string& figure, const std::string& name, const std::string& scale,
             const std::string& truth, const std::string& remark) {
        page_.row(
            {{.text = figure, .width = number_width, .keep = true, .right = true, .bold = true},
             {.text = name, .width = name_width()},
             {.text = scale, .width = scale_width},
             {.text = truth, .width = true_width, .dim = true},
             {.text = remark, .width = remark_width, .dim = true}});
    }

    void heading(const std::string& words) {
        page_.gap();
        page_.row({{.text = words, .width = number_width + name_width() + 4, .bold = true},
                   {.text = "scale", .width = scale_width, .dim = true},
                   {.text = "true weight", .width = true_width, .dim = true},
                   {.text = "", .width = remark_width}},
                  0);
    }

    void weigh_item(const Item& item) {
        const auto portions = portions_of(item);
        for (std::size_t i = 0; i < portions.size(); ++i) {
            std::string name = named(item.name, item.material);
            // Which salt it is matters by the scale; what else a line is, stands on the card.
            if (item.role != larder::Role::salt && columns(name) > name_width())
                name = visible(item.name);
            if (portions.size() > 1)
                name = visible(item.name) + ", portion " + std::to_string(i + 1) + " of " +
                       std::to_string(portions.size());
            row(readings_.figure(portions[i].reading_g, item.step_g), name,
                visible(portions[i].scale.empty() ? item.scale : portions[i].scale),
                portions.size() == 1 ? plus_minus(item) : "",
                i == 0 ? remark_of(item) : std::string());
        }
    }

    void weigh() {
        const bool any =
            std::any_of(items_.begin(), items_.end(), [](auto* i) { return on_a_scale(*i); });
        if (!any && out_.counts.empty()) return;
        heading("WEIGH, in this order");
        for (const Item* item : items_)
            if (on_a_scale(*item)) weigh_item(*item);
        for (const plan::Count& count : out_.counts)
            count_row(count);
        for (const Item* item : items_) {
            if (item->too_small && item->fate != Fate::stock)
                page_.paragraph("By the spoon: " + pinch_words(*item, units_), 4, 6);
        }
        for (const Item* item : items_) {
            if (item->fate == Fate::later && !item->entered)
                page_.paragraph("Weigh later: " + later_words(*item, units_), 4, 6);
        }
    }

    void count_row(const plan::Count& count) {
        std::string remark;
        if (count.fate == Fate::optional) remark = "optional";
        if (std::abs(count.exact - count.count) > 1e-9)
            remark = (remark.empty() ? "calculated " : remark + ", calculated ") +
                     units::print_number(count.exact, 3);
        row(std::to_string(count.count) + std::string(readings_.decimals() + 2, ' '),
            named(count.name, count.material) + (count.each_jar ? ", in each jar" : ""), "count",
            "", remark);
    }

    void stocks() {
        for (const plan::Stock& stock : out_.stocks) {
            heading("MIX FIRST: " + stock_title(stock));
            weigh_item(stock.water);
            weigh_item(stock.salt);
            page_.paragraph(stock_words(stock, units_));
        }
    }

    // ---- What else is part of the answer ----

    void beside_the_table() {
        std::string words;
        for (const std::string& part : {made_words(), kept_words(), top_up_words()})
            if (!part.empty()) words += (words.empty() ? "" : " ") + part;
        if (!words.empty()) page_.paragraph(words);
    }

    [[nodiscard]] std::string top_up_words() const {
        if (!out_.top_up) return "";
        return "If the juice does not cover: " + mass(out_.top_up->salt_g, units_) +
               " of salt in " + mass(out_.top_up->water_g, units_) + " of water, poured on.";
    }

    [[nodiscard]] std::string made_words() const {
        std::string words;
        double total = out_.in_jar_g;
        if (total >= 1000) total = std::round(total / 10) * 10;
        const bool later = std::any_of(items_.begin(), items_.end(), [](const Item* i) {
            return i->fate == Fate::later && !i->entered && i->word != "measure";
        });
        if (!later && total > 0) words = "About " + mass(total, units_);
        if (!out_.room) return words.empty() ? words : words + " in all.";
        words += (words.empty() ? "Fills " : "; fills ") + volume(out_.room->fill_ml, units_);
        if (out_.jar_choice && !out_.jar_choice->by_name && !out_.jars.empty())
            words += ": into " + jar_names();
        else if (out_.jars.empty() && out_.room->brimful_ml)
            words += ": a jar of " + volume(*out_.room->brimful_ml, units_) + " or several";
        if (out_.room->headspace_percent)
            words += ", " + percent(*out_.room->headspace_percent) + " % left free";
        if (out_.room->headspace_cm)
            words += ", " + length(*out_.room->headspace_cm, units_) + " left free on top";
        return words + ".";
    }

    [[nodiscard]] std::string jar_names() const {
        std::vector<std::string> names;
        for (const plan::JarShare& jar : out_.jars)
            names.push_back(jar.name);
        return counted(names);
    }

    /// Limits of the cook's own that are kept, and the variants that were judged too.
    [[nodiscard]] std::string kept_words() const {
        const auto kept = std::count_if(out_.checks.begin(), out_.checks.end(),
                                        [](const auto& c) { return c.verdict == Verdict::inside; });
        std::string words;
        if (kept > 0) words = kept == 1 ? "Your own limit is kept." : "Your own limits are kept.";
        if (!out_.salt) return words;
        const auto& variants = out_.salt->variants;
        const auto inside = [](const auto& variant) { return variant.verdict == Verdict::inside; };
        if (variants.size() > 1 && std::all_of(variants.begin(), variants.end(), inside))
            return words + (words.empty() ? "" : " ") + "Every variant of it is inside too.";
        for (const auto& variant : variants) {
            words += (words.empty() ? "" : " ") + capital(variant.text) + ": " +
                     (variant.verdict == Verdict::inside ? "still inside" : loud(variant.verdict)) +
                     ".";
        }
        return words;
    }

    void jars() {
        const bool named = out_.jar_choice && out_.jar_choice->by_name;
        if (out_.jars.empty() || (!named && jars_in_the_way(out_, units_).empty())) return;
        page_.heading("PACK INTO " + (out_.jars.size() == 1
                                          ? std::string("ONE JAR")
                                          : std::to_string(out_.jars.size()) + " JARS"));
        for (const plan::JarShare& jar : out_.jars) {
            std::vector<std::string> parts;
            for (const plan::JarItem& item : weighed_into(jar))
                parts.push_back(jar_figure_of(item) + " " + visible(item.name));
            std::string words = visible(jar.name) + ", " + volume(jar.brimful_ml, units_) + ": " +
                                listed(parts) + ".";
            if (jar.level_cm) words += " Fill it " + length(*jar.level_cm, units_) + " high.";
            if (jar.salt && jar.salt->verdict != Verdict::inside)
                words += " Salt " + percents(jar.salt->figure.bounds) + ": " +
                         loud(jar.salt->verdict) + ".";
            page_.paragraph(words, 2, 4);
        }
        const std::string bowl = bowl_salt_words(out_);
        if (!bowl.empty()) page_.paragraph(bowl);
        print_left_over(page_, out_, units_);
    }

    static std::string jar_figure_of(const plan::JarItem& item) {
        std::string figure = render::figure_of(item);
        figure.erase(0, figure.find_first_not_of(' '));
        return figure;
    }

    // ---- Cautions, and what else there is ----

    void cautions() { print_safety(page_, out_.cautions, "--full, or the card"); }

    void more() {
        const bool traced = out_.salt && !recipe_.empty() && recipe_ != "-";
        page_.more(
            "method, days, sources",
            traced ? language::command_line({"jarful", "trace", std::string(recipe_), "verdict"})
                   : "");
    }

    [[nodiscard]] const Item* find(const std::string& name) const {
        const auto found = std::find_if(items_.begin(), items_.end(),
                                        [&](const Item* item) { return item->name == name; });
        return found == items_.end() ? nullptr : *found;
    }

    const plan::WeighOut& out_;
    Page page_;
    Units units_;
    std::string_view recipe_;
    std::vector<const Item*> items_;
    std::size_t rows_ = 0;
    ReadingColumn readings_;
};

} // namespace

std::string weigh_screen(const plan::WeighOut& out, const TextStyle& style,
                         std::string_view recipe) {
    TextStyle brief = style;
    brief.brief = true;
    return Screen(out, brief, recipe).text();
}

} // namespace jarful::render
