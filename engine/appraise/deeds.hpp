#pragma once

#include "engine/appraise/quantity.hpp"
#include "engine/larder/larder.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

/// What a method does to the salt, the water and the vegetables of its list. For this room only.
namespace jarful::appraise {

/// Something after which the list no longer says what is in the jar.
struct Deed {
    std::string reason;
    std::string remedy;
    bool leaves_brine = false; ///< the brine keeps its strength: only how much of it is open
    /// What it does to the accounts.
    enum class Effect : std::uint8_t {
        less_salt,
        more_salt,
        less_brine,
        more_water,
        more_things ///< of which nothing is known
    } effect = Effect::less_salt;
    double grams = 0; ///< the most of it, 0 where that is not said
};

/// What a sentence of the method adds; whether the list names it is seen later.
struct Added {
    std::string sentence;
    const larder::Material* material = nullptr; ///< water, a vegetable, vinegar
    std::string words;                          ///< of a thing, as the sentence has it
    bool more = false;                          ///< "fresh water": besides what the list names
    double grams = 0;                           ///< the least of it, where that is said
};

/// Reads the sentences of a method in their order.
class Deeds {
  public:
    void read(std::span<const Token> sentence, Tongue tongue);

    [[nodiscard]] bool rinsed() const { return rinsed_; }
    [[nodiscard]] const std::vector<Added>& added() const { return added_; }
    /// The largest jar or crock whose size is said, in mL; 0 if none is.
    [[nodiscard]] double vessel_ml() const { return vessel_ml_; }
    /// What is done to salt and brine.
    [[nodiscard]] std::vector<Deed> done() const;

  private:
    enum class Stage : std::uint8_t { raw, brine, salted };
    struct Sentence {
        std::span<const Token> t;
        Tongue tongue = nullptr;
        bool salt = false, brine = false, water = false;
        bool makes_brine = false; ///< salt goes into water here, and not yet to the vegetables
        bool only_measures = false;
        bool before_salting = false; ///< "before salting"
        bool after_salting = false;
        std::size_t salt_at = 0;
    };

    void rinses(const Sentence& s);
    void takes_salt_off(const Sentence& s);
    void pours_off(const Sentence& s);
    void puts_back(const Sentence& s);
    void adds_salt(const Sentence& s);
    void adds_liquid(const Sentence& s);
    void uses_part(const Sentence& s);
    void takes_again(const Sentence& s);
    void repeats(const Sentence& s);
    void salts_later(const Sentence& s);
    void parts_brine(const Sentence& s);
    void fills_vessel(const Sentence& s);
    void leaves_over(const Sentence& s);
    void adds_water(const Sentence& s);
    void adds_things(const Sentence& s);
    void adds_thing(const Sentence& s, std::size_t at, const FoundQuantity& found);
    void follow(const Sentence& s);
    [[nodiscard]] static Deed poured(const std::string& sentence);

    Stage stage_ = Stage::raw;
    bool rinsed_ = false;
    std::string part_; ///< the sentence that takes a part of the salt, until another takes the rest
    std::string squeezed_;    ///< the sentence that squeezes juice out, until it is put back
    std::string early_;       ///< the sentence that rinses or drains before anything is salted
    std::string part_salted_; ///< the sentence that salts a part of the vegetables
    double vessel_ml_ = 0;
    bool salt_before_ = false; ///< the sentence before speaks of salt
    bool whole_salt_ = false;  ///< "the salt", all of it, has gone in
    bool bath_ = false;        ///< there is water that is no brine
    std::vector<Deed> done_;
    std::vector<Added> added_;
};

} // namespace jarful::appraise
