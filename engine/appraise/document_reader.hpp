#pragma once

#include "engine/appraise/document.hpp"
#include "engine/appraise/line.hpp"
#include "engine/appraise/paragraphs.hpp"
#include "engine/appraise/tongue.hpp"

#include <list>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// Takes a pasted text apart, line by line. For document.cpp and things.cpp only.
namespace jarful::appraise {

using Tokens = std::span<const Token>;

/// "any other vegetables you like"
[[nodiscard]] bool leaves_choice(Tokens tokens);

class Reader {
  public:
    Reader(std::string_view text, const larder::Material* salt);

    Document run();

  private:
    static constexpr std::size_t longest_line = 20000;
    static constexpr std::size_t most_lines = 5000;

    /// "500 g" on one line and "Cabbage" on the next, twice at least: one thing each.
    void join_amounts(std::vector<Paragraph>& paragraphs);

    /// What can be said of lines only when all of them are read.
    void settle();

    void keep(Reading reading, std::size_t number, std::string_view text);

    [[nodiscard]] Numbers numbers() const { return numbers_in(doc_.tongue); }

    void keep_as(LineSort sort, std::size_t number, std::string_view text);

    void method(std::size_t number, std::string_view text);

    /// A line, and what is plain to see of it.
    struct Seen {
        std::size_t number = 0;
        std::string_view text; ///< without a bullet
        std::vector<Token> tokens;
        std::size_t words = 0;
        bool markdown = false; ///< a heading by its mark
        bool colon = false;
        bool has_number = false;
        bool dish = false;
    };

    void read(std::string_view raw, std::size_t number);

    /// "Mixed vegetables" at the very top: no single food, and no amount of it.
    [[nodiscard]] bool names_no_food(const Seen& s) const;

    /// The first line by itself, without an amount, where more follows: a title, though it names
    /// vegetables: "Cabbage and beet, grated and salted".
    [[nodiscard]] bool stands_apart(const Seen& s) const;

    /// "Recipe for 4 jars of 500 g"
    [[nodiscard]] bool tells_yield(const Seen& s) const;

    /// "2 x 1 L flip-top jars or larger": of a vessel, and of nothing in it.
    [[nodiscard]] bool names_vessel(const Seen& s) const;

    /// "Tip 1: Tea keeps them crisp."
    [[nodiscard]] static bool labelled_note(const Seen& s);

    /// At the heading "Ingredients": what stands above is no part of the list, unless a thing with
    /// an amount is among it.
    void forget_above();

    /// "What goes in", "Vegetables" between an empty line and a thing with its amount.
    [[nodiscard]] bool heads_a_list(const Seen& s) const;

    /// "Mash notes, year 3", "Kraut, est. 1931" above an empty line: a number, and no amount.
    [[nodiscard]] bool numbered_title(const Seen& s) const;

    /// What the whole text says, for whoever asks later.
    void take_words(const Seen& s);

    void title(const Seen& s);

    /// Opens a section, if the line is a heading.
    bool heading(const Seen& s);

    /// "Ingredients (for one jar of 2 litres)": what opens a section, and a remark.
    bool headed_aside(const Seen& s);

    /// "1 - mince the pods"
    [[nodiscard]] static bool numbered_step(const Seen& s);

    /// Whether a line is a sentence and no thing of a list.
    [[nodiscard]] bool prose(const Seen& s) const;

    /// A thing of the list, or what is not understood and may be one.
    void thing(const Seen& s);

    /// Takes the rate that stands beside a line's salt; false if it cannot be read.
    bool rate_beside(const Reading& line);

    /// Keeps a line; where a rate stands beside its salt, that has to agree.
    void keep_salt(Reading r, std::size_t number, std::string_view text);

    /// "Salt to taste", "Salt as needed": a thing of the list, where "Salt the cabbage" is a deed.
    [[nodiscard]] bool open_salt(Tokens tokens) const;

    /// "Brine: 1 L water + 35 g salt": a heading with its list on the same line.
    bool headed(std::size_t number, std::string_view text);

    /// "1 kg cabbage, 20 g salt": a line of several things, if each part is understood by itself.
    bool several(Tokens tokens, std::size_t number, std::string_view text);

    static std::size_t amounts_in(Tokens tokens);

    /// "Cabbage 2200 g, salt 53 g", "Beans, 500 g. Water, 600 ml. Salt, 31 g.", "dill, garlic, 2
    /// bay leaves": things one behind the other, each of which is understood by itself.
    /// @param amounts how many of them have one at least
    bool in_one_line(const Seen& s, std::size_t amounts);

    /// Keeps each of the things, if all are understood and so many have an amount.
    bool keep_all(std::size_t number, const std::vector<std::string_view>& texts,
                  std::size_t least);

    /// Whether nothing stands between the things of a line, nor a heading before them.
    static bool run_together(Tokens tokens, const std::vector<std::size_t>& first);

    static bool all_different(const std::vector<Reading>& parts);

    /// A line of several things without a mark between them, if enough of them are understood.
    /// @param certain only if every part is understood, and each is another thing
    bool run_on(const Seen& s, std::size_t least, bool certain = false);

    /// "500 g each cabbage and carrots": each by itself, if all of them are understood.
    bool shared(Tokens tokens, std::size_t number, std::string_view text);

    /// What is bought or used but does not stay in the jar.
    /// @param whole of the line that this is a part of: a brine that is poured only if it is needed
    void leave_out(Reading& r, Tokens tokens, bool spare_brine = false);

    /// "Garden beets" above a list that weighs the beets is its title. A vegetable that no other
    /// line weighs stays one.
    void settle_title();

    /// A line without a number that is not known may be prose or a thing; among ingredients it is
    /// taken for a thing.
    void settle_strangers();

    /// What lines that are not understood may bring at most.
    void bound_strangers();

    std::string plain_;
    std::list<std::string> joined_; ///< lines made of two
    Languages heard_;               ///< the text's own language, where that is plain
    const larder::Material* salt_;
    Document doc_;
    std::vector<bool> gaps_;
    Section section_ = Section::main;
    bool gap_ = true;
    bool gap_behind_ = false;     ///< an empty line follows
    bool amount_follows_ = false; ///< the next line has a number
    Method method_{nullptr, nullptr};
    std::vector<SaltInMethod> beside_; ///< rates in parentheses on lines of salt
};

} // namespace jarful::appraise
