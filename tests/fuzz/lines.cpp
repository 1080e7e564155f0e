/// A recipe from elsewhere: ingredient lines, or a saved page.

#include "engine/appraise/appraise.hpp"
#include "engine/render/appraise_report.hpp"
#include "tests/fuzz/fuzz.hpp"

#include <cmath>

using namespace jarful;

namespace {

void appraise_one(std::string_view text) {
    appraise::Refusal refusal;
    const auto out = appraise::appraise(text, {}, refusal);
    fuzz::demand(out.has_value(), "a text of any bytes is answered");
    for (const auto& figure : {out->of_vegetables, out->of_brine, out->of_everything}) {
        if (!figure) continue;
        fuzz::demand(!std::isnan(figure->low) && !std::isnan(figure->high), "a figure is a number");
        fuzz::demand(figure->low <= figure->high, "an interval is not inside out");
        fuzz::demand(figure->high >= 0, "there is no less than no salt");
    }
    const std::string recipe = appraise::as_recipe(*out);
    if (!recipe.empty()) {
        const auto parsed = fuzz::parse(recipe);
        fuzz::demand(parsed && parsed->sound(), "a recipe that is written can be read");
    }
}

} // namespace

void fuzz_one(const std::string& bytes) {
    if (bytes.size() > 20000) return;
    if (appraise::is_page(bytes)) {
        for (const appraise::Found& found : appraise::read_page(bytes).recipes)
            appraise_one(found.text);
    } else {
        appraise_one(bytes);
    }
}
