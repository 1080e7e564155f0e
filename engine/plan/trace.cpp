#include "engine/plan/trace.hpp"

#include "engine/plan/entering.hpp"
#include "engine/plan/holding.hpp"
#include "engine/plan/jars.hpp"
#include "engine/plan/measured.hpp"
#include "engine/plan/trace_sources.hpp"
#include "engine/plan/trace_values.hpp"
#include "engine/plan/working.hpp"
#include "engine/units/nearest.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <unordered_map>

namespace jarful::plan {

using language::QuantityWord;
using sheet::CellId;
using sheet::Formula;
using sheet::Op;
using sheet::Type;
using sheet::UnknownId;

namespace {

constexpr std::string_view the_verdict = "verdict";
/// Enclosing a value takes as long as what is beneath it is deep: of thousands of lines only those
/// nearest to what was asked for are enclosed.
constexpr std::size_t most_enclosed = 100;

/// What of a model has a name and is no cell.
std::optional<Formula> formula_called(const Model& model, std::string_view name, Type& type) {
    if (name == "fill" && model.fill) {
        type = {units::dim::volume, Type::Sort::number};
        return model.fill;
    }
    if (name == "headspace" && model.headspace) {
        type = model.headspace_type;
        return model.headspace;
    }
    if (name == "topup" && model.top_up) {
        type = Type{};
        return model.top_up;
    }
    if ((name == the_verdict || name == "salt%") && model.ruling != nullptr) {
        type = Type{};
        return basis_formula(model.totals, model.ruling->basis);
    }
    return std::nullopt;
}

std::vector<std::string> names_of(const Model& model) {
    std::vector<std::string> names;
    const sheet::Sheet& sheet = *model.sheet;
    for (const language::Line& line : model.document->lines) {
        if (const auto* q = std::get_if<language::Quantity>(&line.statement))
            names.push_back(q->name.value);
        if (const auto* b = std::get_if<language::BrineLine>(&line.statement))
            names.push_back(b->name.value);
    }
    for (const kitchen::Constant& c : model.kitchen->constants)
        if (std::find(names.begin(), names.end(), c.name) == names.end()) names.push_back(c.name);
    for (const char* name : {"all_produce", "all_salt", "all_water", "everything"})
        if (sheet.find(name)) names.emplace_back(name);
    Type type;
    for (const char* name : {"fill", "headspace", "topup", "verdict"})
        if (formula_called(model, name, type)) names.emplace_back(name);
    return names;
}

class Tracer {
  public:
    Tracer(Model& model, const kitchen::Kitchen& kitchen, const Settler& settler,
           const Entered& entered)
        : model_(model)
        , sheet_(*model.sheet)
        , kitchen_(kitchen)
        , settler_(settler)
        , entered_(entered)
        , working_(model)
        , sources_(model, kitchen, working_) {
        for (const language::Line& line : model.document->lines)
            if (const auto* q = std::get_if<language::Quantity>(&line.statement))
                quantities_.emplace(q->name.value, q);
    }

    void run(CellId cell, Trace& out) {
        trace_ = &out;
        of_cell(cell);
        finish_queue();
        out.sources = sources_.all();
        causes(Formula::of_cell(cell), sheet_.cell(cell).type, false, out.causes);
        unweighed(cell);
    }

    void run(std::string name, const Formula& formula, const Type& type, bool percent, Trace& out) {
        trace_ = &out;
        TraceNode node;
        node.sort = TraceNode::Sort::total;
        node.name = std::move(name);
        const units::Interval bounds = sheet_.enclose(formula);
        node.value = trace_value(working_.value(formula, bounds), bounds, type, percent);
        describe_named(node);
        out.nodes.push_back(std::move(node));
        work_out(0, formula, type, Working::By::what_is_in);
        finish_queue();
        out.sources = sources_.all();
        causes(formula, type, percent, out.causes);
    }

    /// @param enclosed whether its bounds are wanted, which take a while.
    TraceValue value_of(CellId id, bool enclosed) {
        const sheet::Cell& cell = sheet_.cell(id);
        const units::Interval bounds = enclosed ? sheet_.interval(id) : units::whole_line;
        // A line that is weighed is shown as it is worked out, with its reading beside it, unless
        // something else went in.
        const double exact = sheet_.value(id);
        const bool as_worked_out = cell.weighed && !cell.expected && bounds.contains(exact);
        return trace_value(as_worked_out ? exact : working_.value(Formula::of_cell(id), bounds),
                           bounds, cell.type, false);
    }

  private:
    // ---- Nodes ----

    std::size_t of_cell(CellId id) {
        const auto known = by_cell_.find(id);
        if (known != by_cell_.end()) return known->second;
        const std::size_t index = trace_->nodes.size();
        by_cell_.emplace(id, index);
        trace_->nodes.emplace_back();
        queue_.emplace_back(id, index);
        return index;
    }

    /// Without recursion: a recipe may be a chain of thousands of lines.
    void finish_queue() {
        for (std::size_t i = 0; i < queue_.size(); ++i) {
            const auto [id, index] = queue_[i];
            describe_cell(id, index);
        }
    }

    void describe_cell(CellId id, std::size_t index) {
        const sheet::Cell& cell = sheet_.cell(id);
        TraceNode node;
        node.name = cell.name;
        node.value = value_of(id, index < most_enclosed);
        describe_line(node, cell);
        bool leaf = sheet_.entered(id);
        if (const auto i = model_.find_entry(cell.name)) {
            describe_entry(node, *i);
        } else if (id == model_.totals.produce || id == model_.totals.salt ||
                   id == model_.totals.liquid || id == model_.totals.everything) {
            node.sort = TraceNode::Sort::total;
            describe_named(node);
        } else if (const auto* constant = house_constant(id)) {
            node.sort = TraceNode::Sort::house;
            node.what = "constant of the kitchen";
            leaf = true;
            sources_.add({cell.name, spread_text(constant->value, constant->bounds, cell.type),
                          kitchen_.name.empty() ? std::string("the kitchen")
                                                : fmt::format("the kitchen \"{}\"", kitchen_.name),
                          "of the house"});
        } else {
            describe_let(node, id);
        }
        trace_->nodes[index] = std::move(node);
        if (!leaf)
            work_out(index, cell.formula, cell.type,
                     cell.weighed && !cell.expected ? Working::By::exact_amounts
                                                    : Working::By::what_is_in);
    }

    void describe_line(TraceNode& node, const sheet::Cell& cell) {
        language::Place place = cell.place;
        for (const BrineEntry& b : model_.brines)
            if (place.empty() && cell.name.starts_with(b.name + " ")) place = b.place;
        if (!place.empty()) node.line = line_at(place);
        const auto q = quantities_.find(cell.name);
        if (q != quantities_.end() && q->second->tail.label)
            node.label = q->second->tail.label->value;
    }

    [[nodiscard]] TraceLine line_at(language::Place place) const {
        const language::Source& source = model_.document->source;
        const std::uint32_t number = source.locate(place.begin).line;
        std::string_view text = source.line_at(place.begin);
        const auto first = text.find_first_not_of(" \t");
        if (first == std::string_view::npos) return {number, {}, {}};
        text = text.substr(first, text.find_last_not_of(" \t") - first + 1);
        const std::string& file = source.name_at(place.begin);
        return {number, std::string(text), file == source.name() ? std::string() : file};
    }

    void describe_entry(TraceNode& node, std::size_t index) {
        const Entry& e = model_.entries[index];
        switch (e.word) {
        case QuantityWord::given:
            node.what = "given";
            break;
        case QuantityWord::count:
            node.what = "counted";
            break;
        case QuantityWord::measure:
            node.what = "weighed later";
            break;
        default:
            node.what = e.fate == Fate::stock ? "weighed for the brine" : "weighed";
        }
        if (e.material != nullptr && e.material->name != e.name)
            node.what += fmt::format(" as {}", e.material->name);
        if (e.left_out) {
            node.how = "left out";
        } else if (e.solved) {
            node.how = entered_.answer
                           ? fmt::format("worked out backwards from {}", entered_.answer->asked)
                           : std::string("worked out backwards");
        } else if (e.entered) {
            node.how = fmt::format("set to {}", units::print_mass(e.entered->value));
        } else if (node.value.value != sheet_.value(e.cell)) {
            const double exact = sheet_.value(e.cell);
            node.how =
                e.word == QuantityWord::count
                    ? fmt::format("counted; the recipe comes to {}", units::print_number(exact, 4))
                    : fmt::format("{}; the recipe comes to {}", e.poured ? "poured" : "as weighed",
                                  units::print_mass(exact));
        }
        if (e.word == QuantityWord::count && !e.left_out)
            node.reading = fmt::format(
                "{} in whole pieces", whole_pieces(sheet_.value(e.cell), e.fate == Fate::optional));
        if (e.word == QuantityWord::count || e.left_out || index >= settler_.readings().of.size())
            return;
        const kitchen::Reading& r = settler_.readings().of[index];
        const kitchen::Scale& scale = kitchen_.scales[r.scale];
        const double shown = e.poured ? e.poured->value : e.entered ? e.entered->value : r.total_g;
        node.reading =
            fmt::format("{} on \"{}\"", units::print_reading(shown, scale.step_g), scale.name);
        if (e.poured) node.reading += ", as poured";
    }

    void describe_let(TraceNode& node, CellId id) {
        node.what = "working value";
        const auto q = quantities_.find(node.name);
        if (q != quantities_.end() && q->second->word == QuantityWord::total) node.what = "total";
        for (const BrineEntry& b : model_.brines) {
            if (b.made == id) node.what = "brine made beforehand";
            if (b.strength == id) node.what = "salt in salt and water, as weighed";
        }
        if (id == model_.jars) node.what = "jars that an `each jar` count goes into";
        if (node.name == "vessel room") node.what = "room in the vessel, if one is chosen";
        if (!sheet_.entered(id)) return;
        const bool of_jars = id == model_.jars || id == model_.vessel;
        node.how = of_jars && entered_.jars.vessels.empty()
                       ? fmt::format("{}, of the jars that `jarful jars` chooses", node.value.text)
                       : fmt::format("set to {}", node.value.text);
    }

    void describe_named(TraceNode& node) {
        struct Named {
            std::string_view name, what;
        };
        static constexpr Named all[] = {{"all_produce", "all produce in the jar"},
                                        {"all_salt", "all salt in the jar"},
                                        {"all_water", "all liquid that is added"},
                                        {"everything", "everything in the jar"},
                                        {"fill", "the room that the batch takes"},
                                        {"headspace", "what is left free on top"},
                                        {"topup", "salt for each 100 g of water to top up with"}};
        for (const Named& n : all)
            if (n.name == node.name) node.what = n.what;
        if (node.name == the_verdict && node.what.empty() && model_.ruling != nullptr)
            node.what = fmt::format("the salt {}", larder::describe(model_.ruling->basis));
        for (const language::Line& line : model_.document->lines) {
            const auto& s = line.statement;
            const bool is =
                (node.name == "fill" && std::holds_alternative<language::FillLine>(s)) ||
                (node.name == "headspace" && std::holds_alternative<language::HeadspaceLine>(s)) ||
                (node.name == "topup" && std::holds_alternative<language::TopUpLine>(s)) ||
                (node.name == the_verdict && std::holds_alternative<language::KindLine>(s));
            if (is) node.line = line_at(line.place);
        }
    }

    [[nodiscard]] const kitchen::Constant* house_constant(CellId id) const {
        const sheet::Cell& cell = sheet_.cell(id);
        if (!cell.place.empty()) return nullptr;
        for (const kitchen::Constant& c : kitchen_.constants)
            if (c.name == cell.name) return &c;
        return nullptr;
    }

    /// The operations of a formula, and what it uses.
    void work_out(std::size_t index, const Formula& formula, const Type& type, Working::By by) {
        if (formula.empty()) return;
        std::vector<TraceOperation> operations = working_.operations(formula, type, by);
        const std::vector<Shape> shapes = working_.shapes(formula, type);
        std::vector<std::size_t> uses;
        const auto use = [&](std::size_t node) {
            if (std::find(uses.begin(), uses.end(), node) == uses.end()) uses.push_back(node);
        };
        for (std::size_t i = 0; i < formula.steps.size(); ++i) {
            const sheet::Step& s = formula.steps[i];
            if (s.op == Op::cell) {
                use(of_cell(s.a));
                continue;
            }
            if (s.op != Op::constant && s.op != Op::unknown) continue;
            sources_.of_step(s, shapes[i]);
            if (s.op == Op::unknown && !shapes[i].literal) {
                use(of_unknown(s.a, shapes[i]));
            } else if (shapes[i].literal && !shapes[i].bare_unit && formula.steps.size() > 1) {
                use(literal(s, shapes[i]));
            }
        }
        trace_->nodes[index].operations = std::move(operations);
        trace_->nodes[index].uses = std::move(uses);
    }

    std::size_t literal(const sheet::Step& s, const Shape& shape) {
        TraceNode node;
        node.sort = TraceNode::Sort::literal;
        node.name = working_.written(s.place);
        node.what = "as written";
        const units::Interval bounds =
            s.op == Op::unknown ? sheet_.unknowns()[s.a].interval() : units::Interval(s.value);
        const double value = s.op == Op::unknown ? sheet_.unknowns()[s.a].typical : s.value;
        node.value = trace_value(value, bounds, shape.type, shape.percent);
        node.line = line_at(s.place);
        trace_->nodes.push_back(std::move(node));
        return trace_->nodes.size() - 1;
    }

    std::size_t of_unknown(UnknownId id, const Shape& shape) {
        const auto known = by_unknown_.find(id);
        if (known != by_unknown_.end()) return known->second;
        const sheet::Unknown& u = sheet_.unknowns()[id];
        TraceNode node;
        node.sort = TraceNode::Sort::figure;
        node.name = u.label;
        node.what = "not known exactly";
        node.value = trace_value(u.typical, u.interval(), shape.type, false);
        node.source = u.source;
        node.status = sources_.status_of(u);
        if (!u.place.empty()) node.line = line_at(u.place);
        if (!u.source.empty())
            sources_.add(
                {u.label, spread_text(u.typical, u.interval(), shape.type), u.source, node.status});
        trace_->nodes.push_back(std::move(node));
        by_unknown_.emplace(id, trace_->nodes.size() - 1);
        return trace_->nodes.size() - 1;
    }

    // ---- What makes it unsure ----

    void causes(const Formula& formula, const Type& type, bool percent,
                std::vector<TraceCause>& out) {
        for (const sheet::Share& share : sheet_.causes(formula)) {
            TraceCause cause;
            cause.label = share.label;
            cause.width = share.width;
            cause.width_text =
                percent ? units::print_number(share.width * 100, 2) + " percentage points"
                        : units::print_number(share.width, 2);
            if (!percent && !type.dimension.plain())
                cause.width_text = width_text(share.width, type);
            behind(cause);
            out.push_back(std::move(cause));
        }
    }

    static std::string width_text(double width, const Type& type) {
        // Two digits: a width is itself no more than an estimate.
        const double power = std::pow(10.0, std::floor(std::log10(width)) - 1);
        const double rounded = std::round(width / power) * power;
        if (type.dimension == units::dim::temperature)
            return working_text(rounded, {type.dimension, Type::Sort::number});
        return working_text(rounded, type);
    }

    /// Says what a cause is, and between what it lies.
    void behind(TraceCause& cause) {
        if (const auto id = sheet_.find(cause.label)) {
            const Type& type = sheet_.cell(*id).type;
            const units::Interval range = sheet_.interval(*id);
            cause.low = outward_text(range.low, type, false, false);
            cause.high = outward_text(range.high, type, false, true);
            const auto i = model_.find_entry(cause.label);
            if (i && model_.entries[*i].word != QuantityWord::count)
                cause.label = fmt::format("the weighing of {}", cause.label);
            return;
        }
        const TraceNode* found = nullptr;
        for (const TraceNode& n : trace_->nodes) {
            const bool stated = cause.label == "as stated" && n.sort == TraceNode::Sort::literal &&
                                !n.value.bounds.point();
            if (n.name != cause.label && !stated) continue;
            if (found != nullptr) return; // several of that name: no telling which
            found = &n;
        }
        if (found == nullptr) return;
        cause.low = found->value.low_text;
        cause.high = found->value.high_text;
        if (cause.label == "as stated") cause.label = fmt::format("{}, as stated", found->name);
    }

    /// What the formula of a weighed line allows by itself.
    void unweighed(CellId id) {
        const sheet::Cell& cell = sheet_.cell(id);
        if (!cell.weighed || cell.formula.empty() || sheet_.entered(id)) return;
        const auto& steps = cell.formula.steps;
        if (std::none_of(steps.begin(), steps.end(),
                         [](const sheet::Step& s) { return s.op == Op::unknown; }))
            return;
        std::vector<TraceCause> found;
        causes(cell.formula, cell.type, false, found);
        if (found.empty()) return;
        trace_->unweighed =
            trace_value(sheet_.value(id), sheet_.enclose(cell.formula), cell.type, false);
        trace_->unweighed_causes = std::move(found);
    }

    Model& model_;
    sheet::Sheet& sheet_;
    const kitchen::Kitchen& kitchen_;
    const Settler& settler_;
    const Entered& entered_;
    Working working_;
    TraceSources sources_;
    std::unordered_map<std::string_view, const language::Quantity*> quantities_;
    Trace* trace_ = nullptr;
    std::unordered_map<CellId, std::size_t> by_cell_;
    std::unordered_map<UnknownId, std::size_t> by_unknown_;
    std::vector<std::pair<CellId, std::size_t>> queue_;
};

void unknown_name(const Model& model, std::string_view name, language::Findings& findings) {
    const language::Place place{0, static_cast<std::uint32_t>(name.size())};
    if (name == the_verdict || name == "salt%") {
        findings.fault("not-judged", place, "The salt of this recipe is not judged.",
                       "A `kind` line says by which range it is; `all_salt` can be traced as it "
                       "is.");
        return;
    }
    const std::vector<std::string> names = names_of(model);
    const std::vector<std::string_view> known(names.begin(), names.end());
    const auto near = units::nearest(name, known);
    std::string list;
    for (std::string_view n : known)
        list += fmt::format("{}{}", list.empty() ? "" : ", ", n);
    if (list.size() > 400) list = list.substr(0, list.rfind(',', 400)) + " …";
    findings.fault("unknown-name", place,
                   fmt::format("The recipe has nothing called \"{}\".", name),
                   near ? fmt::format("Did you mean \"{}\"?", *near)
                        : fmt::format("What can be traced: {}.", list));
}

void range_sources(const SaltJudgement& salt, Trace& out) {
    const auto add = [&](const char* what, const std::optional<RangeEnd>& end) {
        if (end)
            out.sources.push_back(
                {what, units::print_percent(end->percent / 100) + " %", end->source, end->status});
    };
    add("lower end of the range", salt.low);
    add("upper end of the range", salt.high);
}

/// A recipe with what a request enters and the readings of its scales.
struct Settled {
    std::unique_ptr<Model> model;
    Entered entered;
    std::optional<Settler> settler;
};

std::optional<Settled> settled_by(const language::Document& recipe, const kitchen::Kitchen& kitchen,
                                  const Request& request, language::Findings& findings,
                                  RequestFindings& request_findings) {
    Settled out;
    out.model = compile(recipe, kitchen, findings);
    if (!out.model) return std::nullopt;
    Model& model = *out.model;
    out.entered = enter_request(model, kitchen, request, request_findings);
    if (request_findings.has_faults()) return std::nullopt;
    if (!check_values(model, findings)) return std::nullopt;
    if (!doubt_measured(model, request, request_findings)) return std::nullopt;
    static_cast<void>(vessels_of(model, out.entered.jars.vessels, out.entered.answer.has_value(),
                                 request.vessels, findings));
    out.settler.emplace(model, kitchen);
    out.settler->settle();
    return out;
}

} // namespace

std::optional<Trace> trace(const language::Document& recipe, const kitchen::Kitchen& kitchen,
                           const Request& request, std::string_view name,
                           language::Findings& findings, RequestFindings& request_findings,
                           language::Findings& name_findings) {
    const auto settled = settled_by(recipe, kitchen, request, findings, request_findings);
    if (!settled) return std::nullopt;
    const std::unique_ptr<Model>& model = settled->model;

    Trace out;
    out.title = model->title;
    out.name = std::string(name);
    Tracer tracer(*model, kitchen, *settled->settler, settled->entered);
    if (const auto cell = model->sheet->find(name)) {
        tracer.run(*cell, out);
        return out;
    }
    Type type;
    const auto formula = formula_called(*model, name, type);
    if (!formula) {
        unknown_name(*model, name, name_findings);
        return std::nullopt;
    }
    const bool salt = name == the_verdict || name == "salt%";
    const bool percent = salt || (name != "fill" && type.dimension.plain());
    tracer.run(salt ? std::string(the_verdict) : std::string(name), *formula, type, percent, out);
    if (salt) {
        out.name = the_verdict;
        out.salt = judge(*model).salt;
        if (out.salt) range_sources(*out.salt, out);
    }
    return out;
}

std::vector<std::optional<TraceValue>> trace_values(const language::Document& recipe,
                                                    const kitchen::Kitchen& kitchen,
                                                    const std::vector<std::string>& names) {
    std::vector<std::optional<TraceValue>> out(names.size());
    language::Findings findings;
    RequestFindings request_findings;
    const auto settled = settled_by(recipe, kitchen, {}, findings, request_findings);
    if (!settled) return out;
    Tracer tracer(*settled->model, kitchen, *settled->settler, settled->entered);
    for (std::size_t i = 0; i < names.size(); ++i)
        if (const auto cell = settled->model->sheet->find(names[i]))
            out[i] = tracer.value_of(*cell, true);
    return out;
}

std::vector<std::string> traceable_names(const language::Document& recipe,
                                         const kitchen::Kitchen& kitchen) {
    language::Findings findings;
    const std::unique_ptr<Model> model = compile(recipe, kitchen, findings);
    return model ? names_of(*model) : std::vector<std::string>{};
}

} // namespace jarful::plan
