#pragma once

#include "engine/plan/contents.hpp"
#include "engine/plan/model.hpp"

/// Private to the room: how a model is made. One class over several files, a subject each.
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
using sheet::UnknownId;

/// Most lines that are optional or a `cap`: each is judged both ways, which doubles the work.
inline constexpr int most_judged_both_ways = 8;

class Compiler {
  public:
    Compiler(const language::Document& document, const kitchen::Kitchen& kitchen,
             Findings& findings)
        : doc_(document)
        , kitchen_(kitchen)
        , findings_(findings)
        , builder_(findings, kitchen.spoons)
        , model_(std::make_unique<Model>()) {
        model_->document = &document;
        model_->kitchen = &kitchen;
        model_->larder = std::make_unique<larder::Larder>();
    }

    std::unique_ptr<Model> run();

  private:
    template <class Line, class Do>
    void each(Do&& act) {
        for (const language::Line& line : doc_.lines)
            if (const Line* s = std::get_if<Line>(&line.statement)) act(line, *s);
    }

    /// Reports a line that may stand only once; true for the first.
    bool once(const language::Line& line, const language::Line*& first, std::string_view what);

    // ---- What it is ----

    void headers();
    void kind(const language::KindLine& line);

    // ---- Quantities ----

    void declare();
    void declare_quantity(const Quantity& q);
    void define_measure(CellId id, const Quantity& q);
    void define_measured_shares();
    void keeps(Entry& e, const language::Literal& literal);
    /// What a line is made of and what it is in the jar.
    void settle_material(Entry& e, const Quantity& q);
    const larder::Material* named_material(const language::Word& word, std::string& text);
    /// Makes a line one of this material: `as NAME` in its place.
    [[nodiscard]] std::vector<language::Fix> made_of(const Quantity& q,
                                                     std::string_view material) const;
    /// Likewise for each name that a hint has in quotes.
    [[nodiscard]] std::vector<language::Fix> said_in(const Quantity& q,
                                                     std::string_view hint) const;
    [[nodiscard]] std::optional<std::size_t> find_brine(std::string_view name) const;
    /// Asks about `2.2 of cabbage` on a line of salt, which is 220 %.
    void missing_percents();
    void missing_percent(const language::Node& of);
    /// A `measure … replaces` takes material and role from what it replaces.
    void settle_measures();

    // ---- Brines ----

    void declare_brine_name(const language::BrineLine& b);
    void declare_brine(const language::BrineLine& b, std::size_t index);
    double stated_strength(const language::BrineLine& b);
    std::size_t add_brine_part(BrineEntry& brine, const language::BrineLine& b, bool salt);

    // ---- Totals ----

    void define_totals();
    void shares();

    // ---- Dimensions of lines ----

    void finish(CellId id, Formula& formula, Type& type, Place place);
    void expect(const Type& type, units::Dimension wanted, Place place, const Quantity& q);
    static std::string advice_for(const Type& type, units::Dimension wanted);
    void finish_count(const Type& type, Place place, const Quantity& q);
    void finish_mass(Formula& formula, Type& type, Place place, const Quantity& q);
    std::optional<UnknownId> bulk_density(Entry& e, const Quantity& q);
    void finish_brine(BrineEntry& brine, Formula& formula, Type& type, Place place);
    std::optional<UnknownId> true_density(CellId id);
    void assumed(units::UnitId id);

    // ---- Vessel, bounds, texts ----

    std::optional<Formula> line_value(language::NodeId node, std::string_view what,
                                      std::initializer_list<units::Dimension> wanted,
                                      std::string_view advice, Type* type = nullptr);
    void vessel();
    bool one_figure(language::NodeId root);
    void holds();
    /// `rest`, `tend` and `ready`: times and temperatures that are ones.
    void times();
    void texts();
    static const language::Template* template_of(const language::Statement& statement);
    /// `{salt}` is the reading itself, `{salt / 3}` portions that add up to it.
    void reading_of(language::NodeId node, Hole& hole) const;
    /// A plain number whose expression is a percentage, or a ratio of two like things, reads best
    /// in percent.
    [[nodiscard]] bool in_percent(language::NodeId node) const;

    const language::Document& doc_;
    const kitchen::Kitchen& kitchen_;
    Findings& findings_;
    sheet::Builder builder_;
    std::unique_ptr<Model> model_;
    /// A `measure … about 80..90 % of NAME`, waiting for all names to be declared.
    struct MeasuredShare {
        CellId cell;
        std::uint32_t amount; ///< the step that holds the percentage
        Formula formula;
        const Quantity* line;
    };
    std::vector<MeasuredShare> measured_shares_;
    std::vector<const Quantity*> quantity_of_cell_;
    std::vector<std::pair<CellId, std::size_t>> brine_of_cell_;
    std::vector<std::pair<const larder::Material*, UnknownId>> true_densities_;
};

} // namespace jarful::plan
