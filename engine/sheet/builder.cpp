#include "engine/sheet/builder.hpp"

#include "engine/language/parse.hpp"
#include "engine/sheet/lowering.hpp"
#include "engine/units/nearest.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <deque>
#include <map>
#include <span>
#include <unordered_map>

namespace jarful::sheet {

using language::Expressions;
using language::NodeId;
using language::Place;

std::string describe(const Type& type) {
    switch (type.sort) {
    case Type::Sort::temperature_point:
        return "a temperature";
    case Type::Sort::truth:
        return "a yes or no";
    case Type::Sort::number:
        break;
    }
    return units::describe(type.dimension);
}

namespace {

enum class Progress : char { undefined, waiting, done, faulty };

struct Draft {
    Cell cell;
    const Expressions* pool = nullptr;
    NodeId root = language::no_node;
    std::vector<CellId> uses; ///< of the expression, until it is lowered
    Progress progress = Progress::undefined;
};

/// For each draft those that use it, all in one piece of memory.
class Users {
  public:
    explicit Users(const std::deque<Draft>& drafts)
        : begin_(drafts.size() + 1) {
        for (const Draft& d : drafts)
            for (CellId used : d.uses)
                ++begin_[used + 1];
        for (std::size_t i = 1; i < begin_.size(); ++i)
            begin_[i] += begin_[i - 1];
        ids_.resize(begin_.back());
        std::vector<std::uint32_t> filled(begin_.begin(), begin_.end() - 1);
        for (CellId id = 0; id < drafts.size(); ++id)
            for (CellId used : drafts[id].uses)
                ids_[filled[used]++] = id;
    }

    [[nodiscard]] std::span<const CellId> of(CellId id) const {
        return std::span(ids_).subspan(begin_[id], begin_[id + 1] - begin_[id]);
    }

  private:
    std::vector<std::uint32_t> begin_; ///< one more than there are drafts
    std::vector<CellId> ids_;
};

} // namespace

struct Builder::State {
    State(language::Findings& f, units::Spoons s)
        : findings(f)
        , spoons(s) {}

    language::Findings& findings;
    units::Spoons spoons;
    std::deque<Draft> drafts;
    std::vector<Unknown> unknowns;
    std::map<units::UnitId, UnknownId> measures;
    std::unordered_map<std::string_view, CellId> by_name; ///< the names stand in the drafts
    std::deque<Expressions> own_pools;

    std::optional<CellId> find(std::string_view name) const {
        const auto it = by_name.find(name);
        if (it == by_name.end()) return std::nullopt;
        return it->second;
    }

    std::vector<std::string_view> names; ///< of the drafts, for suggestions
    std::size_t suggestions = 0;

    std::optional<std::string_view> suggestion(std::string_view name);
    bool resolve_names(const Expressions& pool, NodeId root, std::vector<CellId>& uses);
    void report_cycles(const std::vector<std::uint32_t>& waiting);
    LoweringContext context(const Hooks& callbacks);
};

Builder::Builder(language::Findings& findings, units::Spoons spoons)
    : state_(std::make_unique<State>(findings, spoons)) {
}

Builder::~Builder() = default;

CellId Builder::declare(std::string name, Place place, bool weighed) {
    State& s = *state_;
    if (const std::optional<CellId> taken = s.find(name)) {
        const Cell& first = s.drafts[*taken].cell;
        language::Diagnostic d;
        d.code = "duplicate-name";
        d.place = place;
        d.message = fmt::format("There is already something called \"{}\".", name);
        d.advice = "Give one of the two another name.";
        if (!first.place.empty()) d.related.push_back({first.place, "first written here"});
        s.findings.add(std::move(d));
        return *taken;
    }
    Draft draft;
    draft.cell.name = std::move(name);
    draft.cell.place = place;
    draft.cell.weighed = weighed;
    s.drafts.push_back(std::move(draft));
    const auto id = static_cast<CellId>(s.drafts.size() - 1);
    s.by_name.emplace(s.drafts.back().cell.name, id);
    return id;
}

void Builder::expect(CellId id) {
    state_->drafts[id].cell.expected = true;
}

std::optional<CellId> Builder::find(std::string_view name) const {
    return state_->find(name);
}

const Cell& Builder::cell(CellId id) const {
    return state_->drafts[id].cell;
}

void Builder::define(CellId id, const Expressions& pool, NodeId root) {
    Draft& d = state_->drafts[id];
    if (d.progress != Progress::undefined) return; // a second definition, already reported
    d.pool = &pool;
    d.root = root;
    d.progress = root == language::no_node ? Progress::faulty : Progress::waiting;
}

void Builder::define(CellId id, Formula formula, Type type) {
    Draft& d = state_->drafts[id];
    if (d.progress != Progress::undefined) return;
    d.cell.formula = std::move(formula);
    d.cell.type = type;
    d.uses = d.cell.formula.cells();
    d.progress = Progress::waiting;
}

void Builder::define_input(CellId id, Type type) {
    Draft& d = state_->drafts[id];
    if (d.progress != Progress::undefined) return;
    d.cell.type = type;
    d.progress = Progress::waiting;
}

CellId Builder::define_text(std::string name, std::string_view expression, bool weighed) {
    State& s = *state_;
    const CellId id = declare(std::move(name), {}, weighed);
    std::optional<language::LoneExpression> parsed =
        language::parse_expression(expression, s.findings);
    if (!parsed) {
        s.drafts[id].progress = Progress::faulty;
        return id;
    }
    s.own_pools.push_back(std::move(parsed->expressions));
    define(id, s.own_pools.back(), parsed->root);
    return id;
}

UnknownId Builder::add_unknown(Unknown unknown) {
    state_->unknowns.push_back(std::move(unknown));
    return static_cast<UnknownId>(state_->unknowns.size() - 1);
}

/// The known name that is nearest.
std::optional<std::string_view> Builder::State::suggestion(std::string_view name) {
    // Each takes a look at every name: where hundreds are wrong, a file is not misspelt.
    constexpr std::size_t most_suggestions = 100;
    if (++suggestions > most_suggestions) return std::nullopt;
    for (std::size_t i = names.size(); i < drafts.size(); ++i)
        names.push_back(drafts[i].cell.name);
    return units::nearest(name, names);
}

bool Builder::State::resolve_names(const Expressions& pool, NodeId root,
                                   std::vector<CellId>& uses) {
    bool good = true;
    const std::vector<NodeId> names_used = name_nodes(pool, root);
    uses.reserve(names_used.size());
    for (NodeId node : names_used) {
        const std::string& name = pool.names[pool[node].index];
        const std::optional<CellId> id = find(name);
        if (id) {
            if (std::find(uses.begin(), uses.end(), *id) == uses.end()) uses.push_back(*id);
            continue;
        }
        good = false;
        const std::optional<std::string_view> near = suggestion(name);
        language::Diagnostic& unknown =
            findings.fault("unknown-name", pool[node].place,
                           fmt::format("There is nothing called \"{}\" here.", name),
                           near ? fmt::format("Did you mean \"{}\"?", *near)
                                : "Give it a line of its own: `given`, `weigh` or `let`.");
        if (near) unknown.fixes.push_back({pool[node].place, std::string(*near)});
    }
    return good;
}

LoweringContext Builder::State::context(const Hooks& callbacks) {
    return LoweringContext{findings,
                           spoons,
                           callbacks,
                           unknowns,
                           measures,
                           [this](std::string_view name) { return find(name); },
                           [this](CellId id) -> std::optional<Type> {
                               const Draft& d = drafts[id];
                               if (d.progress != Progress::done) return std::nullopt;
                               return d.cell.type;
                           }};
}

/// Reports each circle once, as a path that comes back to where it started.
void Builder::State::report_cycles(const std::vector<std::uint32_t>& waiting) {
    std::vector<char> colour(drafts.size(), 0); // 1: seen in an earlier walk
    for (CellId start = 0; start < drafts.size(); ++start) {
        if (waiting[start] == 0 || colour[start] != 0) continue;
        // Every cell that waits uses another one that waits: walk until one comes up twice.
        std::vector<CellId> path;
        std::unordered_map<CellId, std::size_t> position;
        CellId at = start;
        while (colour[at] == 0 && position.emplace(at, path.size()).second) {
            path.push_back(at);
            const auto& uses = drafts[at].uses;
            const auto next =
                std::find_if(uses.begin(), uses.end(), [&](CellId u) { return waiting[u] != 0; });
            if (next == uses.end()) break;
            at = *next;
        }
        const auto loop = position.find(at);
        if (colour[at] == 0 && loop != position.end()) {
            std::vector<CellId> round(path.begin() + static_cast<std::ptrdiff_t>(loop->second),
                                      path.end());
            // Begin with a line of the file: totals such as `everything` have no place in it.
            const auto placed = std::find_if(round.begin(), round.end(), [&](CellId id) {
                return !drafts[id].cell.place.empty();
            });
            if (placed != round.end()) std::rotate(round.begin(), placed, round.end());
            std::string text;
            language::Diagnostic d;
            d.code = "cycle";
            for (const CellId id : round) {
                const Cell& cell = drafts[id].cell;
                text += cell.name + " → ";
                if (cell.place.empty()) continue;
                if (!d.place)
                    d.place = cell.place;
                else
                    d.related.push_back(
                        {cell.place, fmt::format("{} is worked out here", cell.name)});
            }
            text += drafts[round.front()].cell.name;
            d.message = round.size() == 1
                            ? fmt::format("\"{}\" is worked out from itself.", drafts[at].cell.name)
                            : fmt::format("These lines wait for each other: {}.", text);
            d.advice = "One of them has to be a number, or come from something else.";
            findings.add(std::move(d));
        }
        for (CellId id : path)
            colour[id] = 1;
    }
}

bool Builder::resolve() {
    State& s = *state_;
    for (Draft& d : s.drafts) {
        if (d.progress == Progress::waiting && d.pool != nullptr &&
            !s.resolve_names(*d.pool, d.root, d.uses))
            d.progress = Progress::faulty;
    }
    std::vector<std::uint32_t> waiting(s.drafts.size());
    const Users users(s.drafts);
    std::vector<CellId> ready;
    ready.reserve(s.drafts.size());
    for (CellId id = 0; id < s.drafts.size(); ++id) {
        waiting[id] = static_cast<std::uint32_t>(s.drafts[id].uses.size());
        if (waiting[id] == 0) ready.push_back(id);
    }
    for (std::size_t next = 0; next < ready.size(); ++next) {
        const CellId id = ready[next];
        Draft& d = s.drafts[id];
        if (d.progress == Progress::waiting && d.pool != nullptr) {
            LoweringContext context = s.context(hooks);
            std::optional<Lowered> lowered = lower_expression(context, *d.pool, d.root);
            if (lowered) {
                d.cell.formula = std::move(lowered->formula);
                d.cell.type = lowered->type;
                d.progress = Progress::done;
                if (hooks.finish)
                    hooks.finish(id, d.cell.formula, d.cell.type, (*d.pool)[d.root].place);
            } else {
                d.progress = Progress::faulty;
            }
        } else if (d.progress == Progress::waiting) {
            d.progress = Progress::done;
        }
        for (CellId user : users.of(id))
            if (--waiting[user] == 0) ready.push_back(user);
    }
    if (ready.size() != s.drafts.size()) {
        s.report_cycles(waiting);
        for (CellId id = 0; id < s.drafts.size(); ++id)
            if (waiting[id] != 0) s.drafts[id].progress = Progress::faulty;
    }
    return !s.findings.has_faults();
}

std::optional<Builder::Lowered> Builder::lower(const Expressions& pool, NodeId root) {
    if (root == language::no_node) return std::nullopt;
    State& s = *state_;
    std::vector<CellId> uses;
    if (!s.resolve_names(pool, root, uses)) return std::nullopt;
    LoweringContext context = s.context(hooks);
    return lower_expression(context, pool, root);
}

Sheet Builder::build() {
    State& s = *state_;
    std::vector<Cell> cells;
    cells.reserve(s.drafts.size());
    for (Draft& d : s.drafts)
        cells.push_back(std::move(d.cell));
    return Sheet(std::move(cells), std::move(s.unknowns));
}

} // namespace jarful::sheet
