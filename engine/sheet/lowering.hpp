#pragma once

#include "engine/sheet/builder.hpp"

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

/// Private to the room: one expression of the language to one formula, with its dimensions checked.
namespace jarful::sheet {

/// What lowering needs to know of its surroundings.
struct LoweringContext {
    language::Findings& findings;
    units::Spoons spoons;
    const Hooks& hooks;
    std::vector<Unknown>& unknowns;
    /// Index of the unknown for each bare measure in use.
    std::map<units::UnitId, UnknownId>& measures;
    std::function<std::optional<CellId>(std::string_view)> find;
    /// Empty if the cell is faulty itself.
    std::function<std::optional<Type>(CellId)> type_of;
};

[[nodiscard]] std::optional<Builder::Lowered> lower_expression(LoweringContext& context,
                                                               const language::Expressions& pool,
                                                               language::NodeId root);

/// Counts the parts of an expression, stopping past `most`.
[[nodiscard]] std::size_t count_parts(const language::Expressions& pool, language::NodeId root,
                                      std::size_t most);

/// The name nodes of an expression, in the order written.
[[nodiscard]] std::vector<language::NodeId> name_nodes(const language::Expressions& pool,
                                                       language::NodeId root);
/// The amounts that are written in an expression, likewise.
[[nodiscard]] std::vector<language::NodeId> amount_nodes(const language::Expressions& pool,
                                                         language::NodeId root);

} // namespace jarful::sheet
