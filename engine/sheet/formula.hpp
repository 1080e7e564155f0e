#pragma once

#include "engine/language/source.hpp"
#include "engine/units/dimension.hpp"
#include "engine/units/interval.hpp"

#include <cstdint>
#include <string>
#include <vector>

/// A checked expression in base units: the one tree that every evaluator walks.
namespace jarful::sheet {

using CellId = std::uint32_t;
using UnknownId = std::uint32_t;
inline constexpr CellId no_cell = 0xffff'ffff;

/// Something that is not known exactly and varies once however often it is used: the spread of a
/// spoon, a stated ±, the density of a material. `low <= typical <= high`, in base units.
struct Unknown {
    std::string label;
    double low = 0;
    double typical = 0;
    double high = 0;
    language::Place place; ///< where it is written; empty if it comes from the larder
    std::string source;    ///< of the figure, if it comes from the larder
    [[nodiscard]] units::Interval interval() const { return {low, high}; }
};

enum class Op : std::uint8_t {
    constant, ///< value
    cell,     ///< a: CellId
    unknown,  ///< a: UnknownId
    negate,
    add,
    subtract,
    multiply,
    divide,
    power,       ///< a ^ b, any exponent
    whole_power, ///< a ^ whole, exponent in b as a signed number
    min,
    max,
    abs,
    sqrt,
    round,
    floor,
    ceil,
    less,
    less_equal, ///< greater is less with its sides exchanged
    both,
    either,
    negation,
    choose ///< a ? b : c
};

/// How many earlier steps an operation uses.
[[nodiscard]] std::size_t operands(Op op);

/// One operation. Operands are indices of earlier steps of the same formula (or ids, see Op).
struct Step {
    Op op = Op::constant;
    std::uint32_t a = 0, b = 0, c = 0;
    double value = 0;
    language::Place place; ///< what it was written as, for faults found while computing
};

/// Steps in an order in which each uses earlier ones only; the last is the result.
struct Formula {
    std::vector<Step> steps;

    [[nodiscard]] bool empty() const { return steps.empty(); }
    /// Adds a step and returns its index.
    std::uint32_t add(Step step);
    std::uint32_t constant(double value, language::Place place = {});
    std::uint32_t cell(CellId id, language::Place place = {});
    std::uint32_t unknown(UnknownId id, language::Place place = {});
    std::uint32_t apply(Op op, std::uint32_t a, std::uint32_t b = 0, language::Place place = {});
    /// The cells it refers to, each once, in order of first use.
    [[nodiscard]] std::vector<CellId> cells() const;

    /// A formula that just reads a cell, or a constant.
    [[nodiscard]] static Formula of_cell(CellId id);
    [[nodiscard]] static Formula of_constant(double value);
};

/// What a cell's value is.
struct Type {
    enum class Sort : std::uint8_t { number, temperature_point, truth };
    units::Dimension dimension;
    Sort sort = Sort::number;
    friend bool operator==(const Type&, const Type&) = default;
};

} // namespace jarful::sheet
