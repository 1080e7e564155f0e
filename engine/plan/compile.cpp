#include "engine/plan/compiler.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace jarful::plan {

std::optional<std::size_t> Model::find_entry(std::string_view name) const {
    for (std::size_t i = 0; i < entries.size(); ++i)
        if (entries[i].name == name) return i;
    return std::nullopt;
}

void forget_weighed(Model& model) {
    model.sheet->forget_observations();
    for (Entry& e : model.entries)
        e.shown.reset();
}

void observe(Model& model, Entry& entry, double shown, units::Interval truth) {
    entry.shown = shown;
    model.sheet->observe(entry.cell, truth);
}

bool weighs_by_the_jar(const Model& model) {
    return std::any_of(model.entries.begin(), model.entries.end(), [](const Entry& e) {
        return e.each_jar && e.piece && e.counts() && !e.left_out;
    });
}

std::string counted_for_one_jar(const Model& model) {
    if (model.sheet->entered(model.jars)) return {};
    std::string names;
    for (const Entry& e : model.entries) {
        // A leaf of spice is not worth a word.
        if (!e.each_jar || !e.piece || !e.counts() || e.left_out ||
            e.role == larder::Role::aromatic)
            continue;
        names += fmt::format("{}{}", names.empty() ? "" : ", ", e.name);
    }
    if (names.empty()) return {};
    return fmt::format(
        "How many jars there are is not said, so what goes into each jar ({}) counts "
        "as for one jar: jar=NAME,NAME names them.",
        names);
}

std::unique_ptr<Model> Compiler::run() {
    for (const larder::OwnMaterial& own : kitchen_.materials)
        model_->larder->add(own);
    each<language::MaterialLine>([&](const auto&, const language::MaterialLine& m) {
        model_->larder->add(kitchen::read_material(m, findings_));
    });
    headers();
    declare();
    settle_measures();
    missing_percents();
    shares();
    model_->jars = builder_.declare("number of jars", {}, false);
    builder_.define(model_->jars, Formula::of_constant(1), Type{});
    define_totals();
    model_->vessel = builder_.declare("vessel room", {}, false);
    builder_.define(model_->vessel, Formula::of_constant(0),
                    Type{units::dim::volume, Type::Sort::number});
    builder_.hooks.vessel = model_->vessel;
    builder_.hooks.finish = [this](CellId id, Formula& f, Type& t, Place p) {
        finish(id, f, t, p);
    };
    builder_.hooks.true_density = [this](CellId id) { return true_density(id); };
    builder_.hooks.assumed_measure = [this](units::UnitId id, Place) { assumed(id); };
    builder_.resolve();
    vessel();
    holds();
    times();
    texts();
    if (findings_.has_faults()) return nullptr;
    model_->sheet = std::make_unique<sheet::Sheet>(builder_.build());
    return std::move(model_);
}

bool Compiler::once(const language::Line& line, const language::Line*& first,
                    std::string_view what) {
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

void Compiler::headers() {
    // Whoever reads files has put what is inherited in the place of these lines.
    each<language::BasedOnLine>([&](const auto&, const language::BasedOnLine& b) {
        findings_.fault(
            "missing-base", b.base.place,
            "What this recipe is based on was not read, so that its lines are not known.",
            "Name the recipe by its file.");
    });
    each<language::RecipeHeader>([&](const auto&, const language::RecipeHeader& h) {
        model_->title = h.title.value;
        if (h.version) model_->version = h.version->value;
    });
    const language::Line* first = nullptr;
    each<language::KindLine>([&](const language::Line& line, const language::KindLine& k) {
        if (once(line, first, "`kind`")) kind(k);
    });
}

void Compiler::kind(const language::KindLine& line) {
    const larder::House* house = kitchen_.house.get();
    const larder::Kind* found =
        house != nullptr ? house->find_kind(line.kind.value) : larder::find_kind(line.kind.value);
    if (found == nullptr) {
        const auto near = house != nullptr ? house->nearest_kind(line.kind.value)
                                           : larder::nearest_kind(line.kind.value);
        language::Diagnostic& unknown = findings_.fault(
            "unknown-kind", line.kind.place,
            fmt::format("There is no kind of ferment called \"{}\".", line.kind.value),
            near ? fmt::format("Did you mean \"{}\"? `jarful ranges` lists them.", *near)
                 : "`jarful ranges` lists the kinds.");
        if (near) unknown.fixes.push_back({line.kind.place, std::string(*near)});
        return;
    }
    model_->kind = found;
    std::string methods;
    std::vector<std::string> method_words;
    for (const larder::Ruling& r : found->rulings) {
        if (r.method.empty()) continue;
        methods += fmt::format("{}`{}`", methods.empty() ? "" : ", ", r.method);
        method_words.emplace_back(r.method);
    }
    if (line.method) {
        model_->method = line.method->value;
        model_->ruling = larder::find_ruling(*found, line.method->value);
        if (model_->ruling != nullptr) return;
        findings_
            .fault("unknown-method", line.method->place,
                   fmt::format("{} is not made by a method called \"{}\".", found->name,
                               line.method->value),
                   methods.empty() ? "Leave the method out."
                                   : fmt::format("The methods are {}.", methods))
            .fixes = language::fixes_with(line.method->place, method_words.empty()
                                                                  ? std::vector<std::string>{""}
                                                                  : std::move(method_words));
        return;
    }
    if (found->method_needed) {
        for (std::string& word : method_words)
            word.insert(0, 1, ' ');
        findings_
            .fault(
                "method-needed", line.kind.place,
                fmt::format("{} is made in more than one way, and the salt differs.", found->name),
                fmt::format("Write the method after the kind: {}.", methods))
            .fixes = language::fixes_with({line.kind.place.end, line.kind.place.end},
                                          std::move(method_words));
        return;
    }
    model_->ruling = larder::find_ruling(*found, "");
    if (model_->ruling != nullptr) model_->method = std::string(model_->ruling->method);
}

void Compiler::define_totals() {
    Contents contents(*model_, builder_);
    model_->totals = contents.define();
}

void Compiler::shares() {
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

std::unique_ptr<Model> compile(const language::Document& document, const kitchen::Kitchen& kitchen,
                               Findings& findings) {
    return Compiler(document, kitchen, findings).run();
}

} // namespace jarful::plan
