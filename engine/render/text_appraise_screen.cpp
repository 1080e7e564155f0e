#include "engine/larder/larder.hpp"
#include "engine/render/appraise_report.hpp"
#include "engine/render/appraise_words.hpp"
#include "engine/render/words.hpp"
#include "engine/units/amount.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::render {

namespace {

using appraise::Appraisal;
using appraise::Line;
using appraise::LineSort;
using appraise::Verdict;

constexpr std::size_t most_lines = 9; ///< of the list that are shown

/// Whether a line can bear on the verdict: it brings salt, vegetables or water, or may bring them.
bool bears(const Line& line) {
    if (!line.understood) return line.could_matter;
    if (line.left_out) return false;
    switch (line.role.value_or(larder::Role::other)) {
    case larder::Role::salt:
    case larder::Role::vegetable:
    case larder::Role::water:
    case larder::Role::seasoning:
    case larder::Role::acid:
        return true;
    case larder::Role::aromatic:
    case larder::Role::other:
        break;
    }
    return line.per.has_value();
}

class Screen {
  public:
    Screen(const Appraisal& a, const TextStyle& style)
        : a_(a)
        , page_(style)
        , units_(style.units) {}

    std::string text() {
        head();
        to_do();
        lines();
        cautions();
        page_.gap();
        page_.paragraph("More: --full (other ways to count it, what was assumed, the sources)", 0,
                        6);
        return page_.text();
    }

  private:
    void head() {
        std::string title = a_.title.empty() ? "A recipe without a title" : a_.title;
        if (!a_.kind_title.empty()) title += ": " + a_.kind_title;
        page_.paragraph(title, 0, 2);
        std::string line = capital(verdict_words(a_));
        if (a_.percent && a_.basis) {
            line += ": " + percents(*a_.percent) + " salt; the range is " +
                    range_words(a_.low, a_.high) + " " + std::string(larder::describe(*a_.basis));
        }
        page_.paragraph(stopped(line), 0, 2, true);
        const std::string lean = lean_words(a_);
        if (!lean.empty()) page_.paragraph(lean);
        if (!a_.percent || a_.verdict == Verdict::not_a_ferment)
            page_.paragraph(stopped(a_.reason));
    }

    void to_do() {
        page_.heading("WHAT TO DO");
        if (a_.verdict == Verdict::not_a_ferment)
            return page_.paragraph("Follow a tested recipe for what it is, and do not change its "
                                   "vinegar. Keep it in the refrigerator unless that recipe has a "
                                   "canning process.");
        std::string words;
        if (a_.verdict == Verdict::below) words = "It has too little salt: a safety matter.";
        if (a_.verdict == Verdict::above) words = "It has too much salt: a quality matter.";
        const std::string grams = right_for_list_words(a_, units_);
        if (!grams.empty()) words += (words.empty() ? "" : " ") + grams;
        if (a_.verdict == Verdict::inside) words += " The list as it stands is inside.";
        if (!words.empty()) page_.paragraph(words);
        if (a_.verdict == Verdict::undecided && !a_.decides.empty())
            page_.paragraph("What would settle it: " + stopped(a_.decides));
        if (words.empty() && a_.decides.empty()) {
            const std::string right = right_words(a_);
            page_.paragraph(right.empty() ? stopped(a_.reason) : right);
        }
    }

    void lines() {
        std::vector<const Line*> shown;
        std::size_t others = 0;
        for (const Line& line : a_.lines) {
            if (!is_shown(line)) continue;
            if (bears(line) && shown.size() < most_lines)
                shown.push_back(&line);
            else
                ++others;
        }
        if (shown.empty()) return;
        page_.heading("HOW THE LINES WERE READ");
        for (const Line* line : shown)
            row(*line);
        std::string rest;
        if (others > 0)
            rest = std::to_string(others) + (others == 1 ? " other line" : " other lines");
        const std::string not_weighed = other_lines(a_);
        if (!rest.empty()) rest = capital(rest) + " cannot change the verdict. ";
        rest += not_weighed;
        if (!rest.empty()) page_.paragraph(rest);
    }

    void row(const Line& line) {
        const int figure = 19;
        const int name = 20;
        std::string amount;
        if (line.understood && line.per && line.amount && line.amount->unit == "%")
            amount = units::print_number(line.amount->low, 4) + " %";
        else if (line.grams)
            amount = appraised_mass(*line.grams, units_);
        else if (line.understood)
            amount = "no weight";
        std::string what = line.understood && line.material != nullptr
                               ? std::string(line.material->name)
                               : "not understood";
        if (line.per && !line.per->amount.unit.empty() &&
            !(line.amount && line.amount->unit == "%"))
            what += " per " + units::print_number(line.per->amount.low, 4) + " " +
                    line.per->amount.unit;
        page_.row({{.text = line.understood ? "" : "?", .width = 1, .bold = true},
                   {.text = amount, .width = figure, .right = true, .bold = true},
                   {.text = what, .width = name},
                   {.text = line.text.substr(0, 120),
                    .width = page_.width() - figure - name - 9,
                    .dim = true}},
                  0);
    }

    void cautions() {
        const std::string words = cautions_in_short(a_.cautions);
        if (words.empty()) return;
        page_.heading("SAFETY, in short (at length: --full)");
        page_.paragraph(words);
    }

    const Appraisal& a_;
    Page page_;
    Units units_;
};

} // namespace

std::string appraise_screen(const Appraisal& a, const TextStyle& style) {
    return Screen(a, style).text();
}

} // namespace jarful::render
