#pragma once

#include "engine/language/explain.hpp"
#include "engine/language/parse.hpp"
#include "engine/plan/plan.hpp"

#include <cstdio>
#include <cstdlib>
#include <optional>
#include <string>

/// What the fuzz targets share. A target takes any bytes, and stops the program where a promise of
/// the engine is broken; crashes and undefined behaviour are found by the sanitizers.
namespace jarful::fuzz {

/// Stops, and says which promise was broken.
inline void demand(bool kept, const char* promise) {
    if (kept) return;
    std::fprintf(stderr, "Broken: %s\n", promise);
    std::abort();
}

/// Every finding can be shown, and its place lies in the text.
inline void explain_all(const language::Source& source, const language::Findings& findings) {
    for (const language::Diagnostic& found : findings.all()) {
        demand(!found.code.empty() && !found.message.empty(), "a finding has a code and words");
        if (found.place) {
            demand(found.place->begin <= found.place->end, "a place begins before it ends");
            // One behind the end is where something is missing.
            demand(found.place->end <= source.text().size() + 1, "a place lies in the text");
        }
        const std::string shown = language::explain(source, found, {});
        for (const char c : shown)
            demand(static_cast<unsigned char>(c) >= 0x20 || c == '\n',
                   "no control character reaches a terminal");
    }
}

/// Reads and parses, as every command does.
struct Parsed {
    language::Document document;
    language::Findings findings;
    [[nodiscard]] bool sound() const { return !findings.has_faults(); }
};

inline std::optional<Parsed> parse(const std::string& bytes) {
    Parsed out;
    auto source = language::read_source("fuzzed.jarful", bytes, out.findings);
    if (!source) return std::nullopt;
    out.document = language::parse(std::move(*source), out.findings);
    explain_all(out.document.source, out.findings);
    return out;
}

} // namespace jarful::fuzz

/// What a target defines: returns always; the bytes are any.
void fuzz_one(const std::string& bytes);
