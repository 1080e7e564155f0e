#pragma once

#include "tests/support/recipe.hpp"

#include <string>
#include <string_view>
#include <vector>

/// Recipes and a kitchen for the tests of jars.
namespace jarful::plan::jars_test {

using test::kitchen_of;
using test::Outcome;

inline constexpr const char* quay_street = R"(kitchen "Quay Street"
scale  bench   reads 1 g    up to 5 kg    within 1 g
scale  pocket  reads 0.1 g  up to 500 g   within 0.1 g
jar    tall    holds 1.50 L brimful   across 10 cm   have 3
jar    squat   holds 0.75 L brimful   across 9 cm    have 4
)";

inline constexpr const char* kraut = R"(recipe "Quay Street kraut"
kind   kraut
given  cabbage = 3.10 kg
weigh  salt    = 2.2 % of cabbage              as fine sea salt
weigh  caraway = 1.5 g per kg of cabbage       as caraway seed
count  bay     = 5                             as bay leaf
count  clove   = 2 each jar                    as whole clove
fill   cabbage / (0.90 kg/L)
headspace 12 %
)";

/// Water is poured into each jar, and so is its salt.
inline constexpr const char* sticks = R"(recipe "Quay Street sticks"
kind   roots
given  carrots = 3.10 kg                       as carrot
weigh  water   = 800 g
weigh  salt    = 2.5 % of (carrots + water)    as fine sea salt
fill   carrots / (0.90 kg/L)
headspace 12 %
)";

/// Weighs with the kitchen's own jars.
inline Outcome jars(const std::string& recipe, const std::string& kitchen = quay_street,
                    const std::vector<std::string>& settings = {},
                    const std::vector<std::string>& without = {}) {
    Outcome o;
    language::Findings findings;
    auto source = language::read_source("test.jarful", recipe, findings);
    const language::Document doc = language::parse(std::move(*source), findings);
    Request request;
    request.vessels = Request::Vessels::needed;
    request.without = without;
    for (const std::string& s : settings) {
        auto setting = read_setting(s, findings);
        if (setting) request.settings.push_back(*setting);
    }
    const kitchen::Kitchen k = kitchen.empty() ? kitchen::default_kitchen() : kitchen_of(kitchen);
    RequestFindings found;
    if (!findings.has_faults()) o.out = weigh(doc, k, request, findings, found);
    test::note(o, doc.source, findings);
    for (const auto& f : found.settings)
        test::note(o, doc.source, f);
    return o;
}

inline const JarItem* item(const JarShare& jar, std::string_view name) {
    for (const JarItem& i : jar.items)
        if (i.name == name) return &i;
    return nullptr;
}

inline const Item* whole(const WeighOut& out, std::string_view name) {
    for (const auto* list : {&out.givens, &out.items})
        for (const Item& i : *list)
            if (i.name == name) return &i;
    return nullptr;
}

/// The readings of all jars and of what is left over.
inline double sum(const WeighOut& out, std::string_view name) {
    double g = 0;
    for (const JarShare& jar : out.jars)
        g += item(jar, name)->reading_g;
    for (const JarItem& i : out.jar_choice->left_over)
        if (i.name == name) g += i.reading_g;
    return g;
}

} // namespace jarful::plan::jars_test
