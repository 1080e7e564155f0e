#include "engine/sheet/lowering.hpp"

#include <vector>

namespace jarful::sheet {

using language::Expressions;
using language::Node;
using language::NodeId;
using language::NodeKind;

namespace {

template <class Visit>
void walk(const Expressions& pool, NodeId root, Visit&& visit) {
    std::vector<NodeId> work;
    work.reserve(32);
    work.push_back(root);
    while (!work.empty()) {
        const NodeId id = work.back();
        work.pop_back();
        if (id == language::no_node) continue;
        const Node& n = pool[id];
        if (!visit(id, n)) return;
        if (n.kind == NodeKind::call) {
            for (std::uint32_t i = n.b; i-- > 0;)
                work.push_back(pool.arguments[n.a + i]);
        } else {
            for (const NodeId below : {n.c, n.b, n.a})
                if (below != language::no_node) work.push_back(below);
        }
    }
}

} // namespace

std::size_t count_parts(const Expressions& pool, NodeId root, std::size_t most) {
    std::size_t parts = 0;
    walk(pool, root, [&](NodeId, const Node&) { return ++parts <= most; });
    return parts;
}

std::vector<NodeId> name_nodes(const Expressions& pool, NodeId root) {
    std::vector<NodeId> found;
    walk(pool, root, [&](NodeId id, const Node& n) {
        if (n.kind == NodeKind::name) found.push_back(id);
        return true;
    });
    return found;
}

} // namespace jarful::sheet
