#pragma once

#include "engine/language/explain.hpp"
#include "engine/language/inherit.hpp"
#include "engine/language/parse.hpp"
#include "engine/plan/plan.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

/// Recipes in tests: text in, weigh-out or diagnostics out.
namespace jarful::test {

struct Outcome {
    std::optional<plan::WeighOut> out;
    std::optional<plan::CheckResult> check;
    std::vector<std::string> codes; ///< of everything found, in order
    std::string said;               ///< the same, as a person reads it
};

inline void note(Outcome& o, const language::Source& source, const language::Findings& findings) {
    for (const language::Diagnostic& d : findings.all()) {
        o.codes.push_back(d.code);
        o.said += language::explain(source, d, {}) + "\n";
    }
}

/// Parses a recipe, with what it inherits from recipes of the demo book.
inline language::Document read_recipe(language::Source source, language::Findings& findings) {
    language::Document doc = language::parse(std::move(source), findings);
    if (findings.has_faults()) return doc;
    const auto find = [](std::string_view name, const std::string&) {
        language::FoundBase out;
        out.path = std::string(JARFUL_SOURCE_DIR) + "/recipes/" + std::string(name) + ".jarful";
        std::ifstream in(out.path, std::ios::binary);
        std::ostringstream all;
        all << in.rdbuf();
        out.bytes = all.str();
        if (!in) out.message = "There is no such recipe in the demo book.";
        return out;
    };
    return language::inherit(std::move(doc), "test.jarful", find, findings);
}

/// Parses a kitchen that must be faultless.
inline kitchen::Kitchen kitchen_of(const std::string& text) {
    language::Findings findings;
    auto source = language::read_source("kitchen.jarful", text, findings);
    language::Document doc = language::parse(std::move(*source), findings);
    kitchen::Kitchen k = kitchen::read_kitchen(doc, findings);
    for (const auto& d : findings.all())
        ADD_FAILURE() << language::explain(doc.source, d, {});
    return k;
}

/// Weighs a recipe's text with settings such as "cabbage=1.84kg" and lines left out.
inline Outcome weigh(const std::string& text, const std::vector<std::string>& settings = {},
                     const kitchen::Kitchen& kitchen = kitchen::default_kitchen(),
                     const std::vector<std::string>& without = {}) {
    Outcome o;
    language::Findings findings;
    auto source = language::read_source("test.jarful", text, findings);
    if (!source) {
        note(o, language::Source("test.jarful", text), findings);
        return o;
    }
    const language::Document doc = read_recipe(std::move(*source), findings);
    plan::Request request;
    request.without = without;
    for (const std::string& s : settings) {
        language::Findings own;
        auto setting = plan::read_setting(s, own);
        note(o, language::Source("the request", s), own);
        if (setting) request.settings.push_back(*setting);
    }
    plan::RequestFindings request_findings;
    if (!findings.has_faults() && o.codes.empty())
        o.out = plan::weigh(doc, kitchen, request, findings, request_findings);
    note(o, doc.source, findings);
    for (std::size_t i = 0; i < request_findings.settings.size(); ++i)
        note(o, language::Source("the request", settings[i]), request_findings.settings[i]);
    for (std::size_t i = 0; i < request_findings.without.size(); ++i)
        note(o, language::Source("the request", without[i]), request_findings.without[i]);
    return o;
}

/// Weighs with a request that the caller completes.
template <class Complete>
Outcome weigh_with(const std::string& text, Complete&& complete,
                   const kitchen::Kitchen& kitchen = kitchen::default_kitchen()) {
    Outcome o;
    language::Findings findings;
    auto source = language::read_source("test.jarful", text, findings);
    if (!source) return o;
    const language::Document doc = read_recipe(std::move(*source), findings);
    plan::Request request;
    complete(request);
    plan::RequestFindings own;
    if (!findings.has_faults()) o.out = plan::weigh(doc, kitchen, request, findings, own);
    note(o, doc.source, findings);
    for (const auto* list : {&own.settings, &own.without, &own.poured})
        for (const auto& f : *list)
            note(o, language::Source("the request", ""), f);
    note(o, language::Source("the request", ""), own.moving);
    note(o, language::Source("the request", ""), own.bowl);
    return o;
}

/// Judges a recipe's text as it is written.
inline Outcome check(const std::string& text,
                     const kitchen::Kitchen& kitchen = kitchen::default_kitchen()) {
    Outcome o;
    language::Findings findings;
    auto source = language::read_source("test.jarful", text, findings);
    if (!source) return o;
    const language::Document doc = read_recipe(std::move(*source), findings);
    if (!findings.has_faults()) o.check = plan::check(doc, kitchen, findings);
    note(o, doc.source, findings);
    return o;
}

} // namespace jarful::test
