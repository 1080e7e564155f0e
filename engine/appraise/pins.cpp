#include "engine/appraise/judge.hpp"
#include "engine/appraise/text.hpp"
#include "engine/larder/fold.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <cmath>

namespace jarful::appraise {

using units::Interval;

bool apply_pins(Document& doc, const Request& request, Refusal& refusal) {
    for (const Pin& pin : request.pins) {
        const larder::Material* const material = larder::find_exact(pin.name);
        std::vector<Reading*> hits;
        for (const bool by_word : {false, true}) {
            for (Reading& r : doc.readings) {
                if (!in_jar(r)) continue;
                const std::string folded = larder::singular(larder::fold(r.item.words));
                const std::string wanted = larder::singular(larder::fold(pin.name));
                const bool word =
                    !wanted.empty() &&
                    (" " + folded + " ").find(" " + wanted + " ") != std::string::npos;
                const bool same = material != nullptr && material == r.item.material;
                if (by_word ? word : same) hits.push_back(&r);
            }
            if (!hits.empty()) break;
        }
        if (hits.empty()) {
            refusal = {fmt::format("No line of the recipe is about \"{}\".", pin.name),
                       "Write it as the recipe does, as in cabbage=1.84kg."};
            return false;
        }
        if (hits.size() > 1) {
            refusal = {fmt::format("More than one line is about \"{}\".", pin.name),
                       "Pin one that stands on one line only."};
            return false;
        }
        Reading& r = *hits.front();
        r.line.grams = Interval(pin.grams);
        r.line.optional = false;
        r.cover = false;
        r.open = false;
        r.spare = false;
        r.ratio.reset();
        r.line.per.reset();
        r.line.notes.assign(1, "Weighed by you.");
    }
    return true;
}

bool answer_lines(std::string_view text, const Request& request, std::string& out,
                  Refusal& refusal) {
    const auto lines = lines_of(text);
    for (const LineAnswer& answer : request.lines) {
        if (answer.number == 0 || answer.number > lines.size()) {
            refusal = {
                fmt::format("There is no line {} in it: it has {}.", answer.number, lines.size()),
                "Lines are numbered from 1, empty ones too."};
            return false;
        }
    }
    for (std::size_t i = 0; i < lines.size(); ++i) {
        std::string_view line = lines[i];
        for (const LineAnswer& answer : request.lines) {
            if (answer.number == i + 1) line = answer.text;
        }
        out.append(line).append("\n");
    }
    return true;
}

namespace {

/// A hint of the larder as a sentence.
std::string sentence(std::string_view hint) {
    std::string out(hint);
    if (out.empty()) return out;
    if (out.front() >= 'a' && out.front() <= 'z') out.front() = static_cast<char>(out.front() - 32);
    return out.ends_with('.') ? out : out + ".";
}

} // namespace

bool pinned_salt(const Request& request, const larder::Material*& salt, Refusal& refusal) {
    salt = nullptr;
    if (!request.salt.empty()) {
        salt = larder::find_exact(request.salt);
        if (salt == nullptr || salt->role != larder::Role::salt) {
            refusal = {fmt::format("There is no salt called \"{}\" in the larder.", request.salt),
                       "Say its grain, as in \"fine sea salt\", \"canning salt\" or \"coarse flake "
                       "kosher salt\"."};
            return false;
        }
        if (salt->vague || !salt->bulk_density) {
            refusal = {fmt::format("\"{}\" does not say the grain.", request.salt),
                       sentence(salt->vague_hint)};
            return false;
        }
    }
    return true;
}

std::string percent_text(Interval i) {
    const std::string low = units::print_percent(std::floor(i.low * 100 + 1e-6) / 1e4);
    const std::string high = units::print_percent(std::ceil(i.high * 100 - 1e-6) / 1e4);
    return low == high ? low + " %" : low + " to " + high + " %";
}

} // namespace jarful::appraise
