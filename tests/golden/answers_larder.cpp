#include "engine/language/parse.hpp"
#include "engine/larder/convert.hpp"
#include "engine/larder/fold.hpp"
#include "engine/larder/foreign.hpp"
#include "engine/larder/house.hpp"
#include "engine/larder/spoon_fill.hpp"
#include "engine/larder/timing.hpp"
#include "tests/golden/answers.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <vector>

namespace jarful::test {

namespace {

using namespace larder;

std::string of_figure(const char* what, const std::optional<Figure>& f) {
    if (!f) return {};
    return fmt::format("  {} {} {} {}, {}\n", what, digits(f->low), digits(f->typical),
                       digits(f->high), describe(f->status));
}

std::string of_material(const Material& m) {
    constexpr std::array warnings{"", ", may cloud", ", not recommended", ", reduced sodium",
                                  ", curing"};
    return fmt::format("{} ({}), {}{}{}\n", m.id, m.name, describe(m.role),
                       m.vague ? ", vague" : "", warnings[static_cast<std::size_t>(m.warning)]) +
           of_figure("bulk", m.bulk_density) + of_figure("true", m.true_density) +
           of_figure("water", m.water) + of_figure("salt", m.salt) + of_figure("piece", m.piece) +
           of_figure("refuse", m.refuse);
}

std::string of_row(const RangeRow& r) {
    return fmt::format("{}: {}, {}, {}, {} {} {}, {}, {}\n", r.id, r.kind, r.method, key(r.basis),
                       digits(r.low), digits(r.typical), digits(r.high), describe(r.role),
                       standing(r));
}

std::string of_kind(const Kind& k) {
    std::string out =
        fmt::format("{} ({}){}\n", k.name, k.title, k.method_needed ? ", needs its method" : "");
    for (const Ruling& r : k.rulings) {
        const auto bound = [](const std::optional<Bound>& b) {
            return b ? digits(b->percent) + " by " + std::string(b->row ? b->row->id : "nobody")
                     : std::string("-");
        };
        out += fmt::format("  [{}] {}: {}, low {}, high {}, typical {}\n", r.method, r.title,
                           key(r.basis), bound(r.low), bound(r.high), digits(r.typical));
    }
    out += "  rows";
    for (const std::uint16_t row : k.rows)
        out += " " + std::string(range_rows()[row].id);
    out += "\n  cautions";
    for (const std::string_view caution : k.cautions)
        out += " " + std::string(caution);
    return out + "\n";
}

std::string of_timing(const TimingRow& t) {
    constexpr std::array whats{"ferment", "too cold", "too warm", "end point", "store", "course"};
    return fmt::format("{}: {} [{}], {}; {} to {} °C{}; day {} to {}; pH {} to {}; acid {} to "
                       "{}{}{}; {}\n",
                       t.id, t.kind, t.method, whats[static_cast<std::size_t>(t.what)],
                       digits(t.celsius_low), digits(t.celsius_high),
                       t.celsius_read ? ", read" : "", digits(t.days_low), digits(t.days_high),
                       digits(t.ph_low), digits(t.ph_high), digits(t.acid_low), digits(t.acid_high),
                       t.rules_days ? "; rules the days" : "", t.rules_ph ? "; rules the pH" : "",
                       describe(t.status));
}

/// The whole of one list.
std::string of_list(const std::string& question) {
    std::string out;
    if (question == "materials")
        for (const Material& m : materials())
            out += of_material(m);
    if (question == "ranges")
        for (const RangeRow& r : range_rows())
            out += of_row(r);
    if (question == "kinds")
        for (const Kind& k : kinds())
            out += of_kind(k);
    if (question == "timing")
        for (const TimingRow& t : timing_rows())
            out += of_timing(t);
    if (question == "cautions")
        for (const Caution& c : cautions())
            out += fmt::format("{}: {}{}, {}\n", c.id, c.title, c.always ? ", always" : "",
                               describe(c.status));
    return out;
}

std::string of_name(const std::string& name) {
    static const Larder larder;
    const std::string folded = fold(name);
    std::string out =
        fmt::format("{} | {} | {} words", folded, singular(folded), words_of(folded).size());
    const auto id = [](const Material* m) { return m == nullptr ? "-" : std::string(m->id); };
    const auto match = larder.find(name);
    out += fmt::format("\n    named {}, exact {}, found {}{}", id(larder.named(name)),
                       id(find_exact(name)), id(match ? match->material : nullptr),
                       match && !match->exact ? " by a part" : "");
    if (const Material* german = find_foreign(name, "de"))
        out += ", German " + std::string(german->id);
    if (const Material* french = find_foreign(name, "fr"))
        out += ", French " + std::string(french->id);
    if (find_foreign(name, "en") != nullptr) out += ", foreign in English?";
    out += "\n    near";
    for (const std::string_view near : larder.nearest(name))
        out += " [" + std::string(near) + "]";
    out += ", offered";
    for (const std::string_view offered : larder.offered(name))
        out += " [" + std::string(offered) + "]";
    const Kind* kind = find_kind(name);
    out += fmt::format("; kind {}, near {}", kind == nullptr ? "-" : kind->name,
                       nearest_kind(name).value_or("-"));
    return out;
}

std::string of_fill(const std::string& word) {
    const auto fill = spoon_fill(fold(word));
    return fill ? digits(fill->low) + " to " + digits(fill->high) : "no such word";
}

std::string of_conversion(const Conversion& c) {
    std::string out = fmt::format("{} = {} {} ({} to {})", c.from, digits(c.result.typical), c.to,
                                  digits(c.result.low), digits(c.result.high));
    if (c.material) out += ", " + std::string(c.material->id);
    if (c.figure) out += ", reckoned with " + digits(c.figure->typical);
    if (c.by_piece) out += " a piece";
    if (c.measures_matter) out += ", the measures matter";
    out += "\n";
    if (!c.reckoning.empty()) out += "    " + c.reckoning + "\n";
    for (const std::string& note : c.notes)
        out += "    note: " + note + "\n";
    for (const std::string& source : c.sources)
        out += "    source: " + source + "\n";
    return out;
}

/// `[measures: ]text[ | per]`.
std::string of_conversion_text(const std::string& question) {
    static const Larder larder;
    ConversionRequest request;
    request.text = question;
    if (const std::size_t colon = question.find(": "); colon != std::string::npos) {
        request.measures = find_measures(question.substr(0, colon)).value_or(Measures::unstated);
        request.text = question.substr(colon + 2);
    }
    if (const std::size_t bar = request.text.find(" | "); bar != std::string::npos) {
        request.per = request.text.substr(bar + 3);
        request.text.resize(bar);
    }
    const ConversionOutcome outcome = convert(request, larder);
    if (outcome.conversion) return of_conversion(*outcome.conversion);
    const ConversionFault& fault = outcome.fault.value();
    std::string out = fmt::format("{}: {}\n    {}\n", fault.code, fault.message, fault.advice);
    if (!fault.nearest.empty()) out += "    near";
    for (const std::string& near : fault.nearest)
        out += " [" + near + "]";
    return out;
}

std::string of_spread(const std::optional<Spread>& s) {
    return s ? fmt::format("{} ({} to {})", digits(s->typical), digits(s->low), digits(s->high))
             : "-";
}

std::string of_salts(const std::string& measures) {
    std::string out;
    for (const SaltGrain& g : compare_salts(find_measures(measures).value_or(Measures::unstated)))
        out += fmt::format("{}: teaspoon {}, tablespoon {}, in place of one {}; {}\n",
                           g.material->id, of_spread(g.teaspoon), of_spread(g.tablespoon),
                           of_spread(g.replaces), warning_words(g.material->warning));
    return out;
}

/// The lines of a house file.
std::string of_house(const std::string& lines) {
    language::Findings findings;
    auto source = language::read_source("house.jarful", "house \"Quay\"\n" + lines, findings);
    const language::Document document = language::parse(std::move(source).value(), findings);
    const auto house = House::read(document, findings);
    std::string out = told(document.source, findings);
    for (const Kind* own : house->own_kinds())
        out += "own " + of_kind(*own);
    for (const language::Line& line : document.lines) {
        const auto* range = std::get_if<language::RangeLine>(&line.statement);
        if (range == nullptr) continue;
        const Kind* kind = house->find_kind(range->kind.value);
        if (kind == nullptr) continue;
        out += of_kind(*kind);
        for (const Ruling& r : kind->rulings) {
            out += "    " + std::string(r.why) + "\n";
            for (const auto& end : {r.low, r.high})
                if (end && end->row != nullptr && end->row->status == Status::house)
                    out += "    rests on " + of_row(*end->row);
        }
    }
    for (const char* name : {"ash turnip", "kraut", "krout", "ash-turnps"})
        if (const auto near = house->nearest_kind(name))
            out += fmt::format("{}: {}; ", name, *near);
    return out;
}

constexpr std::array all{Sort{"larder", of_list}, Sort{"names", of_name},
                         Sort{"fills", of_fill},  Sort{"conversions", of_conversion_text},
                         Sort{"salts", of_salts}, Sort{"houses", of_house}};

} // namespace

std::span<const Sort> larder_sorts() {
    return all;
}

} // namespace jarful::test
