/// A kitchen of any bytes, and a recipe weighed out and shared into jars in it.

#include "tests/fuzz/fuzz.hpp"

using namespace jarful;

namespace {

const language::Document& recipe() {
    static const language::Document document = [] {
        auto parsed = fuzz::parse("recipe \"Kraut\"\nkind kraut\ngiven cabbage = 1.8 kg\n"
                                  "weigh salt = 2.2 % of cabbage as canning salt\n"
                                  "weigh caraway = 1 tsp per kg of cabbage as caraway seed\n"
                                  "fill cabbage / 0.9 kg/L\nheadspace 2 cm\n");
        fuzz::demand(parsed && parsed->sound(), "the recipe is sound");
        return std::move(parsed->document);
    }();
    return document;
}

} // namespace

void fuzz_one(const std::string& bytes) {
    auto parsed = fuzz::parse(bytes);
    if (!parsed || !parsed->sound() || parsed->document.kind != language::FileKind::kitchen) return;
    language::Findings findings;
    const kitchen::Kitchen kitchen = kitchen::read_kitchen(parsed->document, findings);
    fuzz::explain_all(parsed->document.source, findings);
    if (findings.has_faults()) return;
    plan::Request request;
    if (kitchen.vessels.size() > 12) request.vessels = plan::Request::Vessels::unknown;
    language::Findings of_recipe;
    plan::RequestFindings of_request;
    const auto out = plan::weigh(recipe(), kitchen, request, of_recipe, of_request);
    fuzz::demand(out || of_recipe.has_faults() || of_request.has_faults(),
                 "nothing is refused without a word");
    if (out && !out->no_reading && out->salt)
        fuzz::demand(out->salt->verdict == plan::Verdict::inside,
                     "readings hold, or it is said that none does");
}
