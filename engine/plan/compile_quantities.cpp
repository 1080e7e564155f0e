#include "engine/plan/compiler.hpp"
#include "engine/sheet/lowering.hpp"
#include "engine/units/nearest.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace jarful::plan {

void Compiler::declare() {
    // Brines first: other lines pour from them by name.
    each<language::BrineLine>(
        [&](const language::Line&, const language::BrineLine& b) { declare_brine_name(b); });
    int both_ways = 0;
    std::size_t next_brine = 0;
    for (const language::Line& line : doc_.lines) {
        if (const auto* q = std::get_if<Quantity>(&line.statement)) {
            declare_quantity(*q);
            const bool cap = q->word == QuantityWord::cap;
            if ((q->tail.optional || cap) && ++both_ways == most_judged_both_ways + 1)
                findings_.fault(
                    "too-many-optional", q->tail.optional ? q->tail.fate : q->name.place,
                    fmt::format("A recipe has at most {} lines that are optional or a `cap`: each "
                                "is judged both ways.",
                                most_judged_both_ways),
                    "Make two recipes of it.");
        } else if (const auto* b = std::get_if<language::BrineLine>(&line.statement)) {
            declare_brine(*b, next_brine++);
        }
    }
    define_measured_shares();
    for (const kitchen::Constant& c : kitchen_.constants) {
        if (builder_.find(c.name)) continue; // a recipe's own name comes first
        const CellId id = builder_.declare(c.name, {}, false);
        Formula f;
        if (c.bounds.point()) {
            f.constant(c.value);
        } else {
            f.unknown(builder_.add_unknown({fmt::format("{} of the kitchen", c.name),
                                            c.bounds.low,
                                            c.value,
                                            c.bounds.high,
                                            {},
                                            {}}));
        }
        builder_.define(id, std::move(f), c.type);
    }
}

void Compiler::declare_quantity(const Quantity& q) {
    const bool weighed = q.word != QuantityWord::let && q.word != QuantityWord::total;
    const CellId id = builder_.declare(q.name.value, q.name.place, weighed);
    if (q.word == QuantityWord::measure) {
        builder_.expect(id);
        define_measure(id, q);
    } else {
        builder_.define(id, doc_.expressions, q.value);
    }
    if (id >= quantity_of_cell_.size()) quantity_of_cell_.resize(id + 1, nullptr);
    quantity_of_cell_[id] = &q;
    if (!weighed) return;

    Entry e;
    e.cell = id;
    e.word = q.word;
    e.name = q.name.value;
    e.place = q.name.place;
    e.each_jar = q.each_jar;
    if (q.tail.label) e.label = q.tail.label->value;
    if (q.tail.optional) e.fate = Fate::optional;
    if (q.tail.discarded) e.fate = Fate::discarded;
    if (q.word == QuantityWord::cap) e.fate = Fate::on_top;
    if (q.word == QuantityWord::measure) e.fate = Fate::later;
    settle_material(e, q);
    if (q.tail.keeps) keeps(e, *q.tail.keeps);
    model_->entries.push_back(std::move(e));
}

void Compiler::define_measure(CellId id, const Quantity& q) {
    if (!q.about) return;
    const units::Amount& a = q.about->amount;
    const units::Dimension wanted = q.about_of ? units::dim::plain : units::dim::mass;
    if (a.dimension != wanted || a.temperature_point || a.low < 0) {
        findings_.fault("wrong-dimension", q.about->place,
                        q.about_of ? fmt::format("A share of \"{}\" is a percentage; this is {}.",
                                                 q.about_of->value, units::describe(a.dimension))
                                   : fmt::format("`measure` is about a weight; this is {}.",
                                                 units::describe(a.dimension)),
                        "Write it as in `about 1.6..1.9 kg`, or `about 80..95 % of cabbage`.");
    }
    Formula f;
    const auto amount =
        a.low == a.high
            ? f.constant(a.value, q.about->place)
            : f.unknown(builder_.add_unknown({fmt::format("{} until it is weighed", q.name.value),
                                              a.low,
                                              a.value,
                                              a.high,
                                              q.about->place,
                                              {}}),
                        q.about->place);
    if (q.about_of) {
        // Declared by now or on a later line: looked up when all names are known.
        measured_shares_.push_back({id, amount, std::move(f), &q});
        return;
    }
    builder_.define(id, std::move(f), Type{units::dim::mass, Type::Sort::number});
}

void Compiler::define_measured_shares() {
    for (MeasuredShare& m : measured_shares_) {
        const std::string& name = m.line->about_of->value;
        const std::optional<CellId> whole = builder_.find(name);
        if (!whole || *whole == m.cell) {
            std::vector<std::string_view> known;
            for (const Entry& e : model_->entries)
                known.push_back(e.name);
            const auto near = units::nearest(name, known);
            language::Diagnostic& unknown =
                findings_.fault("unknown-name", m.line->about_of->place,
                                fmt::format("There is nothing called \"{}\" here.", name),
                                near ? fmt::format("Did you mean \"{}\"?", *near)
                                     : "Name the line that is weighed again.");
            if (near) unknown.fixes.push_back({m.line->about_of->place, std::string(*near)});
            m.formula = Formula::of_constant(0);
        } else {
            const auto cell = m.formula.cell(*whole, m.line->about_of->place);
            m.formula.apply(Op::multiply, m.amount, cell, m.line->about->place);
        }
        builder_.define(m.cell, std::move(m.formula), Type{units::dim::mass, Type::Sort::number});
    }
}

void Compiler::keeps(Entry& e, const language::Literal& literal) {
    const units::Amount& a = literal.amount;
    if (!a.dimension.plain() || a.low < 0 || a.high > 1) {
        findings_.fault("absurd-amount", literal.place,
                        "`keeps` is how much of the salt stays: from 0 to 100 %.",
                        "Write it as in `keeps 20..30 %`.");
        return;
    }
    e.keeps = builder_.add_unknown(
        {fmt::format("how much of {} stays", e.name), a.low, a.value, a.high, literal.place, {}});
}

void Compiler::settle_material(Entry& e, const Quantity& q) {
    const language::Tail& tail = q.tail;
    if (tail.material) {
        if (const auto brine = find_brine(tail.material->value)) {
            e.poured_from = brine;
        } else {
            e.material = named_material(*tail.material, e.material_text);
            if (e.material == nullptr) return;
        }
    } else if (!q.replaces) {
        std::string phrase = q.name.value;
        std::replace(phrase.begin(), phrase.end(), '_', ' ');
        e.material = model_->larder->named(phrase);
    }
    if (tail.role) e.role = larder::find_role(tail.role->value);
    if (!e.role && e.poured_from) e.role = Role::water;
    if (!e.role && e.material != nullptr) {
        if (e.material->vague && e.material->role != Role::salt)
            findings_
                .fault("vague-material", q.name.place,
                       fmt::format("\"{}\" can be several things.", q.name.value),
                       e.material->vague_hint.empty()
                           ? "Say which with `as`."
                           : fmt::format("To say which, {}.", e.material->vague_hint))
                .fixes = said_in(q, e.material->vague_hint);
        e.role = e.material->role;
    }
    if (!e.role && !q.replaces) {
        std::string advice = "Write `as` and a material, or `counts as` and one of vegetable, "
                             "salt, water, aromatic, seasoning, acid, other.";
        const auto near = model_->larder->nearest(q.name.value, 1);
        if (!near.empty())
            advice = fmt::format("If it is {}, write `as {}`. {}", near[0], near[0], advice);
        language::Diagnostic& unknown = findings_.fault(
            "no-role", q.name.place,
            fmt::format("What \"{}\" is in the jar cannot be told.", q.name.value), advice);
        if (!near.empty()) unknown.fixes = made_of(q, near[0]);
    }
    // A salt of the cook's own is one by its name alone, until she says how much of it is salt.
    const bool own_salt = e.role == Role::salt && e.material != nullptr && !e.material->salt &&
                          e.material->warning < larder::SaltWarning::reduced_sodium;
    if (own_salt)
        findings_.fault(
            "no-salt-content", tail.material ? tail.material->place : q.name.place,
            fmt::format("How much of {} is salt is not known.", e.material->name),
            fmt::format("Say it in a line: material \"{}\" is salt salt 95..100 %, with the figure "
                        "of its label.",
                        e.material->name));
    if (e.role == Role::seasoning && !e.poured_from &&
        (e.material == nullptr || !e.material->salt)) {
        findings_.fault(
            "no-salt-content", q.name.place,
            fmt::format("How salty is {}? A seasoning counts with its salt.", q.name.value),
            fmt::format("Add a line: material \"{}\" is seasoning salt 20 % water "
                        "70 %, with the figures from its label.",
                        q.name.value));
    }
}

const larder::Material* Compiler::named_material(const language::Word& word, std::string& text) {
    text = word.value;
    if (const larder::Material* material = model_->larder->named(word.value)) return material;
    // Every word counts: what is like sea salt but for one word may be no salt at all.
    std::string list;
    std::vector<std::string> names;
    for (const std::string_view near : model_->larder->offered(word.value)) {
        list += fmt::format("{}\"{}\"", list.empty() ? "" : ", ", near);
        names.emplace_back(near);
    }
    findings_
        .fault("unknown-material", word.place,
               fmt::format("The larder has nothing called \"{}\".", word.value),
               list.empty()
                   ? "Describe it with a `material` line."
                   : fmt::format("Nearest: {}. What else there is to say of it goes into "
                                 "quotes behind it. Or describe it with a `material` line.",
                                 list))
        .fixes = language::fixes_with(word.place, std::move(names));
    return nullptr;
}

std::vector<language::Fix> Compiler::made_of(const Quantity& q, std::string_view material) const {
    if (q.tail.material) return {{q.tail.material->place, std::string(material)}};
    if (q.each_jar) return {}; // where these words stand is not kept
    std::uint32_t end = q.name.place.end;
    if (q.value != language::no_node) end = doc_.expressions[q.value].place.end;
    if (q.about) end = std::max(end, q.about->place.end);
    if (q.about_of) end = std::max(end, q.about_of->place.end);
    if (q.replaces) end = std::max(end, q.replaces->place.end);
    end = std::max(end, q.tail.fate.end);
    if (q.tail.keeps) end = std::max(end, q.tail.keeps->place.end);
    return {{{end, end}, fmt::format(" as {}", material)}};
}

std::vector<language::Fix> Compiler::said_in(const Quantity& q, std::string_view hint) const {
    std::vector<language::Fix> out;
    for (std::size_t at = hint.find('"'); at != std::string_view::npos;) {
        const std::size_t close = hint.find('"', at + 1);
        if (close == std::string_view::npos) break;
        for (language::Fix& fix : made_of(q, hint.substr(at + 1, close - at - 1)))
            out.push_back(std::move(fix));
        at = hint.find('"', close + 1);
    }
    return out;
}

std::optional<std::size_t> Compiler::find_brine(std::string_view name) const {
    for (std::size_t i = 0; i < model_->brines.size(); ++i)
        if (model_->brines[i].name == name) return i;
    return std::nullopt;
}

void Compiler::settle_measures() {
    for (const language::Line& line : doc_.lines) {
        const auto* q = std::get_if<Quantity>(&line.statement);
        if (q == nullptr || !q->replaces) continue;
        const auto self = model_->find_entry(q->name.value);
        const auto other = model_->find_entry(q->replaces->value);
        if (!other || other == self) {
            findings_.fault("unknown-name", q->replaces->place,
                            fmt::format("There is no weighed line called \"{}\" to replace.",
                                        q->replaces->value),
                            "`replaces` names a `given`, `share`, `weigh` or `count` line.");
            continue;
        }
        if (!self) continue;
        Entry& mine = model_->entries[*self];
        Entry& old = model_->entries[*other];
        if (old.replaced) {
            findings_.fault("duplicate-line", q->replaces->place,
                            fmt::format("\"{}\" is replaced twice.", old.name),
                            "Keep one of the two measures.");
            continue;
        }
        old.replaced = true;
        if (mine.material == nullptr && !mine.poured_from) {
            mine.material = old.material;
            mine.material_text = old.material_text;
            mine.poured_from = old.poured_from;
        }
        if (!mine.role) mine.role = old.role;
    }
    for (Entry& e : model_->entries) {
        const bool salty = e.role == Role::salt || e.role == Role::seasoning || e.poured_from;
        e.keeps_unknown = e.fate == Fate::discarded && salty && !e.keeps && !e.replaced;
        if (e.keeps_unknown)
            e.keeps = builder_.add_unknown(
                {fmt::format("how much of {} stays", e.name), 0, 0.5, 1, {}, {}});
    }
}

void Compiler::missing_percents() {
    each<Quantity>([&](const auto&, const Quantity& q) {
        const auto entry = model_->find_entry(q.name.value);
        if (!entry || model_->entries[*entry].role != Role::salt) return;
        std::vector<language::NodeId> open{q.value};
        while (!open.empty()) {
            const language::NodeId id = open.back();
            open.pop_back();
            if (id == language::no_node) continue;
            const language::Node& n = doc_.expressions[id];
            if (n.kind == language::NodeKind::of) missing_percent(n);
            if (n.kind == language::NodeKind::call) {
                for (std::uint32_t i = n.a; i < n.a + n.b; ++i)
                    open.push_back(doc_.expressions.arguments[i]);
            } else {
                open.insert(open.end(), {n.a, n.b, n.c});
            }
        }
    });
}

void Compiler::missing_percent(const language::Node& of) {
    const language::Node& share = doc_.expressions[of.a];
    if (share.kind != language::NodeKind::amount) return;
    const units::Amount& amount = doc_.expressions.amounts[share.index];
    if (!amount.plain_number || !(amount.value > 1)) return;
    // Twice another salt can be meant.
    const auto names = sheet::name_nodes(doc_.expressions, of.b);
    const bool of_salt =
        !names.empty() && std::all_of(names.begin(), names.end(), [&](language::NodeId node) {
            const auto entry =
                model_->find_entry(doc_.expressions.names[doc_.expressions[node].index]);
            return entry && model_->entries[*entry].role == Role::salt;
        });
    if (of_salt) return;
    const std::string_view written = doc_.source.at(share.place);
    findings_
        .fault("missing-percent", share.place,
               fmt::format("`{} of` is {} %, and no ferment has so much salt.", written,
                           units::print_percent(amount.value)),
               fmt::format("Write the percent sign if a percentage is meant: `{} % of`.", written))
        .fixes = {{{share.place.end, share.place.end}, " %"}};
}

void Compiler::declare_brine_name(const language::BrineLine& b) {
    BrineEntry brine;
    brine.name = b.name.value;
    brine.place = b.name.place;
    brine.of_water = b.of_water;
    if (b.label) brine.label = b.label->value;
    model_->brines.push_back(std::move(brine));
}

void Compiler::declare_brine(const language::BrineLine& b, std::size_t index) {
    BrineEntry& brine = model_->brines[index];
    brine.made = builder_.declare(b.name.value, b.name.place, false);
    builder_.define(brine.made, doc_.expressions, b.make);
    if (brine.made >= quantity_of_cell_.size()) quantity_of_cell_.resize(brine.made + 1, nullptr);
    brine_of_cell_.emplace_back(brine.made, index);

    brine.stated = stated_strength(b);
    brine.salt_fraction = brine.of_water ? brine.stated / (1 + brine.stated) : brine.stated;
    const std::optional<larder::Figure> density = larder::brine_density(brine.salt_fraction, 20);
    if (brine.salt_fraction > larder::saturation || !density) {
        findings_.fault("over-saturated", doc_.expressions[b.strength].place,
                        fmt::format("No brine is that strong: {} % salt in the brine is more "
                                    "than dissolves ({} %).",
                                    units::print_percent(brine.salt_fraction),
                                    units::print_percent(larder::saturation)),
                        "Use less salt, or lay it on dry.");
        brine.density = builder_.add_unknown({"brine", 1, 1, 1, {}, {}});
    } else {
        brine.density = builder_.add_unknown({fmt::format("how dense {} is", brine.name),
                                              density->low,
                                              density->typical,
                                              density->high,
                                              {},
                                              std::string(density->source)});
    }
    brine.salt = add_brine_part(brine, b, true);
    brine.water = add_brine_part(brine, b, false);
    // As weighed: salt over salt and water, whatever the two scales did.
    brine.strength = builder_.declare(brine.name + " strength", {}, false);
    Formula strength;
    const auto s = strength.cell(model_->entries[brine.salt].cell);
    const auto w = strength.cell(model_->entries[brine.water].cell);
    const auto sum = strength.apply(Op::add, s, w);
    strength.apply(Op::divide, s, sum);
    builder_.define(brine.strength, std::move(strength), Type{});
}

double Compiler::stated_strength(const language::BrineLine& b) {
    const language::Node* n = &doc_.expressions[b.strength];
    if (n->kind != language::NodeKind::amount ||
        !doc_.expressions.amounts[n->index].dimension.plain() ||
        doc_.expressions.amounts[n->index].value < 0) {
        findings_.fault("wrong-dimension", n->place,
                        "The strength of a brine is a plain percentage here.",
                        "Write it as in `5 % of water`.");
        return 0;
    }
    return doc_.expressions.amounts[n->index].value;
}

std::size_t Compiler::add_brine_part(BrineEntry& brine, const language::BrineLine& b, bool salt) {
    Entry e;
    e.name = fmt::format("{} {}", brine.name, salt ? "salt" : "water");
    e.word = QuantityWord::weigh;
    e.place = brine.place;
    e.fate = Fate::stock;
    e.cell = builder_.declare(e.name, {}, true);
    if (salt && b.material) {
        e.material = named_material(*b.material, e.material_text);
    } else {
        e.material = model_->larder->named(salt ? "salt" : "water");
    }
    Formula f;
    const auto made = f.cell(brine.made);
    const auto share = f.constant(salt ? brine.salt_fraction : 1 - brine.salt_fraction);
    f.apply(Op::multiply, made, share);
    builder_.define(e.cell, std::move(f), Type{units::dim::mass, Type::Sort::number});
    model_->entries.push_back(std::move(e));
    return model_->entries.size() - 1;
}

} // namespace jarful::plan
