#include "engine/plan/compiler.hpp"
#include "engine/plan/method_times.hpp"
#include "engine/sheet/lowering.hpp"

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

/// A bound is one figure: with a range there it would not be said whether its low end rules, its
/// high end or its middle.
bool Compiler::one_figure(language::NodeId root) {
    bool one = true;
    for (const language::NodeId id : sheet::amount_nodes(doc_.expressions, root)) {
        const language::Node& n = doc_.expressions[id];
        const units::Amount& a = doc_.expressions.amounts[n.index];
        if (!a.range && !a.uncertain) continue;
        one = false;
        findings_.fault("unsure-bound", n.place, "A bound is one figure, and this is unsure.",
                        a.range ? "Write the end that is meant, or `between` with both."
                                : "Leave the ± out.");
    }
    return one;
}

void Compiler::holds() {
    each<language::HoldLine>([&](const language::Line& line, const language::HoldLine& s) {
        Bound b;
        b.line = &s;
        auto value = builder_.lower(doc_.expressions, s.value);
        bool good = value.has_value();
        const auto bound = [&](language::NodeId node, Formula& out) {
            if (node == language::no_node) return;
            if (!one_figure(node)) {
                good = false;
                return;
            }
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

void Compiler::times() {
    const auto check = [&](const auto&, const auto& statement) {
        static_cast<void>(can_be_meant(statement, findings_));
    };
    each<language::RestLine>(check);
    each<language::TendLine>(check);
    each<language::KeepLine>(check);
    each<language::ReadyLine>(check);
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
