#include "engine/language/tidy_expression.hpp"

#include "engine/language/characters.hpp"
#include "engine/language/words.hpp"
#include "engine/units/unit.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>

namespace jarful::language {

namespace {

bool is_blank(std::string_view text) {
    return text.front() == ' ' || text.front() == '\t' || text.front() == '\n' ||
           text.starts_with("\xC2\xA0") || text.starts_with("\xE2\x80\x89") ||
           text.starts_with("\xE2\x80\xAF");
}

std::size_t blanks(std::string_view text) {
    std::size_t n = 0;
    while (n < text.size() && is_blank(text.substr(n)))
        n += decode(text.substr(n)).length;
    return n;
}

/// A unit with the blanks of its prefix ("us  cup") made single, as read_unit_prefix takes it.
std::optional<units::UnitText> unit_at(std::string_view text) {
    if (const auto unit = units::read_unit_prefix(text)) return unit;
    const std::size_t word = word_length(text);
    const std::size_t gap = word == 0 ? 0 : blanks(text.substr(word));
    if (gap == 0) return std::nullopt;
    std::string single(text.substr(0, word));
    single += ' ';
    single += text.substr(word + gap);
    auto unit = units::read_unit_prefix(single);
    if (unit) unit->length += gap - 1;
    return unit;
}

/// An operator's strength, as in the reference; higher binds tighter.
int strength(NodeKind kind) {
    switch (kind) {
    case NodeKind::choose:
        return 0;
    case NodeKind::either:
        return 1;
    case NodeKind::both:
        return 2;
    case NodeKind::negation:
        return 3;
    case NodeKind::less:
    case NodeKind::less_equal:
    case NodeKind::greater:
    case NodeKind::greater_equal:
        return 4;
    case NodeKind::add:
    case NodeKind::subtract:
        return 5;
    case NodeKind::multiply:
    case NodeKind::divide:
    case NodeKind::of:
        return 6;
    case NodeKind::per:
        return 7;
    case NodeKind::negate:
        return 8;
    case NodeKind::power:
        return 9;
    case NodeKind::amount:
    case NodeKind::unit:
    case NodeKind::name:
    case NodeKind::call:
        break;
    }
    return 10;
}

std::string_view sign_of(NodeKind kind) {
    switch (kind) {
    case NodeKind::multiply:
        return " * ";
    case NodeKind::divide:
        return " / ";
    case NodeKind::of:
        return " of ";
    case NodeKind::per:
        return " per ";
    case NodeKind::add:
        return " + ";
    case NodeKind::subtract:
        return " - ";
    case NodeKind::less:
        return " < ";
    case NodeKind::less_equal:
        return " <= ";
    case NodeKind::greater:
        return " > ";
    case NodeKind::greater_equal:
        return " >= ";
    case NodeKind::both:
        return " and ";
    case NodeKind::either:
        return " or ";
    default:
        return "^";
    }
}

bool is_leaf(NodeKind kind) {
    return strength(kind) == 10;
}

class Printer {
  public:
    Printer(const Source& source, const Expressions& pool)
        : source_(source)
        , pool_(pool) {}

    /// Without parentheses of its own.
    void print(NodeId id) {
        const Node& n = pool_[id];
        switch (n.kind) {
        case NodeKind::amount:
            out_ += amount(id);
            return;
        case NodeKind::unit:
            out_ += tidy_unit(pool_.units[n.index]);
            return;
        case NodeKind::name:
            out_ += pool_.names[n.index];
            return;
        case NodeKind::negate:
            out_ += '-';
            operand(n.a, parenthesised(n.a) || !is_leaf(pool_[n.a].kind) || unsure(n.a));
            return;
        case NodeKind::negation:
            out_ += "not ";
            operand(n.a, parenthesised(n.a) || !is_leaf(pool_[n.a].kind));
            return;
        case NodeKind::choose:
            choice(n);
            return;
        case NodeKind::call:
            call(n);
            return;
        default:
            operand(n.a, left_needs(n));
            out_ += sign_of(n.kind);
            operand(n.b, right_needs(n));
            return;
        }
    }

    void operand(NodeId id, bool parentheses) {
        if (parentheses) out_ += '(';
        print(id);
        if (parentheses) out_ += ')';
    }

    /// Whether parentheses that were written are kept: they say nothing round a lone thing.
    [[nodiscard]] bool parenthesised(NodeId id) const {
        return pool_[id].parenthesised && !is_leaf(pool_[id].kind);
    }

    [[nodiscard]] std::string take() { return std::move(out_); }

  private:
    [[nodiscard]] std::string amount(NodeId id) const {
        Place place = pool_[id].place;
        // A node's place takes in its parentheses.
        std::string_view text = source_.at(place);
        while (!text.empty() && (text.front() == '(' || is_blank(text))) {
            const std::size_t step = decode(text).length;
            text.remove_prefix(step);
            place.begin += static_cast<std::uint32_t>(step);
        }
        return tidy_amount(source_, place);
    }

    /// With `±`: what stands beside it could be taken for a part of it.
    [[nodiscard]] bool unsure(NodeId id) const {
        const Node& n = pool_[id];
        return n.kind == NodeKind::amount && pool_.amounts[n.index].uncertain;
    }

    [[nodiscard]] bool compound(NodeId id) const {
        const Node& n = pool_[id];
        return n.kind == NodeKind::amount && pool_.amounts[n.index].unit.size > 1;
    }

    /// An amount that a `/` or `per` before it could tear apart.
    [[nodiscard]] bool loose(NodeId id) const {
        const Node& n = pool_[id];
        if (n.kind != NodeKind::amount) return false;
        const units::Amount& a = pool_.amounts[n.index];
        if (a.fraction || a.range || a.uncertain || a.unit.size > 1) return true;
        // `2 lb 3 oz` has digits again behind its first blank.
        const std::string text = amount(id);
        const auto behind = std::find(text.begin(), text.end(), ' ');
        return std::any_of(behind, text.end(), is_digit) && text.find('^') == std::string::npos;
    }

    /// Whether an operand of `and` and `or` is one that the eye could group with the next.
    [[nodiscard]] static bool blurred(NodeKind parent, NodeKind child) {
        if (parent != NodeKind::both && parent != NodeKind::either) return false;
        return child == NodeKind::negation ||
               (parent == NodeKind::either && child == NodeKind::both);
    }

    [[nodiscard]] bool left_needs(const Node& n) const {
        const Node& a = pool_[n.a];
        if (parenthesised(n.a) || unsure(n.a) || blurred(n.kind, a.kind)) return true;
        if (n.kind == NodeKind::divide && compound(n.a)) return true;
        if (n.kind == NodeKind::power)
            return !is_leaf(a.kind) || (a.kind == NodeKind::amount && !plain(n.a));
        if (is_leaf(a.kind)) return false;
        if (strength(a.kind) < strength(n.kind)) return true;
        // `a / b * c` and `a / b / c`, unless a bare unit stands behind the first stroke.
        if (a.kind == NodeKind::divide && pool_[a.b].kind != NodeKind::unit)
            return strength(n.kind) == 6;
        return false;
    }

    [[nodiscard]] bool right_needs(const Node& n) const {
        const Node& b = pool_[n.b];
        if (parenthesised(n.b)) return true;
        if (n.kind == NodeKind::power) return exponent_needs(n.b);
        if (b.kind == NodeKind::unit) return false;
        if (n.kind == NodeKind::divide) {
            if (b.kind == NodeKind::amount) return loose(n.b);
            return !is_leaf(b.kind) && b.kind != NodeKind::power;
        }
        if (n.kind == NodeKind::per && b.kind == NodeKind::amount) return loose(n.b);
        if (is_leaf(b.kind)) return unsure(n.b);
        if (b.kind == NodeKind::negate || blurred(n.kind, b.kind)) return true;
        return strength(b.kind) <= strength(n.kind);
    }

    /// A whole number, with or without a minus, stands bare behind `^`; all else in parentheses.
    [[nodiscard]] bool exponent_needs(NodeId id) const {
        const Node& n = pool_[id];
        if (n.kind == NodeKind::negate) return n.parenthesised || !whole(n.a);
        return !whole(id);
    }

    [[nodiscard]] bool plain(NodeId id) const {
        const units::Amount& a = pool_.amounts[pool_[id].index];
        return a.plain_number && !a.fraction && !a.range && !a.uncertain;
    }

    [[nodiscard]] bool whole(NodeId id) const {
        if (pool_[id].kind != NodeKind::amount || !plain(id)) return false;
        const std::string text = amount(id);
        return std::all_of(text.begin(), text.end(), is_digit);
    }

    void choice(const Node& n) {
        out_ += "if ";
        operand(n.a, pool_[n.a].kind == NodeKind::choose);
        out_ += " then ";
        operand(n.b, pool_[n.b].kind == NodeKind::choose);
        out_ += " else ";
        print(n.c);
    }

    void call(const Node& n) {
        out_ += function_name(n.function);
        out_ += '(';
        for (NodeId i = 0; i < n.b; ++i) {
            if (i != 0) out_ += ", ";
            print(pool_.arguments[n.a + i]);
        }
        out_ += ')';
    }

    const Source& source_;
    const Expressions& pool_;
    std::string out_;
};

/// A mixed number may have several blanks inside.
std::string with_single_blanks(std::string_view digits) {
    std::string out;
    while (!digits.empty()) {
        const std::size_t gap = blanks(digits);
        if (gap > 0) out += ' ';
        digits.remove_prefix(gap);
        const std::size_t length = digits.empty() ? 0 : decode(digits).length;
        out += digits.substr(0, length);
        digits.remove_prefix(length);
    }
    return out;
}

/// Units that are words rather than signs, and so have a plural.
bool counted(const units::CompoundUnit& unit) {
    const std::string text = unit.text();
    return text == "day" || text == "week" || text == "piece";
}

} // namespace

std::string tidy_unit(const units::CompoundUnit& unit) {
    return unit.text();
}

std::string tidy_amount(const Source& source, Place place) {
    std::string_view text = source.at(place);
    std::string out;
    std::string number; // the last one, for the plural of what follows
    while (!text.empty()) {
        if (is_blank(text)) {
            text.remove_prefix(decode(text).length);
        } else if (text.starts_with("..")) {
            out += "..";
            number.clear();
            text.remove_prefix(2);
        } else if (text.starts_with("±") || text.starts_with("+/-")) {
            out += " ± ";
            number.clear();
            text.remove_prefix(text.starts_with("±") ? 2 : 3);
        } else if (const auto read = units::read_number(text)) {
            if (!number.empty()) out += ' ';
            number = with_single_blanks(text.substr(0, read->length));
            out += number;
            text.remove_prefix(read->length);
        } else if (const auto unit = unit_at(text)) {
            out += ' ' + tidy_unit(unit->unit) + (number != "1" && counted(unit->unit) ? "s" : "");
            text.remove_prefix(unit->length);
        } else {
            break; // the end of the amount, where the place reaches further
        }
    }
    return out;
}

std::string tidy_expression(const Source& source, const Expressions& expressions, NodeId root,
                            Standing standing) {
    Printer printer(source, expressions);
    printer.operand(root, standing == Standing::beside && printer.parenthesised(root));
    return printer.take();
}

} // namespace jarful::language
