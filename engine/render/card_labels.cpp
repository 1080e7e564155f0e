#include "engine/render/card_parts.hpp"
#include "engine/render/jar_words.hpp"
#include "engine/render/weigh_words.hpp"
#include "engine/render/words.hpp"
#include "engine/units/display.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::render {

namespace {

using plan::Fate;

/// One thing that is in a jar.
struct Content {
    double grams = 0;
    std::string words;
};

std::string amount_of(double grams, double step_g, Units units) {
    if (units == Units::metric) return units::print_reading(grams, step_g);
    return units == Units::us ? weighed_mass(grams, step_g, units)
                              : reading_words(grams, step_g, units);
}

/// The material where it is known: a label is read by others than the cook.
std::string called(const std::string& name, const std::string& material) {
    return material.empty() ? name : material;
}

std::string listed_by_weight(std::vector<Content> contents) {
    std::stable_sort(contents.begin(), contents.end(),
                     [](const Content& a, const Content& b) { return a.grams > b.grams; });
    std::vector<std::string> words;
    for (const Content& content : contents)
        words.push_back(content.words);
    return shown(listed(words));
}

bool stays_in(Fate fate) {
    return fate == Fate::in_jar || fate == Fate::optional || fate == Fate::on_top ||
           fate == Fate::later;
}

std::string contents_of(const plan::JarShare& jar, Units units) {
    std::vector<Content> contents;
    for (const plan::JarItem& item : jar.items) {
        if (none_of_it(item) || !stays_in(item.fate)) continue;
        const std::string name = called(item.name, item.material);
        if (item.pieces) {
            contents.push_back({0, std::to_string(*item.pieces) + " × " + name});
        } else if (item.too_small) {
            contents.push_back({item.exact_g, "a pinch of " + name});
        } else {
            contents.push_back({item.reading_g, name + (item.later ? " about " : " ") +
                                                    amount_of(item.reading_g, item.step_g, units)});
        }
    }
    return listed_by_weight(std::move(contents));
}

std::string contents_of(const plan::WeighOut& out, Units units) {
    std::vector<Content> contents;
    for (const plan::Item* item : items_in_order(out)) {
        if (!stays_in(item->fate)) continue;
        const std::string name = called(item->name, item->material);
        if (item->too_small) {
            contents.push_back({item->exact_g, "a pinch of " + name});
        } else if (item->fate == Fate::later && !item->entered) {
            contents.push_back({item->exact_g, name + " " + masses(item->truth, units)});
        } else {
            contents.push_back(
                {item->reading_g, name + " " + amount_of(item->reading_g, item->step_g, units)});
        }
    }
    for (const plan::Count& count : out.counts) {
        if (stays_in(count.fate))
            contents.push_back(
                {0, std::to_string(count.count) + " × " + called(count.name, count.material)});
    }
    return listed_by_weight(std::move(contents));
}

std::string salt_words(const std::optional<plan::SaltJudgement>& salt) {
    if (!salt) return "";
    std::string words = percent(salt->figure.percent) + " % " +
                        std::string(larder::describe(salt->figure.basis)) + ": " +
                        std::string(plan::describe(salt->verdict));
    if (salt->verdict != plan::Verdict::undecided)
        words += " " + range_words(salt->low, salt->high);
    return shown(words);
}

} // namespace

std::vector<CardLabel> make_labels(const plan::WeighOut& out, const CardTimes& times, Units units) {
    CardLabel common;
    common.title = shown(title_words(out));
    common.salt = salt_words(out.salt);
    if (times.dated) common.packed = tend::print_long_date(times.schedule.start);
    common.ready = ready_days(times);
    const tend::Keeping& keep = times.schedule.keeping;
    if (keep.count > 0) {
        common.keep = keep.where + ", " + std::to_string(keep.count) + " " + keep.period +
                      (keep.count == 1 ? "" : "s");
        if (times.dated && keep.keeps_until)
            common.keep += ", until " + tend::print_long_date(*keep.keeps_until);
    }
    if (out.jars.empty()) {
        common.contents = contents_of(out, units);
        return {common};
    }
    std::vector<CardLabel> labels;
    for (const AlikeJars& alike : alike_jars(out)) {
        const plan::JarShare& jar = out.jars[alike.first];
        CardLabel label = common;
        label.jar = shown(jar.name + ", " + volume(jar.brimful_ml, units));
        label.contents = contents_of(jar, units);
        if (jar.salt) label.salt = salt_words(jar.salt);
        label.copies = static_cast<int>(alike.count);
        labels.push_back(std::move(label));
    }
    return labels;
}

} // namespace jarful::render
