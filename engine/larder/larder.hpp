#pragma once

#include "engine/larder/constant.hpp"
#include "engine/units/interval.hpp"

#include <cstdint>
#include <deque>
#include <functional>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// What the kitchen knows before it opens: materials, salt ranges, cautions, each with its source.
///
/// The facts live in engine/larder/data/*.json and are compiled into constant tables, so that
/// nothing is parsed when the program starts.
namespace jarful::larder {

namespace tables {
extern const char texts[]; ///< of all the tables, one behind the other
}
using Text = ConstantText<tables::texts>;
namespace tables {
extern const Text lists[]; ///< lists of texts, one behind the other
extern const std::uint16_t row_lists[];
} // namespace tables
using TextList = Slice<Text, tables::lists>;

/// How far a fact can be leaned on.
enum class Status : std::uint8_t {
    published,       ///< read in the source, or worked out from figures read in it
    common_practice, ///< a fact of the trade, no published figure
    from_memory,     ///< published as far as is remembered, not re-read
    house            ///< a house file's own
};
/// "published", "common practice, no published figure", "from memory", "the house's own".
[[nodiscard]] std::string_view describe(Status status);

/// What a quantity is in the jar. Decides whether it counts as vegetable, salt or water.
enum class Role : std::uint8_t { vegetable, salt, water, aromatic, seasoning, acid, other };
[[nodiscard]] std::string_view describe(Role role);
[[nodiscard]] std::optional<Role> find_role(std::string_view word);

/// A figure with its spread and its source. `low <= typical <= high`.
struct Figure {
    double low = 0;
    double typical = 0;
    double high = 0;
    Status status = Status::common_practice;
    Text source; ///< document, publisher, year, section; or "common practice, no source"
    [[nodiscard]] units::Interval interval() const { return {low, high}; }
};

/// What has to be said about a salt before it is used in a ferment.
enum class SaltWarning : std::uint8_t { none, may_cloud, not_recommended, reduced_sodium, curing };

/// An entry of the larder. All fractions are of 1, densities in g/mL, pieces in g.
struct Material {
    Text id;   ///< stable key: "salt-sea-fine"
    Text name; ///< as printed: "fine sea salt"
    Role role = Role::other;
    TextList names;                     ///< every other accepted name, plurals not needed
    std::optional<Figure> bulk_density; ///< as it lies in a spoon or cup
    std::optional<Figure> true_density; ///< of the thing itself, for the brine it displaces
    std::optional<Figure> water;        ///< water content
    std::optional<Figure> salt;         ///< salt content; 1 for a pure salt
    std::optional<Figure> piece;        ///< one head, root, clove, leaf: small, medium, large
    std::optional<Figure> refuse;       ///< lost in trimming, of the weight as bought
    Text piece_word;                    ///< "head", "clove", "leaf"; empty if none
    SaltWarning warning = SaltWarning::none;
    bool vague = false; ///< "salt", "pepper", "dill": fine on a scale, not in a spoon
    Text vague_hint;    ///< what to write instead, for a vague one
    Text note;
};

/// What a salt percentage is a percentage of.
enum class Basis : std::uint8_t {
    of_vegetables,           ///< salt / vegetables
    of_vegetables_and_water, ///< salt / (vegetables + liquid added), once it has evened out
    of_brine,                ///< salt / (salt + liquid), at the start
    of_evened_brine,         ///< salt / (salt + liquid + the vegetables' own water)
    of_everything,           ///< salt / everything in the jar, once it has evened out
    of_water,                ///< salt / water: kitchen habit, shown and never ruling
    of_drained_brine         ///< g per 100 mL of drained brine: shown in ranges only
};
/// "of the vegetables", "of vegetables and water", "of the brine", "of the brine once it has evened
/// out", "of everything in the jar", …
[[nodiscard]] std::string_view describe(Basis basis);
/// The JSON word: "of_vegetables", "of_vegetables_and_water", …
[[nodiscard]] std::string_view key(Basis basis);

/// What a published or practised figure is.
enum class RowRole : std::uint8_t {
    limit,
    recommendation,
    studied,
    composition,
    recipe_derived,
    practice,
    judgement
};
[[nodiscard]] std::string_view describe(RowRole role);

/// One salt figure from one source. Percentages are written 2.2 for 2.2 %.
struct RangeRow {
    Text id;
    Text kind;   ///< the kind of ferment it is filed under here
    Text method; ///< dry, brine, any, finished, …, as the source has it
    Basis basis = Basis::of_vegetables;
    std::optional<double> low, typical, high;
    RowRole role = RowRole::practice;
    Text source;
    Text section;
    Status status = Status::common_practice;
    Text note;
};

/// How far a row can be leaned on, in words: those of its status, but "our own reading" where this
/// program weighed several rows, and "tried in a study" where nobody advises the figure.
[[nodiscard]] std::string_view standing(const RangeRow& row);

namespace tables {
extern const RangeRow row_table[];
}

/// One end of a ruling range, and the row it rests on.
struct Bound {
    double percent = 0;
    Entry<RangeRow, tables::row_table> row;
};

/// How the salt of one kind, made by one method, is judged.
struct Ruling {
    Text method; ///< empty if the kind knows one method only
    Text title;  ///< the method in words
    Basis basis = Basis::of_vegetables;
    std::optional<Bound> low, high; ///< empty: no figure, published or practised
    std::optional<double> typical;  ///< percent, for a first recipe and for the gauge
    Text why;                       ///< which row rules and why, one or two sentences
};

namespace tables {
extern const Ruling rulings[];
}

/// A kind of ferment.
struct Kind {
    Text name;      ///< "kraut"
    Text title;     ///< "shredded, dry-salted cabbage"
    TextList names; ///< other accepted names, the reference's own among them
    Slice<Ruling, tables::rulings>
        rulings;                ///< the first is the default where `method_needed` is not set
    bool method_needed = false; ///< the recipe must say which method
    Slice<std::uint16_t, tables::row_lists> rows; ///< indices into range_rows(), ruling or not
    TextList cautions;                            ///< ids of cautions particular to this kind
};

/// Something that can hurt, what to check and what to do.
struct Caution {
    Text id;
    Text title; ///< two to five words
    Text brief; ///< one sentence of at most twenty words, for a screen that has no room for more
    Text text;  ///< what to do, in our own words, at most three sentences
    bool always = false; ///< belongs on every sheet
    Status status = Status::common_practice;
    Text source;
};

[[nodiscard]] std::span<const Material> materials();
[[nodiscard]] std::span<const RangeRow> range_rows();
[[nodiscard]] std::span<const Kind> kinds();
[[nodiscard]] std::span<const Caution> cautions();
[[nodiscard]] const Caution* find_caution(std::string_view id);
[[nodiscard]] const RangeRow* find_range_row(std::string_view id);

/// By name or any other accepted name, case and blank/hyphen/underscore alike.
[[nodiscard]] const Kind* find_kind(std::string_view name);
/// The kind name nearest to a misspelt one; empty if none is close.
[[nodiscard]] std::optional<std::string_view> nearest_kind(std::string_view misspelt);
/// The ruling for a method; the default one for an empty method unless a method is needed.
[[nodiscard]] const Ruling* find_ruling(const Kind& kind, std::string_view method);

/// A material of a recipe's, kitchen's or book's own.
struct OwnMaterial {
    std::string name;
    Role role = Role::other;
    std::optional<Figure> bulk_density, true_density, water, salt, piece;
    std::string source; ///< as the cook states it; empty: "stated in the recipe"
};

/// How a name was resolved.
struct Match {
    const Material* material = nullptr;
    bool exact = false; ///< the whole name is known; otherwise its longest known part
};

/// The built-in materials and what a recipe, a kitchen or a book adds or overrides.
/// Materials keep their address for the life of the larder. Movable, not copyable.
class Larder {
  public:
    Larder() = default;
    Larder(Larder&&) noexcept = default;
    Larder& operator=(Larder&&) noexcept = default;
    Larder(const Larder&) = delete;
    Larder& operator=(const Larder&) = delete;

    /// Adds a material or overrides the one that its name resolves to exactly: figures that are not
    /// given, and a role left at `other`, are taken from that one, and so are its names. Text is
    /// copied. A figure's source is `own.source`, or else its own, or else "stated in the recipe".
    const Material& add(OwnMaterial own);

    /// The material of a whole name: case, plurals (-s, -es, -ies, "leaves"), blank, hyphen
    /// and underscore alike, and every word of it known. nullptr if there is none: "sea salt and
    /// sugar" is not sea salt. For what a cook names; a line of a list is read by find().
    [[nodiscard]] const Material* named(std::string_view name) const;

    /// As named(); then by the longest known run of words in it ("organic fine sea salt" → "fine
    /// sea salt"). A name with a word that changes a salt ("reduced sodium", "curing", "pink")
    /// never falls back to plain salt: it is the reduced-sodium or curing salt of the larder, or
    /// nothing at all
    /// ("garlic salt"). Nor does part of a name stand for something else ("carrot juice", "dried
    /// mushrooms"). Empty if nothing matches.
    [[nodiscard]] std::optional<Match> find(std::string_view name) const;

    /// Up to `limit` names near a misspelt one, nearest first, one for each material.
    [[nodiscard]] std::vector<std::string_view> nearest(std::string_view misspelt,
                                                        std::size_t limit = 3) const;

    /// Up to `limit` names to offer for one that named() does not know: what a part of it names,
    /// then nearest().
    [[nodiscard]] std::vector<std::string_view> offered(std::string_view unknown,
                                                        std::size_t limit = 3) const;

  private:
    /// The material of a folded name or its singular, own ones first.
    [[nodiscard]] const Material* known(std::string_view folded) const;
    [[nodiscard]] std::string_view keep(std::string text);

    std::deque<Material> own_;
    std::deque<std::string> strings_;
    std::deque<std::vector<Text>> name_lists_;
    std::map<std::string, const Material*, std::less<>> own_names_; ///< folded
};

/// The built-in material of a whole name of the program's own language, plurals too, and nothing of
/// parts of names: what Larder::find calls exact, at the price of one look-up.
[[nodiscard]] const Material* find_exact(std::string_view name);

/// Greatest mass fraction of salt that dissolves near room temperature: 26.395 % at 60 °F.
/// Source: table of brine strengths by salometer degree; see docs/science.md.
inline constexpr double saturation = 0.26395;

/// Density of salt water in g/mL with the error of the table and of interpolating in it.
/// @param salt_fraction salt / (salt + water), 0 to 0.26.
/// @param celsius 0 to 30.
/// Empty outside those bounds. Sources in docs/science.md.
[[nodiscard]] std::optional<Figure> brine_density(double salt_fraction, double celsius);

/// Mass of one mL of water at 20 °C in g: 0.9982 (standard tables; from memory).
inline constexpr double water_density_20c = 0.9982;
/// Mass fraction of sodium in salt: 22.990 / 58.443.
inline constexpr double sodium_in_salt = 22.990 / 58.443;

} // namespace jarful::larder
