#pragma once

#include "engine/appraise/reading.hpp"
#include "engine/appraise/sentence.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

/// What the sentences of a method do to the salt, the water and the vegetables of its list, by the
/// rows of patterns.json. For this room only.
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
        more_things, ///< of which nothing is known
        anything     ///< less of the salt, or any amount more
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

/// Salt that a sentence names with an amount.
struct SaltInMethod {
    std::string text;         ///< the sentence
    Reading reading;          ///< weighed, with its ratio where it is so much for so much
    bool conditional = false; ///< "if the juice does not cover"
    bool rule = false;        ///< so much for so much, or a percentage
    bool each = false;        ///< for each layer, jar, portion: once, or more often
    bool of_line = false;     ///< stands in parentheses on a line of the list
    std::optional<units::Interval> beside; ///< a mass in its sentence that may be what it is for
    std::size_t sentence = 0;
};

/// Water, or brine, that a sentence names with an amount.
struct WaterInMethod {
    std::string text;
    units::Interval grams;
    bool conditional = false;
    bool with_salt = false; ///< the sentence makes brine of it
    std::size_t sentence = 0;
};

/// What a method comes to, sentence by sentence.
struct Account {
    std::vector<SaltInMethod> salt;
    std::vector<WaterInMethod> water;
    std::vector<WaterInMethod> brine;         ///< as much as is to be made
    std::vector<Reading> vegetables;          ///< that sentences name with an amount
    std::optional<units::Interval> vessel_ml; ///< the room of what it ferments in
    std::string vessel_text;
    bool fills_with_water = false; ///< the vessel, up to where it is full
    bool covers_with_brine = false;
    std::string again;        ///< a sentence that takes salt a second time, or for a part only
    bool rinsed = false;      ///< after it has salted
    bool late_acid = false;   ///< vinegar and its like are spoken of only when it has fermented
    std::vector<Deed> deeds;  ///< what else is done to salt and brine
    std::vector<Added> added; ///< what is added, whether the list names it or not
    std::size_t sentences = 0;
};

/// Whether the words behind an amount name something else than salt: "2 kg cabbage".
[[nodiscard]] bool names_another(const Sentence& s, std::size_t amount);

/// Whether a sentence gives salt as so much for so much.
[[nodiscard]] bool names_rule(std::span<const Token> sentence, Numbers numbers, Tongue tongue);

/// Reads one sentence after the other.
class Method {
  public:
    Method(Tongue tongue, const larder::Material* salt)
        : tongue_(tongue)
        , salt_(salt) {}

    /// @param amounts false for a line that may be a thing of the list: what it weighs is not the
    /// method's to say, what it does to the salt is
    /// @param prose whether all of it has to be explained
    void read(std::span<const Token> sentence, Numbers numbers, bool amounts = true,
              bool prose = true);
    /// An amount of the list: a sentence that names it again says nothing new.
    /// @param role of what it is an amount of
    void listed(const Quantity& amount, larder::Role role);
    /// "Kraut at a quarter of the salt": what a title says of the salt besides its name.
    void read_title(std::span<const Token> title, Numbers numbers);
    /// What it all comes to, with what was left pending.
    [[nodiscard]] Account account() const;
    /// The rows that were found, in their order; for tests and for whoever asks why.
    [[nodiscard]] const std::vector<const Pattern*>& rows() const { return rows_; }
    /// Where the method stands: raw, brined or salted, and what else goes before.
    [[nodiscard]] Concepts state() const { return state_; }

  private:
    void take(Sentence& s, bool amounts, bool prose);
    [[nodiscard]] bool handle(const Pattern& row, const Match& found, Sentence& s);
    static void explain(Sentence& s, const Match& found);
    void explain_listed(Sentence& s) const;
    void take_unexplained(const Sentence& s);
    void settle(const Sentence& s);
    void tell(Event event, const Sentence& s);
    void each(Event event, Sentence& s, void (Method::*taker)(const Sentence&, const Match&));
    void take_amounts(Sentence& s);
    void take_rule(const Sentence& s, const Match& found);
    void take_example(const Sentence& s, const Match& found);
    void take_percent(const Sentence& s, const Match& found);
    void take_total(const Sentence& s, const Match& found);
    void take_factor(const Sentence& s, const Match& found);
    void take_water(const Sentence& s, const Match& found);
    void take_brine(const Sentence& s, const Match& found);
    void take_thing(const Sentence& s, const Match& found);
    void take_liquid(const Sentence& s, const Match& found);
    void take_vessel(const Sentence& s, const Match& found);
    void keep(const Sentence& s, Reading reading, bool rule);
    void add(const Sentence& s, const larder::Material* material, bool more, double grams);
    [[nodiscard]] std::optional<Reading> salt_reading(const Sentence& s, std::size_t amount) const;
    [[nodiscard]] bool used(std::size_t piece) const;

    Tongue tongue_;
    const larder::Material* salt_;
    Account account_;
    Concepts state_{Concept::raw}; ///< raw, brined or salted, and what else goes before
    Concepts next_;                ///< what the sentence adds to that
    std::string early_;            ///< rinses or drains before anything is salted
    std::string squeezed_;         ///< squeezes juice out, until it is put back
    std::string part_;             ///< takes a part of the salt, until another takes the rest
    std::string for_one_;          ///< says that amounts are for one vessel
    bool many_ = false;            ///< several vessels are filled
    bool poured_ = false;          ///< in this sentence
    bool early_acid_ = false, late_acid_ = false; ///< spoken of before it has stood, and after
    bool worked_ = false;                         ///< something was mixed, salted or packed before
    bool told_ = false;                           ///< what this sentence does is told already
    bool amounts_ = true;                         ///< of this sentence
    struct Listed {
        Quantity amount;
        larder::Role role;
    };
    std::vector<Listed> listed_;    ///< amounts of the list
    std::vector<std::size_t> used_; ///< amounts of this sentence that a row has taken
    std::vector<const Pattern*> rows_;
};

/// What a rate is a rate of: the amount at a piece, and the words behind it; `line` is told as
/// much.
[[nodiscard]] std::optional<Ratio> whole_at(const Sentence& s, std::size_t at, Line& line);

} // namespace jarful::appraise
