#include "engine/language/parse.hpp"
#include "engine/plan/plan.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace jarful::plan {

namespace {

language::Place place(std::size_t begin, std::size_t end) {
    return {static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(end)};
}

std::size_t skip_blanks(std::string_view text, std::size_t at) {
    while (at < text.size() && (text[at] == ' ' || text[at] == '\t'))
        ++at;
    return at;
}

/// `tall,tall,squat`: names with commas between. What is no name of a jar is left to whoever knows
/// the kitchen.
std::optional<Setting> read_jars(std::string_view text, Setting setting,
                                 language::Findings& findings) {
    std::size_t at = setting.value_place.begin;
    for (;;) {
        at = skip_blanks(text, at);
        std::size_t end = std::min(text.find(',', at), text.size());
        std::size_t last = end;
        while (last > at && text[last - 1] == ' ')
            --last;
        const std::string_view word = text.substr(at, last - at);
        if (word.empty()) {
            findings.fault("not-a-name", place(at, std::max(last, at + 1)),
                           "The name of a jar is missing here.",
                           "Write names of the kitchen's jars, with commas between them.");
            return std::nullopt;
        }
        setting.jars.push_back(language::normalise_name(word).value_or(std::string(word)));
        if (end == text.size()) return setting;
        at = end + 1;
    }
}

} // namespace

std::optional<Setting> read_setting(std::string_view text, language::Findings& findings) {
    const std::size_t equals = text.find('=');
    if (equals == std::string_view::npos) {
        findings.fault("not-a-setting", place(0, text.size()),
                       "This is not of the form name=value.", "Write it as in `cabbage=1.84kg`.");
        return std::nullopt;
    }
    std::size_t begin = skip_blanks(text, 0);
    std::size_t end = equals;
    while (end > begin && text[end - 1] == ' ')
        --end;
    const std::optional<std::string> name =
        language::normalise_name(text.substr(begin, end - begin));
    if (!name) {
        findings.fault("not-a-name", place(begin, std::max(end, begin + 1)),
                       "What stands before `=` is not a name.",
                       "Write a name of the recipe, as in `cabbage=1.84kg`.");
        return std::nullopt;
    }
    Setting setting;
    setting.name = *name;
    setting.name_place = place(begin, end);
    std::size_t at = skip_blanks(text, equals + 1);
    setting.value_place = place(at, text.size());
    if (setting.name == "jar") return read_jars(text, std::move(setting), findings);
    for (;;) {
        std::size_t length = 0;
        units::ReadFault fault;
        const auto amount = units::read_amount_prefix(text.substr(at), length, &fault);
        if (!amount || length == 0) {
            findings.fault(
                "bad-amount",
                amount ? place(at, text.size())
                       : place(at + fault.begin, at + std::max(fault.end, fault.begin + 1)),
                fault.message.empty() ? "There is no amount here." : fault.message,
                fault.advice.empty() ? "Write a number with a unit: `1.84kg`." : fault.advice);
            return std::nullopt;
        }
        setting.parts.push_back(*amount);
        at = skip_blanks(text, at + length);
        if (at == text.size()) return setting;
        if (text[at] != '+') {
            units::ReadFault whole;
            (void)units::read_amount(text.substr(setting.value_place.begin), &whole);
            findings.fault("bad-amount", place(at, text.size()),
                           whole.message.empty() ? "This part of the amount is not understood."
                                                 : whole.message,
                           whole.advice.empty()
                               ? "Write a number with a unit, or several with + between them."
                               : whole.advice);
            return std::nullopt;
        }
        at = skip_blanks(text, at + 1);
    }
}

bool RequestFindings::has_faults() const {
    for (const language::Findings& f : settings)
        if (f.has_faults()) return true;
    for (const language::Findings& f : without)
        if (f.has_faults()) return true;
    for (const language::Findings& f : poured)
        if (f.has_faults()) return true;
    return moving.has_faults() || bowl.has_faults();
}

} // namespace jarful::plan
