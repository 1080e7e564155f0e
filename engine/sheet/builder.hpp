#pragma once

#include "engine/language/diagnostic.hpp"
#include "engine/language/tree.hpp"
#include "engine/sheet/sheet.hpp"

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// From definitions in any order to a sheet: names are resolved, circles found, dimensions checked,
/// expressions lowered to base units. Every fault is reported, each with its place.
namespace jarful::sheet {

/// Largest number of parts (numbers, names, operators) in one expression.
inline constexpr std::size_t most_parts = 1000;

/// What only the caller knows. Each may be left empty.
struct Hooks {
    /// Called when a cell's formula and type are known; may convert both (a volume of a material to
    /// a mass) and report faults. `value_place` is where the expression stands.
    std::function<void(CellId, Formula&, Type&, language::Place value_place)> finish;
    /// The true density (g/mL) of what a cell holds, for `cover`. Empty: unknown.
    std::function<std::optional<UnknownId>(CellId)> true_density;
    /// A cell with the room of the chosen vessel (mL, 0 without one), which `cover` fills up.
    std::optional<CellId> vessel;
    /// Told the first time that a bare spoon or cup is used while the kitchen's are not stated.
    std::function<void(units::UnitId, language::Place)> assumed_measure;
};

class Builder {
  public:
    explicit Builder(language::Findings& findings, units::Spoons spoons = units::Spoons::unstated);
    ~Builder();
    Builder(const Builder&) = delete;
    Builder& operator=(const Builder&) = delete;

    Hooks hooks;

    /// Reserves a cell. A name that is taken is reported, with both places, and the first cell
    /// returned.
    CellId declare(std::string name, language::Place place, bool weighed);
    /// Makes a weighed cell one that is weighed later (see Cell::expected).
    void expect(CellId id);
    [[nodiscard]] std::optional<CellId> find(std::string_view name) const;
    [[nodiscard]] const Cell& cell(CellId id) const;

    /// An expression of a parsed file for a declared cell. The pool must outlive the builder.
    void define(CellId id, const language::Expressions& pool, language::NodeId root);
    /// A formula made by the caller. Its cells must have been declared.
    void define(CellId id, Formula formula, Type type);
    /// A cell that is only ever set; `type` for those that use it.
    void define_input(CellId id, Type type);

    /// Parses and defines in one go, for use without a file: `define_text("salt", "2.2 % of
    /// cabbage")`. Names may be defined later. Returns the cell; faults go to the findings, with
    /// places in the text.
    CellId define_text(std::string name, std::string_view expression, bool weighed = false);

    UnknownId add_unknown(Unknown unknown);

    /// Resolves, orders, checks and lowers every cell. False if anything was reported as a fault;
    /// what could be lowered is lowered all the same, so that lower() reports further faults too.
    bool resolve();

    /// An expression that is not a cell: a bound, a hole in a text. After resolve(). Empty with a
    /// fault reported, or without one if it uses a cell that is itself faulty.
    struct Lowered {
        Formula formula;
        Type type;
    };
    [[nodiscard]] std::optional<Lowered> lower(const language::Expressions& pool,
                                               language::NodeId root);

    /// The sheet; call once, after resolve() was true.
    [[nodiscard]] Sheet build();

  private:
    struct State;
    std::unique_ptr<State> state_;
};

/// In a cook's words: "a weight", "a volume", "a temperature", "a yes or no".
[[nodiscard]] std::string describe(const Type& type);

} // namespace jarful::sheet
