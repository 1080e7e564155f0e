#include "engine/appraise/appraise.hpp"
#include "engine/appraise/bounds.hpp"
#include "engine/appraise/line.hpp"
#include "engine/appraise/method.hpp"
#include "engine/appraise/sentence.hpp"
#include "engine/appraise/text.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace jarful::appraise {

namespace {

std::string concepts_text(Concepts is) {
    std::string out;
    for (unsigned i = 0; i < static_cast<unsigned>(Concept::last); ++i) {
        const auto c = static_cast<Concept>(i);
        if (is.any(c)) out += (out.empty() ? "" : ", ") + std::string(name_of(c));
    }
    return out.empty() ? "-" : out;
}

std::string grams_text(double g) {
    return g >= endless ? "any amount" : units::print_number(g, 3) + " g";
}

void as_thing(std::string& out, std::string_view text) {
    const Reading r = ingredient(text, nullptr, nullptr);
    out += "READ AS A THING OF THE LIST\n";
    out += fmt::format("  what    {}\n", r.line.understood && r.item.material != nullptr
                                             ? std::string(r.item.material->name)
                                             : "not understood");
    if (r.line.amount)
        out += fmt::format("  amount  {} to {} {}\n", units::print_number(r.line.amount->low, 4),
                           units::print_number(r.line.amount->high, 4), r.line.amount->unit);
    if (r.line.grams)
        out += fmt::format("  weighs  {} to {}\n", grams_text(r.line.grams->low),
                           grams_text(r.line.grams->high));
    for (const std::string& note : r.line.notes)
        out += "  note    " + note + "\n";
    if (r.line.understood) return;
    const Bounds b = bounds_of(tokens_of(text), {});
    out += fmt::format("  at most {} of salt, {} of vegetable, {} of water{}\n", grams_text(b.salt),
                       grams_text(b.vegetables), grams_text(b.water),
                       b.as_others ? ", or a vegetable as heavy as all others together" : "");
}

} // namespace

std::optional<std::string> why(std::string_view text, std::size_t number) {
    const std::string plain = clean(text.substr(0, max_bytes));
    const auto lines = lines_of(plain);
    if (number == 0 || number > lines.size()) return std::nullopt;
    const std::string_view line = without_bullet(beginning(trimmed(lines[number - 1]), 2000));
    std::string out = fmt::format("LINE {}: {}\n\n", number, line);
    as_thing(out, line);
    const std::vector<Token> tokens = tokens_of(line);
    Sentence s = sentence_of(tokens, {}, nullptr);
    s.say(Concept::raw);
    apply_marks(s);
    out += "\nWORDS AND AMOUNTS, AND WHAT THEY MEAN\n";
    for (std::size_t i = 0; i < s.pieces.size(); ++i)
        out += fmt::format("  {:<24} {}\n", s.text(i, i), concepts_text(s.pieces[i].is));
    Method method(nullptr, nullptr);
    method.read(tokens, {});
    const auto& told = method.rows();
    out += "\nPATTERNS THAT FIT IT AS A SENTENCE\n";
    bool any = false;
    for (const Pattern& p : patterns()) {
        const auto found = p.event == Event::mark ? std::nullopt : Fit(p, s).first();
        // What another row has explained is no doubt.
        const bool doubt = p.event == Event::unexplained;
        if (!found || (doubt && std::find(told.begin(), told.end(), &p) == told.end())) continue;
        any = true;
        const auto where =
            p.steps.empty() ? std::string_view("all of it") : s.text(found->first, found->last);
        out += fmt::format("  {:<18} \"{}\"\n  {:<18} {}\n", name_of(p.event), where, "", p.row);
    }
    if (!any) out += "  none\n";
    return out;
}

} // namespace jarful::appraise
