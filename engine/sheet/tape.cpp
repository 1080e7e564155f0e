#include "engine/sheet/tape.hpp"

#include "engine/sheet/evaluate.hpp"

#include <algorithm>
#include <array>

namespace jarful::sheet {

namespace {

using K = Kind<double>;

constexpr std::size_t together = 256;

/// An operand in one round: values side by side, or one figure for all.
struct Source {
    const double* at = nullptr; ///< null for one figure
    double value = 0;
};

/// The loops are left to the compiler to widen, so nothing in them may depend on anything but the
/// element: `to` never overlaps what it is made of. What `function` is has to be known by its type,
/// as that of a lambda is: of a function's name only the address is handed on, and it is called for
/// each element.
template <class Function>
void each(double* __restrict to, Source a, std::size_t n, Function&& function) {
    for (std::size_t i = 0; i < n; ++i)
        to[i] = function(a.at[i]);
}

template <class Function>
void each(double* __restrict to, Source a, Source b, std::size_t n, Function&& function) {
    const double* const x = a.at;
    const double* const y = b.at;
    if (x == nullptr) {
        for (std::size_t i = 0; i < n; ++i)
            to[i] = function(a.value, y[i]);
    } else if (y == nullptr) {
        for (std::size_t i = 0; i < n; ++i)
            to[i] = function(x[i], b.value);
    } else {
        for (std::size_t i = 0; i < n; ++i)
            to[i] = function(x[i], y[i]);
    }
}

void choose(double* __restrict to, Source c, Source a, Source b, std::size_t n) {
    const auto get = [](const Source& s, std::size_t i) {
        return s.at == nullptr ? s.value : s.at[i];
    };
    for (std::size_t i = 0; i < n; ++i)
        to[i] = K::choose(get(c, i), get(a, i), get(b, i));
}

void compute(Op op, double* to, Source a, Source b, Source c, std::size_t n) {
    switch (op) {
    case Op::constant:
    case Op::cell:
    case Op::unknown:
    case Op::whole_power: // never laid out: see Tape::apply
        break;
    case Op::negate:
        return each(to, a, n, [](double x) { return -x; });
    case Op::add:
        return each(to, a, b, n, [](double x, double y) { return x + y; });
    case Op::subtract:
        return each(to, a, b, n, [](double x, double y) { return x - y; });
    case Op::multiply:
        return each(to, a, b, n, [](double x, double y) { return x * y; });
    case Op::divide:
        return each(to, a, b, n, [](double x, double y) { return x / y; });
    case Op::power:
        return each(to, a, b, n, [](double x, double y) { return K::pow(x, y); });
    case Op::min:
        return each(to, a, b, n, [](double x, double y) { return K::min(x, y); });
    case Op::max:
        return each(to, a, b, n, [](double x, double y) { return K::max(x, y); });
    case Op::abs:
        return each(to, a, n, [](double x) { return K::abs(x); });
    case Op::sqrt:
        return each(to, a, n, [](double x) { return K::sqrt(x); });
    case Op::round:
        return each(to, a, n, [](double x) { return K::round(x); });
    case Op::floor:
        return each(to, a, n, [](double x) { return K::floor(x); });
    case Op::ceil:
        return each(to, a, n, [](double x) { return K::ceil(x); });
    case Op::less:
        return each(to, a, b, n, [](double x, double y) { return K::less(x, y, false); });
    case Op::less_equal:
        return each(to, a, b, n, [](double x, double y) { return K::less(x, y, true); });
    case Op::both:
        return each(to, a, b, n, [](double x, double y) { return K::both(x, y); });
    case Op::either:
        return each(to, a, b, n, [](double x, double y) { return K::any(x, y); });
    case Op::negation:
        return each(to, a, n, [](double x) { return K::negation(x); });
    case Op::choose:
        return choose(to, a, b, c, n);
    }
}

} // namespace

Tape::Operand Tape::add(std::span<const double> values) {
    entries_.push_back({Op::cell, 0, {}, {}, {}, values.data()});
    return {static_cast<std::uint32_t>(entries_.size() - 1), 0};
}

Tape::Operand Tape::apply(Op op, Operand a, Operand b, Operand c) {
    const auto moves = [](const Operand& one) { return one.at != Operand::still; };
    if (moves(a) || moves(b) || moves(c)) {
        entries_.push_back({op, 0, a, b, c, nullptr});
        return {static_cast<std::uint32_t>(entries_.size() - 1), 0};
    }
    std::array<Step, 4> alone;
    alone[0].value = a.value;
    alone[1].value = b.value;
    alone[2].value = c.value;
    alone[3].op = op;
    alone[3].b = 1;
    alone[3].c = 2;
    std::array<double, 4> v{};
    const auto none = [](std::uint32_t) { return 0.0; };
    evaluate_steps<double>(alone, none, none, v.data());
    return Operand::of(v.back());
}

Tape::Operand Tape::add(const Formula& formula, const std::function<Operand(CellId)>& cell,
                        const std::function<Operand(UnknownId)>& unknown) {
    std::vector<Operand> made;
    made.reserve(formula.steps.size());
    for (const Step& step : formula.steps) {
        const std::size_t used = operands(step.op);
        switch (step.op) {
        case Op::constant:
            made.push_back(Operand::of(step.value));
            break;
        case Op::cell:
            made.push_back(cell(step.a));
            break;
        case Op::unknown:
            made.push_back(unknown(step.a));
            break;
        case Op::whole_power: {
            // As a power: K::whole_pow is K::pow with the exponent as a double.
            const auto exponent = static_cast<std::int32_t>(step.b);
            made.push_back(apply(Op::power, made[step.a], Operand::of(exponent), {}));
            break;
        }
        default:
            made.push_back(apply(step.op, made[step.a], used > 1 ? made[step.b] : Operand{},
                                 used > 2 ? made[step.c] : Operand{}));
        }
    }
    return made.back();
}

std::uint32_t Tape::assign(Operand result) {
    std::vector<std::size_t> last_use(entries_.size());
    for (std::size_t i = 0; i < entries_.size(); ++i) {
        for (const Operand& used : {entries_[i].a, entries_[i].b, entries_[i].c})
            if (used.at != Operand::still) last_use[used.at] = i;
    }
    last_use[result.at] = entries_.size();
    std::vector<std::uint32_t> free;
    std::uint32_t slots = 0;
    for (std::size_t i = 0; i < entries_.size(); ++i) {
        Entry& entry = entries_[i];
        if (entry.values != nullptr) continue; // lies where it is
        if (free.empty()) free.push_back(slots++);
        entry.slot = free.back();
        free.pop_back();
        // Only now, so that a result never overlaps what it is made of.
        for (const Operand& used : {entry.a, entry.b, entry.c}) {
            if (used.at == Operand::still || last_use[used.at] != i) continue;
            if (entries_[used.at].values == nullptr) free.push_back(entries_[used.at].slot);
            last_use[used.at] = entries_.size(); // given back once, though it may be used twice
        }
        if (last_use[i] == 0) free.push_back(entry.slot); // nobody uses it
    }
    return slots;
}

void Tape::run(Operand result, std::span<double> out) {
    if (result.at == Operand::still) {
        std::fill(out.begin(), out.end(), result.value);
        return;
    }
    std::vector<double> room(assign(result) * together);
    for (std::size_t from = 0; from < out.size(); from += together) {
        const std::size_t n = std::min(together, out.size() - from);
        const auto source = [&](const Operand& one) -> Source {
            if (one.at == Operand::still) return {nullptr, one.value};
            const Entry& entry = entries_[one.at];
            return {entry.values != nullptr ? entry.values + from
                                            : room.data() + entry.slot * together,
                    0};
        };
        for (const Entry& entry : entries_) {
            if (entry.values != nullptr) continue;
            compute(entry.op, room.data() + entry.slot * together, source(entry.a), source(entry.b),
                    source(entry.c), n);
        }
        std::copy_n(source(result).at, n, out.data() + from);
    }
}

} // namespace jarful::sheet
