// How many grams of salt does a recipe come to? The engine in another program's hands.
#include "engine/language/parse.hpp"
#include "engine/plan/plan.hpp"

#include <fstream>
#include <iostream>
#include <sstream>

int main(int argc, char** argv) {
    if (argc != 2) {
        return 2;
    }
    std::ostringstream text;
    text << std::ifstream(argv[1]).rdbuf();

    jarful::language::Findings findings;
    auto source = jarful::language::read_source(argv[1], text.str(), findings);
    if (!source) {
        return 2;
    }
    const auto recipe = jarful::language::parse(std::move(*source), findings);
    jarful::plan::RequestFindings request_findings;
    std::optional<jarful::plan::WeighOut> weigh_out;
    if (!findings.has_faults()) {
        weigh_out = jarful::plan::weigh(recipe, jarful::kitchen::default_kitchen(), {}, findings,
                                        request_findings);
    }
    for (const auto& finding : findings.all()) {
        std::cerr << finding.code << ": " << finding.message << '\n';
    }
    if (!weigh_out) {
        return 1;
    }
    for (const auto& item : weigh_out->items) {
        if (item.name == "salt") {
            std::cout << "exactly " << item.exact_g << " g, on the scale " << item.reading_g
                      << " g\n";
            return 0;
        }
    }
    return 1;
}
