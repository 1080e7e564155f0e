#include "engine/sheet/lowering.hpp"

#include <vector>

namespace jarful::sheet {

using language::Expressions;
using language::Node;
using language::NodeId;
using language::NodeKind;

namespace {

/// In the order written, for as long as `visit` gives true. The parser bounds how high a tree
/// grows.
template <class Visit>
bool walk(const Expressions& pool, NodeId id, Visit& visit) {
    if (id == language::no_node) return true;
    const Node& n = pool[id];
    if (!visit(id, n)) return false;
    if (n.kind == NodeKind::call) {
        for (std::uint32_t i = 0; i < n.b; ++i)
            if (!walk(pool, pool.arguments[n.a + i], visit)) return false;
        return true;
    }
    return walk(pool, n.a, visit) && walk(pool, n.b, visit) && walk(pool, n.c, visit);
}

} // namespace

std::size_t count_parts(const Expressions& pool, NodeId root, std::size_t most) {
    std::size_t parts = 0;
    const auto count = [&](NodeId, const Node&) { return ++parts <= most; };
    walk(pool, root, count);
    return parts;
}

namespace {

std::vector<NodeId> nodes_of(const Expressions& pool, NodeId root, NodeKind kind) {
    std::vector<NodeId> found;
    found.reserve(8);
    const auto note = [&](NodeId id, const Node& n) {
        if (n.kind == kind) found.push_back(id);
        return true;
    };
    walk(pool, root, note);
    return found;
}

} // namespace

std::vector<NodeId> name_nodes(const Expressions& pool, NodeId root) {
    return nodes_of(pool, root, NodeKind::name);
}

std::vector<NodeId> amount_nodes(const Expressions& pool, NodeId root) {
    return nodes_of(pool, root, NodeKind::amount);
}

} // namespace jarful::sheet
