#pragma once

#include "engine/appraise/reading.hpp"
#include "engine/appraise/sentence.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

/// What the sentences of a method say of salt, water, vegetables and vessels, by the table of
/// patterns. For this room only.
namespace jarful::appraise {

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

/// Water that a sentence names with an amount.
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
    std::vector<Reading> vegetables;          ///< that sentences name with an amount
    std::optional<units::Interval> vessel_ml; ///< the room of what it ferments in
    std::string vessel_text;
    bool fills_with_water = false; ///< the vessel, up to where it is full
    bool covers_with_brine = false;
    std::string again; ///< a sentence that takes salt a second time, or for a part only
    std::size_t sentences = 0;
};

/// Whether a sentence gives salt as so much for so much.
[[nodiscard]] bool names_rule(std::span<const Token> sentence, Numbers numbers, Tongue tongue);

/// Reads one sentence after the other.
class Method {
  public:
    Method(Tongue tongue, const larder::Material* salt)
        : tongue_(tongue)
        , salt_(salt) {}

    void read(std::span<const Token> sentence, Numbers numbers);
    [[nodiscard]] const Account& account() const { return account_; }

  private:
    void take_salt(const Sentence& s);
    void take_rule(const Sentence& s, const Match& found);
    void take_percent(const Sentence& s, const Match& found);
    void take_total(const Sentence& s, const Match& found);
    void take_factor(const Sentence& s);
    void take_water(const Sentence& s);
    void take_vegetables(const Sentence& s);
    void take_vessel(const Sentence& s);
    void take_again(const Sentence& s);
    void keep(const Sentence& s, Reading reading, bool rule);
    [[nodiscard]] std::optional<Reading> salt_reading(const Sentence& s, std::size_t amount) const;
    [[nodiscard]] std::optional<Ratio> whole_at(const Sentence& s, std::size_t at,
                                                Line& line) const;

    Tongue tongue_;
    const larder::Material* salt_;
    Account account_;
    bool conditional_ = false;
    bool spoke_of_salt_ = false;    ///< in this sentence or the one before
    bool part_salted_ = false;      ///< a sentence salts a part of the vegetables
    std::vector<std::size_t> used_; ///< amounts of this sentence that a row has taken
};

} // namespace jarful::appraise
