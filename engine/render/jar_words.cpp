#include "engine/render/jar_words.hpp"

#include "engine/render/weigh_words.hpp"
#include "engine/render/words.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace jarful::render {

using plan::JarItem;
using plan::JarShare;
using plan::Verdict;

namespace {

bool same(const JarShare& a, const JarShare& b) {
    if (a.name != b.name || a.items.size() != b.items.size()) return false;
    if (a.mixture.has_value() != b.mixture.has_value()) return false;
    if (a.mixture && a.mixture->reading_g != b.mixture->reading_g) return false;
    for (std::size_t i = 0; i < a.items.size(); ++i) {
        if (a.items[i].pieces != b.items[i].pieces) return false;
        // What is in a mixture is not weighed.
        if (!a.mixture && a.items[i].reading_g != b.items[i].reading_g) return false;
    }
    return true;
}

} // namespace

std::vector<AlikeJars> alike_jars(const plan::WeighOut& out) {
    std::vector<AlikeJars> groups;
    for (std::size_t i = 0; i < out.jars.size(); ++i) {
        if (!groups.empty() && same(out.jars[groups.back().first], out.jars[i])) {
            ++groups.back().count;
        } else {
            groups.push_back({i, 1});
        }
    }
    return groups;
}

std::string counted(const std::vector<std::string>& names) {
    std::vector<std::string> parts;
    for (std::size_t i = 0; i < names.size();) {
        const auto n = static_cast<std::size_t>(std::count(names.begin(), names.end(), names[i]));
        parts.push_back(n == 1 ? visible(names[i]) : std::to_string(n) + " × " + visible(names[i]));
        i += n;
    }
    return listed(parts);
}

std::string chosen_jars_words(const plan::WeighOut& out) {
    if (out.jars.empty() || !out.jar_choice || out.jar_choice->by_name) return "";
    std::vector<std::string> names;
    for (const JarShare& jar : out.jars)
        names.push_back(jar.name);
    std::string words =
        "It goes into " + counted(names) + ", as `jarful jars` chooses; jar=NAME names another.";
    if (out.jar_choice->covered) words += " The water is what fills it up to the headspace.";
    return words;
}

std::string jar_title(const plan::WeighOut& out, const AlikeJars& alike, Units units) {
    const JarShare& jar = out.jars[alike.first];
    const std::size_t n = alike.count;
    std::string title = visible(jar.name) + ", " + volume(jar.brimful_ml, units) + " brimful";
    if (out.jars.size() > 1) {
        const std::size_t number = alike.first + 1;
        title =
            (n == 1 ? std::to_string(number) : fmt::format("{} to {}", number, number + n - 1)) +
            ": " + title;
    }
    if (n == 2) title += ", both alike";
    if (n > 2) title += fmt::format(", all {} alike", n);
    return title;
}

std::string level_words(const JarShare& jar, Units units) {
    std::string words = "Fill it with " + volume(jar.fill_ml, units);
    if (jar.level_cm) words += ", " + length(*jar.level_cm, units) + " high";
    if (jar.weights_ml > 0)
        words += jar.level_cm ? " with its weights in" : ", and its weights on top";
    if (jar.headspace_cm) words += "; " + length(*jar.headspace_cm, units) + " stay free";
    words += ". That is " + percent(std::round(jar.full_percent)) + " % of the " +
             std::string(jar.crock ? "crock" : "jar");
    words += jar.airy ? ", under two thirds: too much air." : ".";
    return words;
}

std::string jar_salt_words(const JarShare& jar) {
    if (!jar.salt) return "";
    const plan::SaltJudgement& salt = *jar.salt;
    std::string words = "Salt " + percent(salt.figure.percent) + " % " +
                        std::string(larder::describe(salt.figure.basis));
    const std::string bounds = percents(salt.figure.bounds);
    if (bounds != percent(salt.figure.percent) + " %") words += " (" + bounds + ")";
    words += ": " + verdict_words(salt) + ".";
    if (salt.verdict != Verdict::inside) {
        words += " " + stopped(salt.reason);
        if (!salt.decides.empty()) words += " What would decide it: " + stopped(salt.decides);
    }
    return words;
}

std::vector<JarItem> weighed_into(const JarShare& jar) {
    return weighed_into(jar.items, jar.mixture);
}

std::vector<JarItem> weighed_into(const std::vector<JarItem>& items,
                                  const std::optional<JarItem>& mixture) {
    std::vector<JarItem> out;
    if (mixture) out.push_back(*mixture);
    for (const JarItem& item : items)
        if (!mixture || item.pieces) out.push_back(item);
    return out;
}

bool from_one_bowl(const plan::WeighOut& out) {
    return !out.jars.empty() && out.jars.front().mixture.has_value();
}

std::string bowl_salt_words(const plan::WeighOut& out) {
    if (!from_one_bowl(out) || !out.salt) return "";
    return "All is salted and mixed through in one bowl, so the salt is judged there, once for "
           "all jars: " +
           salt_headline(*out.salt) + ".";
}

std::string figure_of(const JarItem& item) {
    if (item.pieces) return std::to_string(*item.pieces);
    if (item.too_small) return item.exact_g < 0.05 ? "a trace" : "a pinch";
    const std::string shown = units::print_reading(item.reading_g, item.step_g);
    return item.later ? "~" + shown : shown;
}

bool none_of_it(const JarItem& item) {
    return item.pieces ? *item.pieces == 0 : item.reading_g <= 0 && item.exact_g <= 0;
}

} // namespace jarful::render
