#include "engine/plan/compiler.hpp"

#include <fmt/core.h>

#include <cmath>

namespace jarful::plan {

std::optional<Formula> Compiler::line_value(language::NodeId node, std::string_view what,
                                            std::initializer_list<units::Dimension> wanted,
                                            std::string_view advice, Type* type) {
    std::optional<sheet::Builder::Lowered> lowered = builder_.lower(doc_.expressions, node);
    if (!lowered) return std::nullopt;
    for (units::Dimension d : wanted) {
        if (lowered->type != Type{d, Type::Sort::number}) continue;
        if (type != nullptr) *type = lowered->type;
        return std::move(lowered->formula);
    }
    findings_.fault("wrong-dimension", doc_.expressions[node].place,
                    fmt::format("{} cannot be {}.", what, sheet::describe(lowered->type)),
                    std::string(advice));
    return std::nullopt;
}

void Compiler::vessel() {
    const language::Line* first_fill = nullptr;
    each<language::FillLine>([&](const language::Line& line, const language::FillLine& s) {
        if (once(line, first_fill, "`fill`"))
            model_->fill = line_value(s.value, "The room a batch takes", {units::dim::volume},
                                      "Divide the weight by the density it is packed at: "
                                      "`fill cabbage / 0.9 kg/L`.");
    });
    const language::Line* first_head = nullptr;
    each<language::HeadspaceLine>([&](const language::Line& line,
                                      const language::HeadspaceLine& s) {
        if (once(line, first_head, "`headspace`"))
            model_->headspace =
                line_value(s.value, "Headspace", {units::dim::plain, units::dim::length},
                           "Write a percentage or a height: `headspace 12 %`, `headspace 3 cm`.",
                           &model_->headspace_type);
    });
    const language::Line* first_top = nullptr;
    each<language::TopUpLine>([&](const language::Line& line, const language::TopUpLine& s) {
        if (!once(line, first_top, "`topup`")) return;
        model_->top_up = line_value(s.value, "The strength of a top-up brine", {units::dim::plain},
                                    "Write a percentage: `topup 2 %`.");
        if (s.material) {
            std::string text;
            const larder::Material* m = named_material(*s.material, text);
            if (m != nullptr) model_->top_up_material = std::string(m->name);
        }
    });
}

void Compiler::holds() {
    each<language::HoldLine>([&](const language::Line& line, const language::HoldLine& s) {
        Bound b;
        b.line = &s;
        auto value = builder_.lower(doc_.expressions, s.value);
        bool good = value.has_value();
        const auto bound = [&](language::NodeId node, Formula& out) {
            if (node == language::no_node) return;
            auto lowered = builder_.lower(doc_.expressions, node);
            if (!lowered) {
                good = false;
            } else if (value && lowered->type != value->type) {
                findings_.fault("wrong-dimension", doc_.expressions[node].place,
                                fmt::format("What is held is {}; this bound is {}.",
                                            sheet::describe(value->type),
                                            sheet::describe(lowered->type)),
                                "Give the bound a unit that fits.");
                good = false;
            } else {
                out = std::move(lowered->formula);
            }
        };
        bound(s.at_least, b.low);
        bound(s.at_most, b.high);
        if (!good) return;
        if (value->type.sort == Type::Sort::truth) {
            findings_.fault("wrong-dimension", line.place,
                            "`hold` bounds an amount, and this is a yes or no.",
                            "Write the amount and its bounds: `hold salt at least 20 g`.");
            return;
        }
        b.value = std::move(value->formula);
        b.type = value->type;
        model_->holds.push_back(std::move(b));
    });
}

void Compiler::time(const language::Literal& literal, std::string_view what) {
    const units::Amount& a = literal.amount;
    if (a.dimension != units::dim::time) {
        findings_.fault(
            "wrong-dimension", literal.place,
            fmt::format("{} is a time; this is {}.", what,
                        a.temperature_point ? "a temperature" : units::describe(a.dimension)),
            "Write it as in `30 min`, `12 h` or `2 days`.");
        return;
    }
    constexpr double year = 366 * 86'400.0;
    if (a.low <= 0 || a.high > 5 * year)
        findings_.fault("absurd-amount", literal.place,
                        fmt::format("{} cannot be {}.", what, units::print_time(a.value)),
                        "Check the number and the unit.");
}

void Compiler::times() {
    const auto turned = [&](const language::Whole& from, const language::Whole& to) {
        if (from.value > to.value)
            findings_.fault("reversed-days", to.place,
                            fmt::format("Day {} comes before day {}.", to.value, from.value),
                            "Write the earlier day first.");
    };
    const auto sane = [&](const std::optional<language::Whole>& day) {
        constexpr int longest = 5 * 366;
        if (day && day->value > longest)
            findings_.fault("absurd-amount", day->place,
                            fmt::format("Day {} is more than five years away.", day->value),
                            "Check the number: days are counted from the packing of the jar.");
    };
    each<language::RestLine>(
        [&](const auto&, const language::RestLine& s) { time(s.time, "A rest"); });
    each<language::TendLine>([&](const auto&, const language::TendLine& s) {
        for (const auto* day : {&s.from_day, &s.to_day, &s.on_day})
            sane(*day);
        if (s.every) time(*s.every, "How often something is done");
        if (s.from_day && s.to_day) turned(*s.from_day, *s.to_day);
    });
    each<language::KeepLine>([&](const auto&, const language::KeepLine& s) {
        static constexpr int days[] = {1, 7, 31, 366};
        constexpr int longest = 50 * 366;
        if (s.count.value > longest / days[static_cast<std::size_t>(s.period)])
            findings_.fault("absurd-amount", s.count.place, "Nothing keeps for fifty years.",
                            "Check the number and the word after it.");
    });
    each<language::ReadyLine>([&](const auto&, const language::ReadyLine& s) {
        sane(s.from_day);
        sane(s.to_day);
        if (s.to_day) turned(s.from_day, *s.to_day);
        for (const auto* t : {&s.from_temperature, &s.to_temperature}) {
            if (!*t) continue;
            const units::Amount& a = (*t)->amount;
            // From a cold cellar to warmer than any ferment: a slip of °C and °F falls outside.
            if (!a.temperature_point || a.value < 263.15 || a.value > 323.15)
                findings_.fault("absurd-amount", (*t)->place,
                                a.temperature_point ? fmt::format("Nothing ferments at {}.",
                                                                  units::print_temperature(a.value))
                                                    : "What stands after `at` is a temperature.",
                                "Write it as in `at 18 to 22 °C`.");
        }
    });
}

void Compiler::texts() {
    model_->holes.resize(doc_.lines.size());
    for (std::size_t i = 0; i < doc_.lines.size(); ++i) {
        const language::Template* text = template_of(doc_.lines[i].statement);
        if (text == nullptr) continue;
        for (const language::Template::Piece& piece : text->pieces) {
            if (piece.value == language::no_node) continue;
            Hole hole;
            auto lowered = builder_.lower(doc_.expressions, piece.value);
            if (lowered) {
                hole.formula = std::move(lowered->formula);
                hole.type = lowered->type;
                reading_of(piece.value, hole);
                hole.percent = in_percent(piece.value);
            }
            model_->holes[i].push_back(std::move(hole));
        }
    }
}

const language::Template* Compiler::template_of(const language::Statement& statement) {
    if (const auto* s = std::get_if<language::StepLine>(&statement)) return &s->text;
    if (const auto* s = std::get_if<language::RestLine>(&statement))
        return s->text ? &*s->text : nullptr;
    if (const auto* s = std::get_if<language::TendLine>(&statement))
        return s->text ? &*s->text : nullptr;
    if (const auto* s = std::get_if<language::ReadyLine>(&statement))
        return s->text ? &*s->text : nullptr;
    if (const auto* s = std::get_if<language::KeepLine>(&statement))
        return s->text ? &*s->text : nullptr;
    return nullptr;
}

void Compiler::reading_of(language::NodeId node, Hole& hole) const {
    const language::Node* n = &doc_.expressions[node];
    int parts = 1;
    if (n->kind == language::NodeKind::divide) {
        const language::Node& by = doc_.expressions[n->b];
        if (by.kind != language::NodeKind::amount) return;
        const units::Amount& a = doc_.expressions.amounts[by.index];
        if (!a.plain_number || a.value != std::floor(a.value) || a.value < 1 || a.value > 100)
            return;
        parts = static_cast<int>(a.value);
        n = &doc_.expressions[n->a];
    }
    if (n->kind != language::NodeKind::name) return;
    hole.entry = model_->find_entry(doc_.expressions.names[n->index]);
    hole.parts = parts;
}

bool Compiler::in_percent(language::NodeId node) const {
    const language::Node& n = doc_.expressions[node];
    if (n.kind == language::NodeKind::amount) return doc_.expressions.amounts[n.index].percent;
    if (n.kind == language::NodeKind::divide || n.kind == language::NodeKind::per) {
        const language::Node& a = doc_.expressions[n.a];
        return a.kind == language::NodeKind::name;
    }
    return false;
}

} // namespace jarful::plan
