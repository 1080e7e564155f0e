/// A recipe of any bytes: read, judged, weighed out.

#include "engine/render/json_weigh.hpp"
#include "engine/render/text_weigh.hpp"
#include "tests/fuzz/fuzz.hpp"

#include <cmath>

using namespace jarful;

void fuzz_one(const std::string& bytes) {
    auto recipe = fuzz::parse(bytes);
    if (!recipe || !recipe->sound() || recipe->document.kind != language::FileKind::recipe) return;
    const kitchen::Kitchen kitchen = kitchen::default_kitchen();
    language::Findings of_check;
    const auto checked = plan::check(recipe->document, kitchen, of_check);
    fuzz::explain_all(recipe->document.source, of_check);
    fuzz::demand(checked.has_value() || of_check.has_faults(), "nothing is refused without a word");

    language::Findings findings;
    plan::RequestFindings of_request;
    const auto out = plan::weigh(recipe->document, kitchen, {}, findings, of_request);
    fuzz::explain_all(recipe->document.source, findings);
    if (!out) {
        fuzz::demand(findings.has_faults() || of_request.has_faults(),
                     "nothing is refused without a word");
        return;
    }
    for (const auto* list : {&out->givens, &out->items}) {
        for (const plan::Item& item : *list) {
            fuzz::demand(std::isfinite(item.exact_g) && std::isfinite(item.reading_g),
                         "a weight is finite");
            fuzz::demand(item.reading_g >= 0, "no weight is below nothing");
            fuzz::demand(!(item.truth.low > item.truth.high), "an interval is not inside out");
        }
    }
    static_cast<void>(render::weigh_text(*out, {}));
    static_cast<void>(render::weigh_json(*out));
}
