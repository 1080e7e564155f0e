#include "engine/plan/contents.hpp"
#include "engine/plan/model.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace jarful::plan {

using language::Findings;
using language::Place;
using language::Quantity;
using language::QuantityWord;
using larder::Role;
using sheet::CellId;
using sheet::Formula;
using sheet::Op;
using sheet::Type;
using sheet::Unknown;
using sheet::UnknownId;

std::optional<std::size_t> Model::find_entry(std::string_view name) const {
    for (std::size_t i = 0; i < entries.size(); ++i)
        if (entries[i].name == name) return i;
    return std::nullopt;
}

namespace {

constexpr int most_optional_lines = 8; // each doubles the work of judging

class Compiler {
  public:
    Compiler(const language::Document& document, const kitchen::Kitchen& kitchen,
             Findings& findings)
        : doc_(document), kitchen_(kitchen), findings_(findings),
          builder_(findings, kitchen.spoons), model_(std::make_unique<Model>()) {
        model_->document = &document;
        model_->kitchen = &kitchen;
        model_->larder = std::make_unique<larder::Larder>();
    }

    std::unique_ptr<Model> run() {
        for (const larder::OwnMaterial& own : kitchen_.materials)
            model_->larder->add(own);
        each<language::MaterialLine>([&](const auto&, const language::MaterialLine& m) {
            model_->larder->add(kitchen::read_material(m, findings_));
        });
        headers();
        declare();
        settle_measures();
        shares();
        define_totals();
        builder_.hooks.finish = [this](CellId id, Formula& f, Type& t, Place p) {
            finish(id, f, t, p);
        };
        builder_.hooks.true_density = [this](CellId id) { return true_density(id); };
        builder_.hooks.assumed_measure = [this](units::UnitId id, Place) { assumed(id); };
        builder_.resolve();
        vessel();
        holds();
        texts();
        if (findings_.has_faults()) return nullptr;
        model_->sheet = std::make_unique<sheet::Sheet>(builder_.build());
        return std::move(model_);
    }

  private:
    template <class Line, class Do> void each(Do&& act) {
        for (const language::Line& line : doc_.lines)
            if (const Line* s = std::get_if<Line>(&line.statement)) act(line, *s);
    }

    /// Reports a line that may stand only once; true for the first.
    bool once(const language::Line& line, const language::Line*& first, std::string_view what) {
        if (first == nullptr) {
            first = &line;
            return true;
        }
        language::Diagnostic d;
        d.code = "duplicate-line";
        d.place = line.keyword;
        d.message = fmt::format("A recipe has one {} line; this is the second.", what);
        d.advice = "Keep the one that is meant.";
        d.related.push_back({first->keyword, "the first one"});
        findings_.add(std::move(d));
        return false;
    }

    // ---- What it is ----

    void headers() {
        each<language::RecipeHeader>([&](const auto&, const language::RecipeHeader& h) {
            model_->title = h.title.value;
            if (h.version) model_->version = h.version->value;
        });
        const language::Line* first = nullptr;
        each<language::KindLine>([&](const language::Line& line, const language::KindLine& k) {
            if (once(line, first, "`kind`")) kind(k);
        });
    }

    void kind(const language::KindLine& line) {
        const larder::Kind* found = larder::find_kind(line.kind.value);
        if (found == nullptr) {
            const auto near = larder::nearest_kind(line.kind.value);
            findings_.fault("unknown-kind", line.kind.place,
                            fmt::format("I know no kind of ferment called \"{}\".",
                                        line.kind.value),
                            near ? fmt::format("Did you mean \"{}\"? `jarful ranges` lists them.",
                                               *near)
                                 : "`jarful ranges` lists the kinds.");
            return;
        }
        model_->kind = found;
        std::string methods;
        for (const larder::Ruling& r : found->rulings)
            if (!r.method.empty())
                methods += fmt::format("{}`{}`", methods.empty() ? "" : ", ", r.method);
        if (line.method) {
            model_->method = line.method->value;
            model_->ruling = larder::find_ruling(*found, line.method->value);
            if (model_->ruling == nullptr)
                findings_.fault("unknown-method", line.method->place,
                                fmt::format("{} is not made by a method called \"{}\".",
                                            found->name, line.method->value),
                                methods.empty()
                                    ? "Leave the method out."
                                    : fmt::format("The methods are {}.", methods));
            return;
        }
        if (found->method_needed) {
            findings_.fault("method-needed", line.kind.place,
                            fmt::format("{} is made in more than one way, and the salt differs.",
                                        found->name),
                            fmt::format("Write the method after the kind: {}.", methods));
            return;
        }
        model_->ruling = larder::find_ruling(*found, "");
        if (model_->ruling != nullptr) model_->method = std::string(model_->ruling->method);
    }

    // ---- Quantities ----

    void declare() {
        // Brines first: other lines pour from them by name.
        each<language::BrineLine>(
            [&](const language::Line&, const language::BrineLine& b) { declare_brine_name(b); });
        int optional_lines = 0;
        std::size_t next_brine = 0;
        for (const language::Line& line : doc_.lines) {
            if (const auto* q = std::get_if<Quantity>(&line.statement)) {
                declare_quantity(*q);
                if (q->tail.optional && ++optional_lines == most_optional_lines + 1)
                    findings_.fault("too-many-optional", q->tail.fate,
                                    fmt::format("A recipe has at most {} optional lines.",
                                                most_optional_lines),
                                    "Make two recipes of it.");
            } else if (const auto* b = std::get_if<language::BrineLine>(&line.statement)) {
                declare_brine(*b, next_brine++);
            }
        }
        for (const kitchen::Constant& c : kitchen_.constants) {
            if (builder_.find(c.name)) continue; // a recipe's own name comes first
            const CellId id = builder_.declare(c.name, {}, false);
            Formula f;
            if (c.bounds.point()) {
                f.constant(c.value);
            } else {
                f.unknown(builder_.add_unknown({fmt::format("{} of the kitchen", c.name),
                                                c.bounds.low, c.value, c.bounds.high, {}, {}}));
            }
            builder_.define(id, std::move(f), c.type);
        }
    }

    void declare_quantity(const Quantity& q) {
        const bool weighed = q.word != QuantityWord::let && q.word != QuantityWord::total;
        const CellId id = builder_.declare(q.name.value, q.name.place, weighed);
        if (q.word == QuantityWord::measure) {
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

    void define_measure(CellId id, const Quantity& q) {
        if (!q.about) return;
        const units::Amount& a = q.about->amount;
        if (a.dimension != units::dim::mass || a.low < 0) {
            findings_.fault("wrong-dimension", q.about->place,
                            fmt::format("`measure` is about a weight; this is {}.",
                                        units::describe(a.dimension)),
                            "Write it as in `about 1.6..1.9 kg`.");
        }
        Formula f;
        if (a.low == a.high)
            f.constant(a.value, q.about->place);
        else
            f.unknown(builder_.add_unknown({fmt::format("{} until it is weighed", q.name.value),
                                            a.low, a.value, a.high, q.about->place, {}}),
                      q.about->place);
        builder_.define(id, std::move(f), Type{units::dim::mass, Type::Sort::number});
    }

    void keeps(Entry& e, const language::Literal& literal) {
        const units::Amount& a = literal.amount;
        if (!a.dimension.plain() || a.low < 0 || a.high > 1) {
            findings_.fault("absurd-amount", literal.place,
                            "`keeps` is how much of the salt stays: from 0 to 100 %.",
                            "Write it as in `keeps 20..30 %`.");
            return;
        }
        e.keeps = builder_.add_unknown({fmt::format("how much of {} stays", e.name), a.low,
                                        a.value, a.high, literal.place, {}});
    }

    /// What a line is made of and what it is in the jar.
    void settle_material(Entry& e, const Quantity& q) {
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
            const std::optional<larder::Match> match = model_->larder->find(phrase);
            if (match && match->exact) e.material = match->material;
        }
        if (tail.role) e.role = larder::find_role(tail.role->value);
        if (!e.role && e.poured_from) e.role = Role::water;
        if (!e.role && e.material != nullptr) {
            if (e.material->vague && e.material->role != Role::salt)
                findings_.fault("vague-material", q.name.place,
                                fmt::format("\"{}\" can be several things.", q.name.value),
                                e.material->vague_hint.empty()
                                    ? "Say which with `as`."
                                    : fmt::format("Say which: {}", e.material->vague_hint));
            e.role = e.material->role;
        }
        if (!e.role && !q.replaces) {
            std::string advice = "Write `as` and a material, or `counts as` and one of vegetable, "
                                 "salt, water, aromatic, seasoning, acid, other.";
            const auto near = model_->larder->nearest(q.name.value, 1);
            if (!near.empty())
                advice = fmt::format("If it is {}, write `as {}`. {}", near[0], near[0], advice);
            findings_.fault("no-role", q.name.place,
                            fmt::format("I cannot tell what \"{}\" is in the jar.", q.name.value),
                            advice);
        }
        if (e.role == Role::seasoning && !e.poured_from &&
            (e.material == nullptr || !e.material->salt)) {
            findings_.fault("no-salt-content", q.name.place,
                            fmt::format("How salty is {}? A seasoning counts with its salt.",
                                        q.name.value),
                            fmt::format("Add a line: material \"{}\" is seasoning salt 20 % water "
                                        "70 %, with the figures from its label.",
                                        q.name.value));
        }
    }

    const larder::Material* named_material(const language::Word& word, std::string& text) {
        text = word.value;
        const std::optional<larder::Match> match = model_->larder->find(word.value);
        if (!match) {
            std::string list;
            for (std::string_view near : model_->larder->nearest(word.value))
                list += fmt::format("{}\"{}\"", list.empty() ? "" : ", ", near);
            findings_.fault("unknown-material", word.place,
                            fmt::format("The larder has nothing called \"{}\".", word.value),
                            list.empty() ? "Describe it with a `material` line."
                                         : fmt::format("Nearest: {}. Or describe it with a "
                                                       "`material` line.",
                                                       list));
            return nullptr;
        }
        if (!match->exact)
            findings_.remark("material-in-part", word.place,
                             fmt::format("\"{}\" is read as \"{}\".", word.value,
                                         match->material->name),
                             "If that is not what is meant, describe it with a `material` line.");
        return match->material;
    }

    [[nodiscard]] std::optional<std::size_t> find_brine(std::string_view name) const {
        for (std::size_t i = 0; i < model_->brines.size(); ++i)
            if (model_->brines[i].name == name) return i;
        return std::nullopt;
    }

    /// A `measure … replaces` takes material and role from what it replaces.
    void settle_measures() {
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

    // ---- Brines ----

    void declare_brine_name(const language::BrineLine& b) {
        BrineEntry brine;
        brine.name = b.name.value;
        brine.place = b.name.place;
        brine.of_water = b.of_water;
        if (b.label) brine.label = b.label->value;
        model_->brines.push_back(std::move(brine));
    }

    void declare_brine(const language::BrineLine& b, std::size_t index) {
        BrineEntry& brine = model_->brines[index];
        brine.made = builder_.declare(b.name.value, b.name.place, false);
        builder_.define(brine.made, doc_.expressions, b.make);
        if (brine.made >= quantity_of_cell_.size())
            quantity_of_cell_.resize(brine.made + 1, nullptr);
        brine_of_cell_.emplace_back(brine.made, index);

        brine.stated = stated_strength(b);
        brine.salt_fraction = brine.of_water ? brine.stated / (1 + brine.stated) : brine.stated;
        const std::optional<larder::Figure> density =
            larder::brine_density(brine.salt_fraction, 20);
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
                                                  density->low, density->typical, density->high,
                                                  {}, std::string(density->source)});
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

    double stated_strength(const language::BrineLine& b) {
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

    std::size_t add_brine_part(BrineEntry& brine, const language::BrineLine& b, bool salt) {
        Entry e;
        e.name = fmt::format("{} {}", brine.name, salt ? "salt" : "water");
        e.word = QuantityWord::weigh;
        e.place = brine.place;
        e.fate = Fate::stock;
        e.cell = builder_.declare(e.name, {}, true);
        if (salt && b.material) {
            e.material = named_material(*b.material, e.material_text);
        } else {
            const auto match = model_->larder->find(salt ? "salt" : "water");
            if (match) e.material = match->material;
        }
        Formula f;
        const auto made = f.cell(brine.made);
        const auto share = f.constant(salt ? brine.salt_fraction : 1 - brine.salt_fraction);
        f.apply(Op::multiply, made, share);
        builder_.define(e.cell, std::move(f), Type{units::dim::mass, Type::Sort::number});
        model_->entries.push_back(std::move(e));
        return model_->entries.size() - 1;
    }

    // ---- Totals ----

    void define_totals() {
        Contents contents(*model_, builder_);
        model_->totals = contents.define();
    }

    void shares() {
        for (const language::Line& line : doc_.lines) {
            const auto* q = std::get_if<Quantity>(&line.statement);
            if (q == nullptr || q->word != QuantityWord::share) continue;
            if (q->value == language::no_node) continue;
            if (!share_total(doc_, q->value))
                findings_.fault("share-of-nothing", doc_.expressions[q->value].place,
                                "A share is a part of a `total` line.",
                                "Write it as in `share carrot = 30 % of vegetables`, with a "
                                "`total vegetables = …` line.");
        }
    }

    // ---- Dimensions of lines ----

    void finish(CellId id, Formula& formula, Type& type, Place place) {
        for (const auto& [cell, index] : brine_of_cell_)
            if (cell == id) return finish_brine(model_->brines[index], formula, type, place);
        const Quantity* q = id < quantity_of_cell_.size() ? quantity_of_cell_[id] : nullptr;
        if (q == nullptr) return;
        switch (q->word) {
        case QuantityWord::let: return;
        case QuantityWord::measure: return;
        case QuantityWord::given:
        case QuantityWord::total: return expect(type, units::dim::mass, place, *q);
        case QuantityWord::count: return finish_count(type, place, *q);
        case QuantityWord::weigh:
        case QuantityWord::share:
        case QuantityWord::cap: return finish_mass(formula, type, place, *q);
        }
    }

    void expect(const Type& type, units::Dimension wanted, Place place, const Quantity& q) {
        if (type == Type{wanted, Type::Sort::number}) return;
        findings_.fault("wrong-dimension", place,
                        fmt::format("\"{}\" must be {}; this is {}.", q.name.value,
                                    units::describe(wanted), sheet::describe(type)),
                        advice_for(type, wanted));
    }

    static std::string advice_for(const Type& type, units::Dimension wanted) {
        if (type.dimension.plain() && wanted == units::dim::mass)
            return "Is a unit missing, or `of` and a name after a percentage?";
        if (type.dimension == units::dim::volume && wanted == units::dim::mass)
            return "Weigh it instead, or multiply the volume by a density.";
        return "Check the units of this line.";
    }

    void finish_count(const Type& type, Place place, const Quantity& q) {
        if (type == Type{} || type == Type{units::dim::count, Type::Sort::number}) return;
        findings_.fault("wrong-dimension", place,
                        fmt::format("\"{}\" is counted in whole pieces, a plain number; this is "
                                    "{}.",
                                    q.name.value, sheet::describe(type)),
                        "Write it as in `1 per kg of cabbage`, or use `weigh`.");
    }

    void finish_mass(Formula& formula, Type& type, Place place, const Quantity& q) {
        if (type == Type{units::dim::mass, Type::Sort::number}) return;
        if (type != Type{units::dim::volume, Type::Sort::number})
            return expect(type, units::dim::mass, place, q);
        const auto index = model_->find_entry(q.name.value);
        if (!index) return;
        Entry& e = model_->entries[*index];
        const std::optional<UnknownId> density = bulk_density(e, q);
        if (!density) return;
        e.in_spoons = e.role != Role::water || !e.poured_from;
        e.volume = formula;
        const auto volume = static_cast<std::uint32_t>(formula.steps.size() - 1);
        const auto rho = formula.unknown(*density, place);
        formula.apply(Op::multiply, volume, rho, place);
        type = Type{units::dim::mass, Type::Sort::number};
    }

    std::optional<UnknownId> bulk_density(Entry& e, const Quantity& q) {
        if (e.bulk_density) return e.bulk_density;
        if (e.poured_from) return model_->brines[*e.poured_from].density;
        const Place place = q.tail.material ? q.tail.material->place : q.name.place;
        if (e.material == nullptr) {
            findings_.fault("volume-without-material", place,
                            fmt::format("\"{}\" is a volume. What is it made of, so that it can "
                                        "be weighed?",
                                        q.name.value),
                            "Add `as` and a material, or write a weight.");
            return std::nullopt;
        }
        if (e.material->vague || !e.material->bulk_density) {
            findings_.fault(
                e.material->vague ? "vague-material" : "no-density", place,
                e.material->vague
                    ? fmt::format("A spoon of {} can weigh very different amounts.",
                                  e.material->name)
                    : fmt::format("I do not know what a spoon of {} weighs.", e.material->name),
                e.material->vague && !e.material->vague_hint.empty()
                    ? fmt::format("Say which: {} Or write a weight.", e.material->vague_hint)
                    : "Write a weight, or add a `material` line with its density.");
            return std::nullopt;
        }
        const larder::Figure& f = *e.material->bulk_density;
        e.bulk_density =
            builder_.add_unknown({fmt::format("how {} lies in the spoon", e.material->name), f.low,
                                  f.typical, f.high, {}, std::string(f.source)});
        return e.bulk_density;
    }

    void finish_brine(BrineEntry& brine, Formula& formula, Type& type, Place place) {
        if (type == Type{units::dim::mass, Type::Sort::number}) return;
        if (type != Type{units::dim::volume, Type::Sort::number}) {
            findings_.fault("wrong-dimension", place,
                            fmt::format("How much brine is made is a volume or a weight; this is "
                                        "{}.",
                                        sheet::describe(type)),
                            "Write it as in `make 2 L`.");
            return;
        }
        const auto volume = static_cast<std::uint32_t>(formula.steps.size() - 1);
        const auto rho = formula.unknown(brine.density, place);
        formula.apply(Op::multiply, volume, rho, place);
        type = Type{units::dim::mass, Type::Sort::number};
    }

    std::optional<UnknownId> true_density(CellId id) {
        for (Entry& e : model_->entries) {
            if (e.cell != id || e.material == nullptr) continue;
            const auto known = std::find_if(
                true_densities_.begin(), true_densities_.end(),
                [&](const auto& pair) { return pair.first == e.material; });
            if (known != true_densities_.end()) return known->second;
            Unknown u;
            u.label = fmt::format("how dense {} is", e.material->name);
            if (e.material->true_density) {
                u.low = e.material->true_density->low;
                u.typical = e.material->true_density->typical;
                u.high = e.material->true_density->high;
                u.source = std::string(e.material->true_density->source);
            } else {
                // Common practice, no source: produce about floats or about sinks.
                u.low = 0.94;
                u.typical = 1.00;
                u.high = 1.06;
                u.source = "common practice, no source";
                model_->assumptions.push_back(
                    fmt::format("The density of {} itself is taken as 1.00 g/mL, give or take "
                                "0.06 (common practice, no source).",
                                e.material->name));
            }
            const UnknownId unknown = builder_.add_unknown(std::move(u));
            true_densities_.emplace_back(e.material, unknown);
            return unknown;
        }
        return std::nullopt;
    }

    void assumed(units::UnitId id) {
        model_->assumptions.push_back(
            fmt::format("A {} is taken as the US one; the kitchen file can say otherwise "
                        "(`spoons metric`).",
                        units::unit(id).symbol));
    }

    // ---- Vessel, bounds, texts ----

    std::optional<Formula> line_value(language::NodeId node, std::string_view what,
                                      std::initializer_list<units::Dimension> wanted,
                                      std::string_view advice, Type* type = nullptr) {
        std::optional<sheet::Builder::Lowered> lowered = builder_.lower(doc_.expressions, node);
        if (!lowered) return std::nullopt;
        for (units::Dimension d : wanted) {
            if (lowered->type != Type{d, Type::Sort::number}) continue;
            if (type != nullptr) *type = lowered->type;
            return std::move(lowered->formula);
        }
        findings_.fault("wrong-dimension", doc_.expressions[node].place,
                        fmt::format("{} cannot be {}.", what, sheet::describe(lowered->type)),
                        std::string(advice));
        return std::nullopt;
    }

    void vessel() {
        const language::Line* first_fill = nullptr;
        each<language::FillLine>([&](const language::Line& line, const language::FillLine& s) {
            if (once(line, first_fill, "`fill`"))
                model_->fill = line_value(s.value, "The room a batch takes", {units::dim::volume},
                                          "Divide the weight by the density it is packed at: "
                                          "`fill cabbage / 0.9 kg/L`.");
        });
        const language::Line* first_head = nullptr;
        each<language::HeadspaceLine>(
            [&](const language::Line& line, const language::HeadspaceLine& s) {
                if (once(line, first_head, "`headspace`"))
                    model_->headspace = line_value(
                        s.value, "Headspace", {units::dim::plain, units::dim::length},
                        "Write a percentage or a height: `headspace 12 %`, `headspace 3 cm`.",
                        &model_->headspace_type);
            });
        const language::Line* first_top = nullptr;
        each<language::TopUpLine>([&](const language::Line& line, const language::TopUpLine& s) {
            if (!once(line, first_top, "`topup`")) return;
            model_->top_up = line_value(s.value, "The strength of a top-up brine",
                                        {units::dim::plain}, "Write a percentage: `topup 2 %`.");
            if (s.material) {
                std::string text;
                const larder::Material* m = named_material(*s.material, text);
                if (m != nullptr) model_->top_up_material = std::string(m->name);
            }
        });
    }

    void holds() {
        each<language::HoldLine>([&](const language::Line& line, const language::HoldLine& s) {
            Bound b;
            b.line = &s;
            auto value = builder_.lower(doc_.expressions, s.value);
            bool good = value.has_value();
            const auto bound = [&](language::NodeId node, Formula& out) {
                if (node == language::no_node) return;
                auto lowered = builder_.lower(doc_.expressions, node);
                if (!lowered) {
                    good = false;
                } else if (value && lowered->type != value->type) {
                    findings_.fault("wrong-dimension", doc_.expressions[node].place,
                                    fmt::format("What is held is {}; this bound is {}.",
                                                sheet::describe(value->type),
                                                sheet::describe(lowered->type)),
                                    "Give the bound a unit that fits.");
                    good = false;
                } else {
                    out = std::move(lowered->formula);
                }
            };
            bound(s.at_least, b.low);
            bound(s.at_most, b.high);
            if (!good) return;
            if (value->type.sort == Type::Sort::truth) {
                findings_.fault("wrong-dimension", line.place,
                                "`hold` bounds an amount, and this is a yes or no.",
                                "Write the amount and its bounds: `hold salt at least 20 g`.");
                return;
            }
            b.value = std::move(value->formula);
            b.type = value->type;
            model_->holds.push_back(std::move(b));
        });
    }

    void texts() {
        model_->holes.resize(doc_.lines.size());
        for (std::size_t i = 0; i < doc_.lines.size(); ++i) {
            const language::Template* text = template_of(doc_.lines[i].statement);
            if (text == nullptr) continue;
            for (const language::Template::Piece& piece : text->pieces) {
                if (piece.value == language::no_node) continue;
                Hole hole;
                auto lowered = builder_.lower(doc_.expressions, piece.value);
                if (lowered) {
                    hole.formula = std::move(lowered->formula);
                    hole.type = lowered->type;
                    reading_of(piece.value, hole);
                    hole.percent = in_percent(piece.value);
                }
                model_->holes[i].push_back(std::move(hole));
            }
        }
    }

    static const language::Template* template_of(const language::Statement& statement) {
        if (const auto* s = std::get_if<language::StepLine>(&statement)) return &s->text;
        if (const auto* s = std::get_if<language::RestLine>(&statement))
            return s->text ? &*s->text : nullptr;
        if (const auto* s = std::get_if<language::TendLine>(&statement))
            return s->text ? &*s->text : nullptr;
        if (const auto* s = std::get_if<language::ReadyLine>(&statement))
            return s->text ? &*s->text : nullptr;
        if (const auto* s = std::get_if<language::KeepLine>(&statement))
            return s->text ? &*s->text : nullptr;
        return nullptr;
    }

    /// `{salt}` is the reading itself, `{salt / 3}` portions that add up to it.
    void reading_of(language::NodeId node, Hole& hole) const {
        const language::Node* n = &doc_.expressions[node];
        int parts = 1;
        if (n->kind == language::NodeKind::divide) {
            const language::Node& by = doc_.expressions[n->b];
            if (by.kind != language::NodeKind::amount) return;
            const units::Amount& a = doc_.expressions.amounts[by.index];
            if (!a.plain_number || a.value != std::floor(a.value) || a.value < 1 || a.value > 100)
                return;
            parts = static_cast<int>(a.value);
            n = &doc_.expressions[n->a];
        }
        if (n->kind != language::NodeKind::name) return;
        hole.entry = model_->find_entry(doc_.expressions.names[n->index]);
        hole.parts = parts;
    }

    /// A plain number whose expression is a percentage, or a ratio of two like things, reads best in
    /// percent.
    [[nodiscard]] bool in_percent(language::NodeId node) const {
        const language::Node& n = doc_.expressions[node];
        if (n.kind == language::NodeKind::amount)
            return doc_.expressions.amounts[n.index].percent;
        if (n.kind == language::NodeKind::divide || n.kind == language::NodeKind::per) {
            const language::Node& a = doc_.expressions[n.a];
            return a.kind == language::NodeKind::name;
        }
        return false;
    }

    const language::Document& doc_;
    const kitchen::Kitchen& kitchen_;
    Findings& findings_;
    sheet::Builder builder_;
    std::unique_ptr<Model> model_;
    std::vector<const Quantity*> quantity_of_cell_;
    std::vector<std::pair<CellId, std::size_t>> brine_of_cell_;
    std::vector<std::pair<const larder::Material*, UnknownId>> true_densities_;
};

} // namespace

std::unique_ptr<Model> compile(const language::Document& document, const kitchen::Kitchen& kitchen,
                               Findings& findings) {
    return Compiler(document, kitchen, findings).run();
}

} // namespace jarful::plan
