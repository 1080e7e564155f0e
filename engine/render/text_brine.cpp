#include "engine/render/brine_report.hpp"
#include "engine/render/weigh_words.hpp"
#include "engine/render/words.hpp"
#include "engine/units/display.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::render {

namespace {

using larder::BrineAnswer;
using larder::BrineMix;
using larder::Gauge;
using larder::Strength;
using plan::BrineWeighed;
using Sort = BrineAnswer::Sort;

constexpr const char* saturated = "26.395 % of the brine, which is 35.86 g to 100 g of water";

/// "5 %" or "50 g/L", as it was asked for.
std::string asked_words(const larder::AskedStrength& asked) {
    const std::string figure = units::print_number(asked.figure, 5);
    switch (asked.gauge) {
    case Gauge::percent_of_brine:
    case Gauge::percent_of_water:
        return figure + " %";
    case Gauge::g_per_l_of_brine:
    case Gauge::g_per_l_of_water:
        return figure + " g/L";
    case Gauge::salometer:
        return figure + " degrees salometer";
    case Gauge::baume:
        return figure + " degrees Baumé";
    case Gauge::specific_gravity:
        break;
    }
    return figure + " specific gravity";
}

class BrinePage {
  public:
    BrinePage(const plan::BrineSheet& sheet, const TextStyle& style)
        : sheet_(sheet)
        , page_(style)
        , units_(style.units) {}

    std::string text(const std::string& asked) {
        page_.heading("Brine: " + (asked.empty() ? "from the salt that is to hand" : asked));
        const BrineWeighed& taken = sheet_.taken;
        if (taken.answer.sort == Sort::too_strong) {
            refusal(taken);
        } else {
            weigh(taken);
            outcome(taken);
        }
        said(taken);
        if (sheet_.otherwise) otherwise(*sheet_.otherwise);
        // Where nothing is weighed, these are what was asked for.
        const bool asked_for = !taken.water && !taken.salt;
        if (taken.answer.strength && (asked_for || !page_.brief())) gauges(*taken.answer.strength);
        notes(taken);
        next(taken);
        page_.more(!taken.answer.strength ? ""
                   : asked_for            ? "sources"
                                          : "the same strength in other measures, sources");
        return page_.text();
    }

  private:
    [[nodiscard]] std::string temperature(const BrineWeighed& b) const {
        return units::print_temperature(b.question.celsius + units::zero_celsius, units_);
    }

    /// How what could be read two ways was taken.
    void said(const BrineWeighed& b) {
        const auto open = [](const std::optional<larder::AskedStrength>& s) {
            return s && s->basis_matters() && !s->said;
        };
        const auto& q = b.question;
        if (open(q.at) || open(q.from)) {
            const auto& one = open(q.at) ? *q.at : *q.from;
            std::string words = "Taken: " + asked_words(one);
            words += q.of_water ? " of the water" : " of the finished brine";
            if (q.assumed) {
                words += q.of_water ? ", since an amount of water is named; `--of brine` takes it "
                                      "the other way"
                                    : ", since nothing else is said; `--of water` takes it the "
                                      "other way";
            }
            page_.paragraph(words + ".");
        }
        if (q.amount && !q.from) {
            page_.paragraph(q.amount_of_water
                                ? "The amount is of the water; the brine comes to a little more."
                                : "The amount is of the finished brine.");
        }
        if (b.salt || b.water) {
            page_.paragraph(sheet_.kitchen_built_in
                                ? "Kitchen: none found, so one scale is taken as given: 1 g steps "
                                  "up to 5 kg."
                                : "Kitchen: " + stopped(visible(sheet_.kitchen)));
        }
    }

    void refusal(const BrineWeighed& b) {
        page_.heading("MORE SALT THAN DISSOLVES");
        const double fraction = b.answer.fraction;
        std::string words = "That is " + percent(100 * fraction) +
                            " % of the brine, and no more "
                            "than " +
                            saturated + ", dissolves.";
        if (b.answer.mix && b.answer.sort == Sort::too_strong && b.answer.mix->undissolved_g > 0) {
            const BrineMix& mix = *b.answer.mix;
            words += " Of " + mass(mix.salt_g, units_) + " of salt " +
                     (mix.had_g > 0 ? "added to " + mass(mix.had_g, units_) + " of brine"
                                    : "in " + mass(mix.water_g, units_) + " of water") +
                     ", about " + mass(mix.salt_g - mix.undissolved_g, units_) +
                     " dissolves and about " + mass(mix.undissolved_g, units_) +
                     " stays at the bottom.";
        }
        page_.paragraph(words);
    }

    void row(const plan::Item& item, std::string remark) {
        std::string name = item.name;
        if (item.portions.size() > 1) {
            remark += (remark.empty() ? "" : "; ") + std::string("in ") +
                      std::to_string(item.portions.size()) + " goes";
        }
        if (item.too_small) remark = "too little for the scale";
        if (!remark.empty()) name += ": " + remark;
        page_.row(
            {{.text = item.too_small
                          ? mass(item.exact_g, units_ == Units::us ? units_ : Units::metric)
                          : units::print_reading(item.reading_g, item.step_g),
              .width = 10,
              .keep = true,
              .right = true,
              .bold = true},
             {.text = name, .width = page_.width() - 52, .bold = true},
             {.text = visible(item.scale), .width = 12},
             {.text = reading_between(item.truth, item.step_g, units_), .width = 22, .dim = true}});
    }

    void weigh(const BrineWeighed& b) {
        if (!b.salt && !b.water) return;
        const Sort sort = b.answer.sort;
        page_.heading(sort == Sort::dilute       ? "ADD WATER"
                      : sort == Sort::strengthen ? "ADD SALT"
                                                 : "WEIGH");
        page_.row({{.text = "stop at", .width = 10, .right = true, .dim = true},
                   {.text = "what", .width = page_.width() - 52, .dim = true},
                   {.text = "on scale", .width = 12, .dim = true},
                   {.text = "true weight", .width = 22, .dim = true}});
        if (b.water) row(*b.water, volume(b.answer.mix->water_ml, units_));
        if (b.salt)
            row(*b.salt,
                units_ == Units::metric ? "" : beside(b.salt->reading_g, b.salt->step_g, units_));
    }

    void outcome(const BrineWeighed& b) {
        if (!b.answer.mix) return;
        const BrineMix& mix = *b.answer.mix;
        std::string words;
        if (mix.had_g > 0) {
            words = (b.answer.amount_taken ? "No amount is said, so 1 kg of the brine is taken. "
                                           : "") +
                    std::string("To ") + volume(mix.had_ml, units_) +
                    " of the brine that is there, " + mass(mix.had_g, units_) + ". ";
        }
        words += "It makes " + volume((mix.brine_ml.low + mix.brine_ml.high) / 2, units_) +
                 ", which weighs " + mass(mix.brine_g, units_) + ".";
        if (b.percent_of_brine) {
            words += " As weighed it comes to " + percents(*b.percent_of_brine) +
                     " of the finished brine.";
        }
        page_.paragraph(words);
        if (!b.answer.in_the_end) return;
        const BrineMix& end = *b.answer.in_the_end;
        const bool water = end.water_g > 0;
        page_.paragraph("To have " + volume((end.brine_ml.low + end.brine_ml.high) / 2, units_) +
                        " in the end: take " + mass(end.had_g, units_) + " (" +
                        volume(end.had_ml, units_) + ") of the brine that is there, and add " +
                        mass(water ? end.water_g : end.salt_g, units_) +
                        (water ? " of water." : " of salt."));
    }

    void otherwise(const BrineWeighed& b) {
        std::string figures;
        bool several = false;
        for (const auto* one : {&b.question.from, &b.question.at}) {
            if (!*one || !(*one)->basis_matters()) continue;
            several = !figures.empty();
            figures += (several ? " AND " : "") + asked_words(**one);
        }
        page_.heading("IF " + figures + (several ? " ARE" : " IS") +
                      (b.question.of_water ? " OF THE WATER" : " OF THE FINISHED BRINE"));
        if (b.answer.sort == Sort::too_strong) {
            page_.paragraph("More salt than dissolves.");
            return;
        }
        std::vector<std::string> parts;
        if (b.water) {
            parts.push_back(units::print_reading(b.water->reading_g, b.water->step_g) +
                            " of water");
        }
        if (b.salt) {
            parts.push_back(units::print_reading(b.salt->reading_g, b.salt->step_g) + " of salt");
        }
        const Strength& s = *b.answer.strength;
        page_.paragraph((parts.empty() ? "That is " : capital(listed(parts)) + ", which is ") +
                        percent(s.percent_of_brine) + " % of the finished brine and " +
                        percent(s.percent_of_water) + " % of the water.");
    }

    void gauges(const Strength& s) {
        const std::string at =
            " at " + units::print_temperature(s.celsius + units::zero_celsius, units_);
        page_.heading("THE SAME STRENGTH, COUNTED OTHERWISE");
        const auto line = [&](const std::string& figure, const std::string& words) {
            page_.row({{.text = figure, .width = 10, .keep = true, .right = true, .bold = true},
                       {.text = words, .width = page_.width() - 14}});
        };
        line(units::print_fixed(s.percent_of_brine, 2) + " %",
             "of the finished brine: g of salt in 100 g");
        line(units::print_fixed(s.percent_of_water, 2) + " %",
             "of the water: g of salt to 100 g of water");
        line(units::print_fixed(s.g_per_l_of_brine, 1) + " g/L", "in a litre of the brine" + at);
        line(units::print_fixed(s.g_per_l_of_water, 1) + " g/L", "to a litre of water" + at);
        line(units::print_fixed(s.salometer, 1), "degrees salometer: 100 is saturated at 60 °F");
        line(units::print_fixed(s.baume, 1), "degrees Baumé at 60 °F");
        line(units::print_fixed(s.specific_gravity, 4),
             "specific gravity" + at + ", against water as warm");
        line(units::print_fixed(s.density.typical, 4),
             "kg/L" + at + ", within " +
                 units::print_number((s.density.high - s.density.low) / 2 * 1000, 2) + " g/L");
    }

    void notes(const BrineWeighed& b) {
        page_.gap();
        if (b.salt) {
            page_.paragraph("Use dry canning, pickling or sea salt with nothing added. Never use "
                            "reduced-sodium or curing salt.",
                            0, 0);
        }
        if (b.answer.strength && !page_.brief()) {
            page_.paragraph("Densities: " + stopped(visible(b.answer.strength->density.source)), 0,
                            0);
        }
    }

    void next(const BrineWeighed& b) {
        std::string words = "ask for an amount too, as in `jarful brine 1.5 L at 3.5 %`.";
        if (b.answer.sort == Sort::too_strong) {
            words = "ask for 26 % of the brine at most, or for more water.";
        } else if (b.question.from && b.question.at && !b.water && !b.salt) {
            words = "add nothing: the brine that is there has this strength.";
        } else if (b.water || b.salt) {
            const plan::Item& item = b.water ? *b.water : *b.salt;
            const plan::Portion first = item.portions.empty()
                                            ? plan::Portion{item.scale, item.reading_g}
                                            : item.portions.front();
            words = weigh_in_words(first.scale, item.name, first.reading_g, item.step_g) +
                    (b.water && b.salt ? " Then the salt." : "");
        }
        page_.next(words);
    }

    const plan::BrineSheet& sheet_;
    Page page_;
    Units units_;
};

} // namespace

std::string brine_text(const plan::BrineSheet& sheet, const std::string& asked,
                       const TextStyle& style) {
    return BrinePage(sheet, style).text(asked);
}

} // namespace jarful::render
