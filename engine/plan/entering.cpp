#include "engine/plan/entering.hpp"

#include "engine/kitchen/reading.hpp"
#include "engine/plan/entering_advice.hpp"
#include "engine/plan/jars.hpp"
#include "engine/plan/measured.hpp"
#include "engine/units/nearest.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace jarful::plan {

using language::Findings;
using language::QuantityWord;
using units::Interval;

namespace {

constexpr double most_grams = 1e6;

std::string listed(const std::vector<std::string_view>& names) {
    std::string list;
    for (std::string_view n : names)
        list += fmt::format("{}{}", list.empty() ? "" : ", ", n);
    return list;
}

/// What to write in place of a name that no jar has. `3tall` is three of them.
/// @param names of the kitchen's jars; at least one.
std::string jar_advice(std::string_view typed, const std::vector<std::string_view>& names) {
    constexpr std::size_t most = 12; // more are not typed one by one
    const auto number = units::read_number(typed);
    if (number && number->length > 0 && number->value >= 1 && number->value <= most) {
        std::string_view name = typed.substr(number->length);
        name.remove_prefix(std::min(name.find_first_not_of(' '), name.size()));
        if (std::find(names.begin(), names.end(), name) != names.end()) {
            std::string each(name);
            for (int i = 1; i < static_cast<int>(number->value); ++i)
                each += fmt::format(",{}", name);
            return fmt::format("Name each jar: `jar={}`.", each);
        }
    }
    const auto near = units::nearest(typed, names);
    return fmt::format("{}The kitchen has: {}. Several are named with commas between them.",
                       near ? fmt::format("Did you mean \"{}\"? ", *near) : std::string(),
                       listed(names));
}

} // namespace

std::optional<double> room_in(Model& model, const kitchen::Vessel& vessel, std::string& reason) {
    std::string why;
    const auto room = kitchen::usable_ml(vessel, headspace_of(model), &why);
    if (!room) reason = fmt::format("\"{}\" {}.", vessel.name, why);
    return room;
}

std::optional<std::size_t> find_weighed(const Model& model, const Setting& setting,
                                        Findings& findings) {
    const auto i = model.find_entry(setting.name);
    if (i && model.entries[*i].word != QuantityWord::count) return i;
    std::vector<std::string_view> names;
    for (const Entry& e : model.entries)
        if (e.word != QuantityWord::count) names.push_back(e.name);
    const auto near = units::nearest(setting.name, names);
    findings.fault("unknown-name", setting.name_place,
                   i ? fmt::format("\"{}\" is counted and not weighed.", setting.name)
                     : fmt::format("The recipe weighs nothing called \"{}\".", setting.name),
                   near && !i ? fmt::format("Did you mean \"{}\"?", *near)
                              : fmt::format("What is weighed: {}.", listed(names)));
    return std::nullopt;
}

Entering::Entering(Model& model, const kitchen::Kitchen& kitchen, const Request& request,
                   RequestFindings& findings)
    : model_(model)
    , kitchen_(kitchen)
    , request_(request)
    , findings_(findings) {
    findings_.settings.resize(request.settings.size());
    findings_.without.resize(request.without.size());
    findings_.poured.resize(request.poured.size());
}

void Entering::clear() {
    for (Entry& e : model_.entries) {
        e.entered.reset();
        e.poured.reset();
        e.parts.clear();
        e.solved = e.left_out = false;
    }
    sheet::Sheet& sheet = *model_.sheet;
    forget_weighed(model_);
    for (sheet::CellId id = 0; id < sheet.size(); ++id) {
        const bool of_jars = id == model_.vessel || id == model_.jars;
        const bool again = of_jars ? sets("jar") : sets(sheet.cell(id).name);
        if (sheet.entered(id) && !again) sheet.clear(id);
    }
}

bool Entering::sets(std::string_view name) const {
    const auto& without = request_.without;
    return std::any_of(request_.settings.begin(), request_.settings.end(),
                       [&](const Setting& s) { return s.name == name; }) ||
           std::find(without.begin(), without.end(), name) != without.end();
}

Entered Entering::enter() {
    for (std::size_t i = 0; i < request_.without.size(); ++i)
        leave_out(i);
    for (std::size_t i = 0; i < request_.settings.size(); ++i)
        setting(i);
    if (!request_.moving.empty() && asks_.empty() && !findings_.has_faults())
        findings_.moving.fault("nothing-asked", {}, "There is nothing to move it for.",
                               "Ask for something too, as in `salt=24g` or `jar=tall`.");
    close_baths(model_);
    if (!asks_.empty() && !findings_.has_faults()) answer_question();
    if (share_ && !findings_.has_faults()) season_or_fault();
    return std::move(entered_);
}

void Entering::pour() {
    for (Entry& e : model_.entries)
        e.poured.reset();
    for (std::size_t i = 0; i < request_.poured.size(); ++i)
        pour(i);
    close_baths(model_);
}

Entered enter_request(Model& model, const kitchen::Kitchen& kitchen, const Request& request,
                      RequestFindings& findings) {
    Entering entering(model, kitchen, request, findings);
    Entered entered = entering.enter();
    entering.pour();
    return entered;
}

// ---- Settings ----

const language::Quantity* Entering::quantity(std::string_view name) const {
    for (const language::Line& line : model_.document->lines) {
        const auto* q = std::get_if<language::Quantity>(&line.statement);
        if (q != nullptr && q->name.value == name) return q;
    }
    return nullptr;
}

/// Names of what can be set.
std::vector<std::string_view> Entering::open_names() const {
    std::vector<std::string_view> names;
    for (const language::Line& line : model_.document->lines) {
        const auto* q = std::get_if<language::Quantity>(&line.statement);
        if (q != nullptr && (q->word == QuantityWord::given || q->word == QuantityWord::total ||
                             q->word == QuantityWord::measure))
            names.push_back(q->name.value);
    }
    return names;
}

void Entering::setting(std::size_t index) {
    const Setting& s = request_.settings[index];
    Findings& findings = findings_.settings[index];
    for (std::size_t earlier = 0; earlier < index; ++earlier)
        if (request_.settings[earlier].name == s.name) {
            findings.fault("duplicate-setting", s.name_place,
                           fmt::format("\"{}\" is set twice.", s.name), "Say it once.");
            return;
        }
    if (s.name == "jar") return ask_jar(index);
    if (s.name == "fill") return ask_fill(index);
    if (asks_share(index)) return;
    const language::Quantity* q = quantity(s.name);
    const auto cell = model_.sheet->find(s.name);
    if (q == nullptr || !cell) return unknown(index);
    switch (q->word) {
    case QuantityWord::given:
    case QuantityWord::total:
    case QuantityWord::measure:
        return set(index, *cell);
    default:
        return ask_cell(index, *cell);
    }
}

void Entering::unknown(std::size_t index) {
    const Setting& s = request_.settings[index];
    std::vector<std::string_view> names = open_names();
    std::string what = names.empty() ? std::string("This recipe has no `given` line to set.")
                                     : fmt::format("What can be set here: {}.", listed(names));
    for (const Entry& e : model_.entries)
        names.push_back(e.name);
    const auto near = units::nearest(s.name, names);
    if (near) what = fmt::format("Did you mean \"{}\"? {}", *near, what);
    findings_.settings[index].fault("unknown-name", s.name_place,
                                    fmt::format("The recipe has nothing called \"{}\".", s.name),
                                    what);
}

std::optional<Entry::Entered> Entering::weighed(const Setting& s, Findings& findings) const {
    Entry::Entered e;
    e.bounds = Interval(0.0);
    e.by_scale = true;
    for (const units::Amount& part : s.parts) {
        if (part.dimension != units::dim::mass) {
            findings.fault("wrong-dimension", s.value_place,
                           fmt::format("\"{}\" is a weight; this is {}.", s.name,
                                       part.plain_number ? "a number without a unit"
                                                         : units::describe(part.dimension)),
                           weight_advice(model_, s.name, part));
            return std::nullopt;
        }
        e.value += part.value;
        Interval piece(part.low, part.high);
        e.by_scale = e.by_scale && part.low == part.high;
        if (part.low == part.high) {
            const kitchen::Reading r = kitchen::best_reading(kitchen_, part.value);
            const double error = r.truth.high - r.total_g;
            piece = Interval(part.value) + Interval(-error, error);
        }
        e.bounds = s.parts.size() == 1 ? piece : e.bounds + piece;
    }
    if (e.value <= 0 || e.value > most_grams) {
        findings.fault(
            "absurd-amount", s.value_place,
            fmt::format("\"{}\" cannot be {}.", s.name, units::print_mass(e.value, kitchen_.shown)),
            "Check the number and the unit.");
        return std::nullopt;
    }
    e.bounds.low = std::max(0.0, e.bounds.low);
    return e;
}

void Entering::set(std::size_t index, sheet::CellId cell) {
    const Setting& s = request_.settings[index];
    const auto e = weighed(s, findings_.settings[index]);
    if (!e) return;
    const auto i = model_.find_entry(s.name);
    if (!i) return model_.sheet->set(cell, e->value); // a total is never weighed
    Entry& entry = model_.entries[*i];
    entry.entered = *e;
    for (const units::Amount& part : s.parts)
        entry.parts.push_back(part.value);
    model_.sheet->set(cell, e->value, e->bounds);
}

void Entering::leave_out(std::size_t index) {
    const std::string& name = request_.without[index];
    const auto i = model_.find_entry(name);
    if (i && model_.entries[*i].fate == Fate::optional) {
        model_.sheet->set(model_.entries[*i].cell, 0);
        model_.entries[*i].left_out = true;
        return;
    }
    std::vector<std::string_view> names;
    for (const Entry& e : model_.entries)
        if (e.fate == Fate::optional) names.push_back(e.name);
    const auto near = units::nearest(name, names);
    findings_.without[index].fault(i ? "not-optional" : "unknown-name",
                                   language::Place{0, static_cast<std::uint32_t>(name.size())},
                                   i ? fmt::format("\"{}\" is not optional in this recipe.", name)
                                     : fmt::format("The recipe has nothing called \"{}\".", name),
                                   near ? fmt::format("Did you mean \"{}\"?", *near)
                                   : names.empty()
                                       ? "No line of this recipe is optional."
                                       : fmt::format("What can be left out: {}.", listed(names)));
}

void Entering::pour(std::size_t index) {
    const Setting& s = request_.poured[index];
    Findings& findings = findings_.poured[index];
    const auto i = find_weighed(model_, s, findings);
    if (!i) return;
    if (const auto e = weighed(s, findings)) model_.entries[*i].poured = *e;
}

// ---- Questions ----

void Entering::ask_cell(std::size_t index, sheet::CellId cell) {
    const Setting& s = request_.settings[index];
    Findings& findings = findings_.settings[index];
    const sheet::Type& type = model_.sheet->cell(cell).type;
    if (model_.sheet->entered(cell)) model_.sheet->clear(cell); // a share of an earlier request
    Ask ask;
    ask.setting = index;
    ask.formula = sheet::Formula::of_cell(cell);
    for (const units::Amount& part : s.parts) {
        if (part.dimension != type.dimension || part.temperature_point) {
            findings.fault(
                "wrong-dimension", s.value_place,
                fmt::format("\"{}\" is {}; this is {}.", s.name, sheet::describe(type),
                            part.plain_number ? "a plain number" : units::describe(part.dimension)),
                unit_advice(model_, cell, part));
            return;
        }
        ask.target += part.value;
    }
    ask.text = fmt::format("{} = {}", s.name,
                           units::print_value(ask.target, type.dimension, kitchen_.shown));
    asks_.push_back(std::move(ask));
}

void Entering::ask_fill(std::size_t index) {
    const Setting& s = request_.settings[index];
    Findings& findings = findings_.settings[index];
    if (!model_.fill) {
        findings.fault("no-fill", s.name_place, "The recipe does not say what room it takes.",
                       "Add a line to it, as in `fill cabbage / 0.9 kg/L`.");
        return;
    }
    Ask ask;
    ask.setting = index;
    ask.formula = *model_.fill;
    ask.not_above = true;
    for (const units::Amount& part : s.parts) {
        if (part.dimension != units::dim::volume) {
            findings.fault("wrong-dimension", s.value_place,
                           fmt::format("`fill` is a volume; this is {}.",
                                       part.plain_number ? "a number without a unit"
                                                         : units::describe(part.dimension)),
                           "Write it as in `fill=1.2L`.");
            return;
        }
        ask.target += part.value;
    }
    ask.text = fmt::format("fill = {}", units::print_volume(ask.target, kitchen_.shown));
    asks_.push_back(std::move(ask));
}

bool Entering::has_jars(const Setting& s, Findings& findings) const {
    for (const kitchen::Vessel& v : kitchen_.vessels) {
        const auto asked = std::count(s.jars.begin(), s.jars.end(), v.name);
        if (asked > v.have) {
            findings.fault("too-few-jars", s.value_place,
                           fmt::format("{} of \"{}\" are asked for; the kitchen has {}.", asked,
                                       v.name, v.have),
                           "Choose others, or say how many there are with `have`.");
            return false;
        }
    }
    return true;
}

void Entering::ask_jar(std::size_t index) {
    const Setting& s = request_.settings[index];
    Findings& findings = findings_.settings[index];
    std::vector<std::string_view> names;
    for (const kitchen::Vessel& v : kitchen_.vessels)
        names.push_back(v.name);
    std::string text;
    for (const std::string& name : s.jars) {
        const auto vessel = std::find_if(kitchen_.vessels.begin(), kitchen_.vessels.end(),
                                         [&](const kitchen::Vessel& v) { return v.name == name; });
        if (vessel == kitchen_.vessels.end()) {
            findings.fault("unknown-jar", s.value_place,
                           fmt::format("The kitchen has no jar called \"{}\".", name),
                           names.empty() ? "Describe one in the kitchen file: `jar tall holds "
                                           "1.5 L brimful across 10 cm`."
                                         : jar_advice(name, names));
            return;
        }
        std::string reason;
        const auto room = room_in(model_, *vessel, reason);
        if (!room) {
            findings.fault("no-room", s.value_place, reason);
            return;
        }
        entered_.jars.vessels.push_back(*vessel);
        entered_.jars.usable_ml += *room;
        text += (text.empty() ? "" : ", ") + name;
    }
    if (!has_jars(s, findings)) return;
    if (!model_.fill) {
        findings.fault("no-fill", s.name_place, "The recipe does not say what room it takes.",
                       "Add a line to it, as in `fill cabbage / 0.9 kg/L`.");
        return;
    }
    model_.sheet->set(model_.vessel, entered_.jars.usable_ml);
    model_.sheet->set(model_.jars, static_cast<double>(s.jars.size()));
    // With the weight known too, the jars are only a choice: whether it fits is for the sheet to
    // say.
    bool weight_known = false;
    for (const Setting& other : request_.settings) {
        const language::Quantity* q = quantity(other.name);
        weight_known =
            weight_known ||
            (q != nullptr && (q->word == QuantityWord::given || q->word == QuantityWord::total));
    }
    if (weight_known && request_.moving.empty()) return;
    Ask ask;
    ask.setting = index;
    ask.formula = *model_.fill;
    ask.target = entered_.jars.usable_ml;
    ask.not_above = true;
    ask.text = fmt::format("jar = {}", text);
    asks_.push_back(std::move(ask));
}

} // namespace jarful::plan
