#pragma once

#include "engine/appraise/bounds.hpp"
#include "engine/appraise/document.hpp"

#include <optional>
#include <string>
#include <vector>

/// What a recipe comes to, and what sort of thing it is. For this room only.
namespace jarful::appraise {

/// Whether a line is of something that goes in the jar.
[[nodiscard]] bool in_jar(const Reading& reading);

/// A line in quotation marks, and where it stands.
[[nodiscard]] std::string quoted(const Line& line);

/// The jar in masses, each line an independent unknown between its ends.
struct Totals {
    units::Interval salt{0.0}; ///< of lines with an amount of their own, seasonings' salt too
    units::Interval vegetables{0.0};
    units::Interval water{0.0}; ///< water, vinegar, and the water of seasonings
    units::Interval other{0.0}; ///< the rest of what goes in
    /// Salt as so much of something, as a ratio.
    struct Rate {
        units::Interval ratio;
        Whole of = Whole::vegetables;
        units::Interval share{1.0}; ///< of the vegetables: the part that the rule speaks of
    };
    std::vector<Rate> rates;
    units::Interval kept{1.0};            ///< of the salt, what no rinsing and pouring takes away
    units::Interval brine{1.0};           ///< of the brine, what goes in
    units::Interval more_salt{0.0};       ///< besides what is read, from none to so much
    units::Interval more_vegetables{0.0}; ///< likewise
    units::Interval more_water{0.0};      ///< likewise
    units::Interval unread_water{0.0};    ///< of lines that may be vegetables as well
    /// Of water that is poured until it covers: how much for each g of vegetables, and what of
    /// `water` that comes to.
    units::Interval cover_ratio{0.0};
    units::Interval covering{0.0};
    std::optional<units::Interval> whole; ///< vegetables and water of a vessel that is filled, in g
    bool vegetables_open = false;         ///< "at least": no upper end
    bool water_open = false;
    double spare_water = 0; ///< the part of `water` that is only poured if it is needed
    bool any_salt = false;
    bool salt_unknown = false;
    bool special_salt = false; ///< one for curing, or with potassium
    bool vegetables_unknown = false;
    bool water_unknown = false;
    bool water_guessed = false; ///< "to cover": estimated
    bool no_vegetables = false;

    /// A basis as a percentage, its upper end `endless` where nothing bounds it; empty if there is
    /// nothing that it could be a percentage of.
    [[nodiscard]] Percent on(larder::Basis basis) const;
    /// Whether all the salt is rules of these.
    [[nodiscard]] bool only(std::initializer_list<Whole> list) const;
    /// Salt in g with what the rules come to; empty if it cannot be told.
    [[nodiscard]] std::optional<units::Interval> all_salt() const;
};

/// The kind of ferment, and why.
struct Guess {
    const larder::Kind* kind = nullptr;
    std::string method;
    std::string reason;                   ///< why this, or why none
    std::string_view near = "kraut";      ///< where there is none: one that it may be
    std::vector<std::string_view> may_be; ///< where there is none: all that it may be
    bool not_a_ferment = false;
    bool unsure_ferment = false; ///< so much vinegar that it may be a pickle
};
[[nodiscard]] Guess guess_kind(const Document& doc, const Totals& totals);

/// What the method does to the list's salt, water and vegetables so that the list no longer says
/// what is in the jar; empty if nothing.
/// @param kind nullptr: not known. @param ruling likewise; where it judges the brine alone, only
/// what changes its strength counts.
[[nodiscard]] std::vector<Deed> deeds_that_count(const Document& doc, const Totals& totals,
                                                 const larder::Kind* kind,
                                                 const larder::Ruling* ruling);

/// Adds up the lines. @param notes assumptions, in sentences.
[[nodiscard]] Totals add_up(const Document& doc, std::vector<std::string>& notes);

/// What a method brought to its list.
struct MethodTaken {
    bool salt = false;                  ///< the salt's amount stands in the method alone
    bool open = false;                  ///< and is at least what was read
    const SaltInMethod* rule = nullptr; ///< of the document: the rule that was taken
    std::string why;                    ///< why the salt is not told, a sentence
};
/// Adds to the lines what only the method weighs: vegetables, salt, water.
[[nodiscard]] MethodTaken take_method(Document& doc);

/// Puts what the cook has weighed in the place of what the recipe says; false with a refusal if a
/// pin fits no line, or more than one.
[[nodiscard]] bool apply_pins(Document& doc, const Request& request, Refusal& refusal);

/// The text with the lines that the cook has answered in the place of its own; false with a refusal
/// if there is no such line.
[[nodiscard]] bool answer_lines(std::string_view text, const Request& request, std::string& out,
                                Refusal& refusal);

/// "1.8 to 2.3 %", rounded outward.
[[nodiscard]] std::string percent_text(units::Interval percent);

/// What a deed of the method leaves open, in the accounts.
void apply(const Deed& deed, Totals& totals);

/// The salt that the cook says spoons are of: nullptr where none is named; false with a refusal if
/// it is none, or does not say its grain.
[[nodiscard]] bool pinned_salt(const Request& request, const larder::Material*& salt,
                               Refusal& refusal);

/// Why the salt cannot be told, in a sentence.
[[nodiscard]] std::string salt_reason(const Document& doc);

/// The line whose weighing would narrow a basis most; nullptr if none would.
[[nodiscard]] const Reading* widest_line(const Document& doc, larder::Basis basis,
                                         units::Interval whole);

/// Of all readings of the accounts, which verdict so many draws come to; empty where an account has
/// no end. Draws are even between the ends.
[[nodiscard]] std::optional<Lean> lean_of(const std::vector<Totals>& readings,
                                          const larder::Ruling& ruling);

/// Advice and cautions, once the verdict stands.
void advise(Appraisal& a, const Document& doc, const Totals& totals);

} // namespace jarful::appraise
