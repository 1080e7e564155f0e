#include "engine/render/text_jars.hpp"

#include "engine/render/jar_words.hpp"
#include "engine/render/weigh_words.hpp"
#include "engine/render/words.hpp"
#include "engine/units/display.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace jarful::render {

namespace {

using plan::Fate;
using plan::JarItem;
using plan::JarShare;
using plan::Verdict;

constexpr int number_width = 10;

std::string remarks(const JarItem& item, Units units) {
    std::vector<std::string> words;
    if (!item.pieces && !item.too_small) {
        const std::string other = beside(item.reading_g, item.step_g, units);
        if (!other.empty()) words.push_back(other);
    }
    if (item.portions.size() > 1) {
        std::string goes;
        for (const plan::Portion& portion : item.portions)
            goes +=
                (goes.empty() ? "" : " + ") + units::print_reading(portion.reading_g, item.step_g);
        words.push_back("in " + std::to_string(item.portions.size()) + " goes: " + goes);
    }
    if (item.fate == Fate::optional) words.emplace_back("if you like it");
    if (item.fate == Fate::on_top) words.emplace_back("as a layer on top");
    if (item.later) words.emplace_back("weighed later: what it likely comes to");
    std::string out;
    for (const std::string& word : words)
        out += (out.empty() ? "" : "; ") + word;
    return out;
}

void print_item(Page& page, const JarItem& item, Units units) {
    const bool weighed = !item.pieces && !item.too_small;
    std::string name = visible(item.name);
    if (!item.material.empty() && item.material != item.name)
        name += " (" + visible(item.material) + ")";
    if (item.too_small) name += ": about " + mass(item.exact_g, units);
    const std::string figure = figure_of(item);
    const int figure_width = std::max(number_width, columns(figure));
    const int truth_width = units == Units::us && units::reads_ounces(item.step_g) ? 28 : 22;
    page.row({{.text = figure, .width = figure_width, .keep = true, .right = true, .bold = true},
              {.text = name, .width = page.width() - figure_width - truth_width - 20},
              {.text = weighed && !item.later ? item.scale : "", .width = 12},
              {.text = weighed ? reading_between(item.truth, item.step_g, units) : "",
               .width = truth_width,
               .dim = true}});
    const std::string words = remarks(item, units);
    if (words.empty()) return;
    page.row({{.text = "", .width = number_width},
              {.text = words, .width = page.width() - number_width - 4, .dim = true}});
}

std::string would_have_taken(const plan::JarChoice& choice, Units units) {
    if (!choice.rest_brimful_ml)
        return "What jar would take it cannot be said: no vessel's width is known.";
    std::string words = "A jar of " + volume(*choice.rest_brimful_ml, units) + " brimful";
    if (!choice.rest_as_wide_as.empty())
        words += ", as wide as " + visible(choice.rest_as_wide_as) + ",";
    return words + " would have taken it under the same headspace.";
}

/// That a jar by itself is not inside; empty if every one is.
std::string salt_of_jars_in_the_way(const plan::WeighOut& out) {
    if (std::all_of(out.jars.begin(), out.jars.end(), [](const JarShare& jar) {
            return !jar.salt || jar.salt->verdict == Verdict::inside;
        }))
        return "";
    return "do not pack like this. Make one vessel of it, weigh the salt on a finer scale, or "
           "change the salt of the recipe, and ask again.";
}

class JarsPage {
  public:
    JarsPage(const plan::WeighOut& out, const TextStyle& style)
        : out_(out)
        , choice_(*out.jar_choice)
        , page_(style)
        , units_(style.units) {}

    std::string text() {
        head();
        print_jars(page_, out_, units_);
        print_left_over(page_, out_, units_);
        passed_over();
        whole_batch();
        cautions();
        assumptions();
        page_.next(next());
        return page_.text();
    }

  private:
    void head() {
        std::string title = out_.title.empty() ? "A recipe without a title" : out_.title;
        if (out_.version) title += ", version " + std::to_string(*out_.version);
        page_.heading(title);
        std::vector<std::string> from;
        for (const plan::Item& item : out_.givens)
            from.push_back(weighed_mass(item.reading_g, item.step_g, units_) + " of " +
                           visible(item.name));
        std::string words = "It fills " + volume(choice_.volume_ml, units_);
        if (!from.empty()) words += ", from " + listed(from);
        words += ".";
        if (choice_.headspace_percent)
            words += " " + percent(*choice_.headspace_percent) + " % of each jar stays free.";
        if (choice_.headspace_cm)
            words += " " + length(*choice_.headspace_cm, units_) + " on top of each jar stay free.";
        page_.paragraph(words, 0, 0);
        if (!out_.left_out.empty())
            page_.paragraph("Made without " + listed(out_.left_out) + ".", 0, 0);
        page_.paragraph("Kitchen: " + stopped(out_.kitchen), 0, 0);
        std::vector<std::string> names;
        for (const JarShare& jar : out_.jars)
            names.push_back(jar.name);
        if (names.empty()) return;
        page_.paragraph("Take " + counted(names) + choice_words(), 0, 0);
        if (!choice_.more_air.empty())
            page_.paragraph("It would go into " + counted(choice_.more_air) +
                                " too, but with too much air: one would stand under two thirds "
                                "full.",
                            0, 0);
    }

    /// The rest of the sentence that says what to take, and what else there is to say of the
    /// choice.
    [[nodiscard]] std::string choice_words() const {
        const std::string room = volume(choice_.empty_ml, units_) + " of room stays over.";
        if (choice_.unplaced_ml > 0)
            return std::string(choice_.by_name ? ", as you named them" : ", all that can be used") +
                   ", each filled to its headspace.";
        std::string words = choice_.by_name ? ", as you named them" : ": the fewest that hold it";
        if (!choice_.more_air.empty()) words += " without too much air";
        if (choice_.covered)
            words += ". The brine is reckoned up to the headspace.";
        else if (choice_.empty_ml < 0.5)
            words += choice_.by_name ? ". They are full." : ", and they are full.";
        else
            words += (choice_.by_name ? ". " : ", and of these the least empty. ") + room;
        if (!choice_.best)
            words += " With so many jars another choice may leave a little less empty.";
        return words;
    }

    void passed_over() {
        if (choice_.passed_over.empty()) return;
        page_.heading("NOT USED");
        for (const auto& each : choice_.passed_over)
            page_.item("-", visible(each.name) + " " + stopped(each.why), 2, 4);
    }

    /// What is wrong with the batch as a whole, which no jar mends.
    void whole_batch() {
        std::vector<std::string> found;
        if (out_.salt && out_.salt->verdict != Verdict::inside) found.push_back(out_.salt->reason);
        for (const plan::HoldCheck& check : out_.checks)
            if (check.verdict != Verdict::inside)
                found.push_back("The house's bound on " + check.text + ": " + check.reason);
        if (found.empty()) return;
        page_.heading("THE BATCH AS A WHOLE");
        for (const std::string& text : found)
            page_.item("-", stopped(text), 2, 4);
    }

    /// What is particular to the jars; the rest stands on the weigh-out.
    void cautions() {
        bool first = true;
        for (const plan::Warning& warning : out_.cautions) {
            if (warning.id != "air" && warning.id != "submerged" && warning.id != "gas") continue;
            if (first) page_.heading("SAFETY");
            first = false;
            page_.titled(warning.title, stopped(warning.text));
        }
    }

    void assumptions() {
        if (out_.assumptions.empty()) return;
        page_.heading("TAKEN FOR GRANTED");
        for (const std::string& text : out_.assumptions)
            page_.item("-", stopped(text), 2, 4);
    }

    [[nodiscard]] std::string next() const {
        if (out_.jars.empty())
            return "describe the jars in the kitchen so that one can be used, and ask again.";
        const std::string of_jars = salt_of_jars_in_the_way(out_);
        if (!of_jars.empty()) return of_jars;
        if (out_.verdict.value_or(Verdict::inside) != Verdict::inside)
            return "settle the batch first: jarful weigh says what is out of bounds and why.";
        const std::string room = jars_in_the_way(out_, units_);
        if (!room.empty()) return room;
        const JarShare& jar = out_.jars.front();
        if (jar.mixture && !jar.mixture->later && !jar.mixture->too_small) {
            const JarItem& mixture = *jar.mixture;
            return "weigh, salt and mix it all in one bowl, as jarful weigh says. Then put " +
                   visible(jar.name) + " on " +
                   (mixture.scale.empty() ? "the scale" : visible(mixture.scale)) +
                   ", zero it, and pack it until it shows " +
                   units::print_reading(mixture.portions.size() > 1
                                            ? mixture.portions.front().reading_g
                                            : mixture.reading_g,
                                        mixture.step_g) +
                   ".";
        }
        for (const JarItem& item : jar.items) {
            if (item.pieces || item.too_small || item.later || none_of_it(item)) continue;
            return weigh_in_words(item.scale, item.name + " for " + jar.name,
                                  item.portions.empty() ? item.reading_g
                                                        : item.portions.front().reading_g,
                                  item.step_g);
        }
        return "fill " + visible(jar.name) + " with " + volume(jar.fill_ml, units_) + ".";
    }

    const plan::WeighOut& out_;
    const plan::JarChoice& choice_;
    Page page_;
    Units units_;
};

} // namespace

std::string jars_in_the_way(const plan::WeighOut& out, Units units) {
    const std::string salt = salt_of_jars_in_the_way(out);
    if (!salt.empty()) return salt;
    if (!out.jar_choice || out.jar_choice->unplaced_ml <= 0) return "";
    return "find another jar, or make less: " + mass(out.jar_choice->unplaced_g, units) +
           " has no place.";
}

void print_left_over(Page& page, const plan::WeighOut& out, Units units) {
    if (!out.jar_choice || out.jar_choice->unplaced_ml <= 0) return;
    const plan::JarChoice& choice = *out.jar_choice;
    page.heading("LEFT OVER: " + volume(choice.unplaced_ml, units) + ", " +
                 mass(choice.unplaced_g, units));
    page.paragraph(choice.why);
    for (const JarItem& item : weighed_into(choice.left_over, choice.left_mixture))
        if (!none_of_it(item)) print_item(page, item, units);
    page.paragraph(would_have_taken(choice, units));
}

void print_jars(Page& page, const plan::WeighOut& out, Units units) {
    if (out.jars.empty()) return;
    const bool mixed = from_one_bowl(out);
    const char* what = mixed ? "the mixture" : "each";
    page.heading(out.jars.size() == 1
                     ? fmt::format("INTO ONE JAR, so much of {}", what)
                     : fmt::format("INTO {} JARS, so much of {} into each", out.jars.size(), what));
    for (const AlikeJars& alike : alike_jars(out)) {
        const JarShare& jar = out.jars[alike.first];
        page.gap();
        page.paragraph(jar_title(out, alike, units), 2, 4, true);
        page.paragraph(level_words(jar, units), 4, 4);
        for (const JarItem& item : weighed_into(jar))
            if (!none_of_it(item)) print_item(page, item, units);
        const std::string salt = jar_salt_words(jar);
        if (!salt.empty())
            page.paragraph(salt, 4, 4, jar.salt && jar.salt->verdict != Verdict::inside);
    }
    const std::string bowl = bowl_salt_words(out);
    if (bowl.empty()) return;
    page.gap();
    page.paragraph(bowl, 2, 2, out.salt->verdict != Verdict::inside);
}

std::string jars_text(const plan::WeighOut& out, const TextStyle& style) {
    return JarsPage(out, style).text();
}

} // namespace jarful::render
