#include "engine/appraise/document.hpp"

#include "engine/appraise/line.hpp"
#include "engine/appraise/paragraphs.hpp"
#include "engine/appraise/sections.hpp"
#include "engine/appraise/shared.hpp"
#include "engine/appraise/text.hpp"
#include "engine/appraise/tongue.hpp"
#include "engine/larder/fold.hpp"

#include <algorithm>

namespace jarful::appraise {

using larder::Role;
using Unit = Measure::Sort;
using Tokens = std::span<const Token>;

namespace {

/// A vegetable's name and nothing else: more likely a thing of the list than its title.
bool bare_vegetable(std::string_view text) {
    const larder::Material* const material = larder::find_exact(larder::fold(text));
    return material != nullptr && material->role == Role::vegetable;
}

/// "any other vegetables you like"
bool leaves_choice(Tokens tokens) {
    return speaks_of(tokens, Concept::any_vegetable) && speaks_of(tokens, Concept::choice);
}

/// Sentences of a method line, as ranges of tokens.
std::vector<Tokens> sentences(Tokens tokens) {
    std::vector<Tokens> out;
    std::size_t begin = 0;
    for (std::size_t i = 0; i <= tokens.size(); ++i) {
        const bool stop =
            i == tokens.size() ||
            (tokens[i].sort == Token::Sort::mark &&
             (tokens[i].text == "." || tokens[i].text == "!" || tokens[i].text == ";") &&
             !(i > 0 && tokens[i - 1].is.any(Concept::about)) && // "ca. 20 g"
             (i + 1 >= tokens.size() || !tokens[i + 1].glued));
        if (!stop) continue;
        if (i > begin) out.push_back(tokens.subspan(begin, i - begin));
        begin = i + 1;
    }
    return out;
}

/// A mark between the things of a line.
bool joint(const Token& t) {
    return t.sort == Token::Sort::mark && std::string_view(",;.+&").find(t.text) < 5;
}

class Reader {
  public:
    Reader(std::string_view text, const larder::Material* salt)
        : salt_(salt) {
        plain_ = clean(text);
        doc_.tongue = tongue_of_text(plain_);
        doc_.unread = foreign(plain_);
        method_ = Method(doc_.tongue, salt_);
        // A list of one or two lines does not say its language; each line speaks for itself then.
    }

    Document run() {
        for (const Paragraph& paragraph : paragraphs_of(plain_)) {
            const std::string_view raw = paragraph.text;
            const std::size_t number = paragraph.number;
            if (trimmed(raw).empty()) {
                gap_ = true;
                continue;
            }
            // What is too long to be a line, or beyond the last that is read, is not passed over.
            if (raw.size() > longest_line || doc_.readings.size() >= most_lines) {
                Reading r;
                r.line.could_matter = true;
                r.line.notes.emplace_back(
                    raw.size() > longest_line
                        ? "This line is too long to be read: paste the list by itself."
                        : "The text goes on: only its first 5000 lines are read.");
                keep(std::move(r), number, beginning(raw, 60));
                if (doc_.readings.size() > most_lines) break;
                continue;
            }
            if (raw.find(unseen) != std::string_view::npos) {
                Reading r;
                r.line.could_matter = true;
                r.line.notes.emplace_back("It holds characters that are not seen, or that turn the "
                                          "direction of writing: type the line anew.");
                keep(std::move(r), number, made_visible(raw));
                continue;
            }
            if (paragraph.prose)
                method(number, trimmed(raw));
            else
                read(raw, number);
            gap_ = false;
        }
        settle_title();
        settle_strangers();
        bound_strangers();
        for (const Token& t : tokens_of(doc_.title))
            doc_.title_says = doc_.title_says | t.is;
        doc_.account = method_.account();
        doc_.rinsed = doc_.rinsed || doc_.account.rinsed;
        doc_.account.salt.insert(doc_.account.salt.end(), beside_.begin(), beside_.end());
        return std::move(doc_);
    }

  private:
    static constexpr std::size_t longest_line = 20000;
    static constexpr std::size_t most_lines = 5000;

    void keep(Reading reading, std::size_t number, std::string_view text) {
        // A remark may be a deed: "Rinse well", by itself on a line.
        if (reading.line.sort == LineSort::method || reading.line.sort == LineSort::remark ||
            reading.line.sort == LineSort::unknown) {
            const std::vector<Token> tokens = tokens_of(text);
            for (const Tokens sentence : sentences(tokens))
                method_.read(sentence, numbers(), reading.line.sort != LineSort::unknown);
        }
        reading.line.number = number;
        reading.line.text = std::string(beginning(text, 2000));
        doc_.readings.push_back(std::move(reading));
        doc_.sections.push_back(section_);
        gaps_.push_back(gap_);
    }

    [[nodiscard]] Numbers numbers() const { return numbers_in(doc_.tongue); }

    void keep_as(LineSort sort, std::size_t number, std::string_view text) {
        Reading r;
        r.line.sort = sort;
        r.line.understood = true;
        keep(std::move(r), number, text);
    }

    void method(std::size_t number, std::string_view text) {
        ++doc_.method_lines;
        keep_as(LineSort::method, number, text);
    }

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

    void read(std::string_view raw, std::size_t number) {
        Seen s;
        s.number = number;
        s.markdown = trimmed(raw).starts_with("# ") || trimmed(raw).starts_with("##");
        s.text = trimmed(raw);
        while (s.markdown && s.text.starts_with('#'))
            s.text.remove_prefix(1);
        s.text = without_bullet(s.text);
        if (s.text.empty()) return;
        s.tokens = tokens_of(s.text);
        take_words(s);
        s.words = count_words(s.tokens);
        s.has_number = has_number(s.tokens);
        s.colon = s.text.ends_with(':');
        if (s.words == 0 && !s.has_number) return;
        s.dish = !s.has_number && s.words <= 12 && names_dish(s.text, s.tokens);
        // "Kimchi without soaking", "How to make sauerkraut": what names the dish at the very top
        // is its title, whatever section its words would open.
        const bool first_line = doc_.title.empty() && doc_.readings.empty();
        const bool named_dish = s.dish && !bare_vegetable(s.text);
        if (first_line && named_dish && !s.colon) return title(s);
        if (first_line && names_no_food(s)) return title(s);
        if (heading(s)) return;
        if (first_line && !s.has_number && s.words <= 12 &&
            (named_dish ||
             (item_of(s.tokens, doc_.tongue).material == nullptr && !leaves_choice(s.tokens))))
            return title(s);
        if (section_ == Section::equipment) return keep_as(LineSort::remark, number, s.text);
        if (section_ == Section::main && s.words > 12 && run_on(s, 3)) return;
        if (section_ == Section::method || section_ == Section::notes || prose(s))
            return method(number, s.text);
        // "Take 25 g of salt per kilo.": a sentence, however short.
        if (s.text.ends_with('.') && names_rule(s.tokens, numbers(), doc_.tongue))
            return method(number, s.text);
        thing(s);
    }

    /// "Mixed vegetables" at the very top: no single food, and no amount of it.
    [[nodiscard]] bool names_no_food(const Seen& s) const {
        if (s.has_number || s.words > 3 || s.colon || leaves_choice(s.tokens)) return false;
        const larder::Material* const m = item_of(s.tokens, doc_.tongue).material;
        return m != nullptr && m->id == "mixed-vegetables";
    }

    /// What the whole text says, for whoever asks later.
    void take_words(const Seen& s) {
        for (const Token& t : s.tokens)
            doc_.says = doc_.says | t.is;
        // Only these words mean another thing in another language.
        if (speaks_of(s.tokens, Concept::oven))
            doc_.cooks = doc_.cooks ||
                         speaks_of(tokens_of(s.text, {doc_.tongue ? doc_.tongue : base_tongue()}),
                                   Concept::oven);
        doc_.unsoaked = doc_.unsoaked || denies_bath(s.tokens);
    }

    void title(const Seen& s) {
        doc_.title = std::string(s.text);
        keep_as(LineSort::heading, s.number, s.text);
    }

    /// Opens a section, if the line is a heading.
    bool heading(const Seen& s) {
        if ((!s.markdown && !s.colon && s.words > 5) || s.has_number || s.words > 8) return false;
        // "Discard half of the brine" is a deed, wherever it stands.
        if (!s.colon && !s.markdown && s.words > 2 &&
            means(s.tokens, 0, {Concept::discard, Concept::drain, Concept::pour, Concept::keep}))
            return false;
        Section section = section_;
        const bool named = heading_section(s.tokens, section) &&
                           !(section == Section::soak && denies_bath(s.tokens));
        const Item item = item_of(s.tokens, doc_.tongue);
        // "any other vegetables you like" go in the jar.
        const bool is_thing =
            (item.material != nullptr || leaves_choice(s.tokens)) && !s.colon && !s.markdown;
        if ((!named || is_thing) && !s.colon && !s.markdown) return false;
        if (named)
            section_ = section;
        else if (s.colon)
            section_ = Section::main;
        if (s.markdown && doc_.title.empty() && !named) doc_.title = std::string(s.text);
        keep_as(LineSort::heading, s.number, s.text);
        return true;
    }

    /// Whether a line is a sentence and no thing of a list.
    [[nodiscard]] bool prose(const Seen& s) const {
        const auto opening = quantity_at(s.tokens, 0, {});
        const bool sentence =
            s.text.ends_with('.') && (s.words >= 8 || (s.words >= 3 && !s.has_number));
        // A thing of the list may have a long story.
        const bool weighed =
            opening && (opening->quantity.is(Unit::mass) || opening->quantity.is(Unit::volume));
        if (s.words > 28) return !weighed;
        if ((opening && opening->quantity.measure != nullptr) ||
            s.tokens.front().sort == Token::Sort::number)
            return false;
        const bool first_verb = means(s.tokens, 0, Concept::opens_method) && !open_salt(s.tokens) &&
                                !(means(s.tokens, 0, Concept::the) && leaves_choice(s.tokens));
        if (!(first_verb && s.words >= 3) && !sentence && s.words <= 16) return false;
        const bool fresh_list = s.words <= 10 && !sentence && first_verb && s.has_number &&
                                speaks_of(s.tokens, Concept::purpose);
        return !fresh_list;
    }

    /// A thing of the list, or what is not understood and may be one.
    void thing(const Seen& s) {
        const auto opening = quantity_at(s.tokens, 0, {});
        const bool opens_with_amount = opening && opening->quantity.measure != nullptr;
        if (!opens_with_amount && remark(s.tokens))
            return keep_as(LineSort::remark, s.number, s.text);
        if (shared(s.tokens, s.number, s.text)) return;
        // "6 juniper berries 400 g cauliflower" are two things, and not six cauliflowers of 400 g.
        if (run_on(s, 2, true)) return;
        Reading r = ingredient(s.text, doc_.tongue, salt_);
        if (!r.line.understood) {
            if (r.line.notes.empty() && leaves_choice(s.tokens))
                r.line.notes.emplace_back("Which of them go in, and how much, is left open.");
            if (!r.doubt.empty()) return keep(std::move(r), s.number, s.text);
            if (equipment(s.tokens) || remark(s.tokens) || names_equipment(s.tokens, numbers()))
                return keep_as(LineSort::remark, s.number, s.text);
            if (headed(s.number, s.text) || several(s.tokens, s.number, s.text) || run_on(s, 2))
                return;
            return keep(std::move(r), s.number, s.text);
        }
        if (!r.amount && s.dish && r.item.material->role == Role::seasoning)
            return keep_as(LineSort::heading, s.number, s.text);
        if (r.amount && r.amount->is(Unit::package) && r.weights.empty() && equipment(s.tokens))
            return keep_as(LineSort::remark, s.number, s.text);
        leave_out(r, s.tokens);
        keep_salt(std::move(r), s.number, s.text);
    }

    /// Takes the rate that stands beside a line's salt; false if it cannot be read.
    bool rate_beside(const Reading& line) {
        SaltInMethod one;
        one.text = line.line.text;
        one.of_line = one.rule = true;
        one.reading =
            ingredient(line.rate_beside->amount + " " + std::string(line.item.material->name) +
                           " " + line.rate_beside->of,
                       doc_.tongue, salt_);
        if (!one.reading.line.understood || one.reading.line.role != Role::salt ||
            !one.reading.ratio)
            return false;
        beside_.push_back(std::move(one));
        return true;
    }

    /// Keeps a line; where a rate stands beside its salt, that has to agree.
    void keep_salt(Reading r, std::size_t number, std::string_view text) {
        if (r.rate_beside && !r.line.left_out && r.line.role == Role::salt && !rate_beside(r)) {
            r.line.could_matter = true;
            r.line.understood = false;
            r.line.notes.emplace_back("A rate or percentage stands beside the amount: whether they "
                                      "agree cannot be told.");
        }
        keep(std::move(r), number, text);
    }

    /// "Salt to taste", "Salt as needed": a thing of the list, where "Salt the cabbage" is a deed.
    [[nodiscard]] bool open_salt(Tokens tokens) const {
        if (!means(tokens, 0, Concept::salt)) return false;
        const Item item = item_of(tokens, doc_.tongue);
        return item.material != nullptr && item.material->role == Role::salt &&
               count_words(tokens) <= 8 &&
               !speaks_of(tokens, {Concept::the, Concept::pronoun, Concept::loosely});
    }

    /// "Brine: 1 L water + 35 g salt": a heading with its list on the same line.
    bool headed(std::size_t number, std::string_view text) {
        const std::size_t mark = text.find(": ");
        if (mark > 40) return false; // npos, too
        const std::string_view head = text.substr(0, mark);
        Section section = section_;
        const std::vector<Token> head_tokens = tokens_of(head);
        if (has_number(head_tokens) || !heading_section(head_tokens, section) ||
            section == Section::method || section == Section::notes ||
            section == Section::equipment)
            return false;
        const std::string_view rest = trimmed(text.substr(mark + 2));
        const std::vector<Token> tokens = tokens_of(rest);
        std::swap(section, section_);
        Reading r = ingredient(rest, doc_.tongue, salt_);
        bool read = r.line.understood && r.amount.has_value();
        if (read) {
            leave_out(r, tokens);
            keep(std::move(r), number, rest);
        } else {
            read = several(tokens, number, rest);
        }
        section_ = section;
        return read;
    }

    /// "1 kg cabbage, 20 g salt": a line of several things, if each part is understood by itself.
    bool several(Tokens tokens, std::size_t number, std::string_view text) {
        std::vector<std::string_view> pieces;
        std::size_t begin = 0;
        for (std::size_t i = 1; i + 1 < tokens.size(); ++i) {
            const bool mark = is_mark(tokens, i, ",") || is_mark(tokens, i, "+") ||
                              is_mark(tokens, i, "&") || is_mark(tokens, i, ";");
            if (!mark && !means(tokens, i, Concept::sum)) continue;
            if (tokens[i + 1].sort != Token::Sort::number) continue;
            const auto q = quantity_at(tokens, i + 1, {}, false);
            if (!q || q->quantity.measure == nullptr || i + 1 + q->tokens >= tokens.size())
                continue;
            if (tokens[i + 1 + q->tokens].sort != Token::Sort::word) continue;
            const auto at = static_cast<std::size_t>(tokens[i].text.data() - text.data());
            pieces.push_back(trimmed(text.substr(begin, at - begin)));
            begin = at + tokens[i].text.size();
        }
        if (pieces.empty() || pieces.size() > 12) return false;
        pieces.push_back(trimmed(text.substr(begin)));
        std::vector<Reading> parts;
        for (const std::string_view piece : pieces) {
            Reading r = ingredient(piece, doc_.tongue, salt_);
            if (!r.line.understood || !r.amount) return false;
            parts.push_back(std::move(r));
        }
        const bool brine =
            std::all_of(parts.begin(), parts.end(),
                        [](const Reading& r) { return r.line.role != Role::vegetable; }) &&
            std::any_of(parts.begin(), parts.end(),
                        [](const Reading& r) { return r.line.role == Role::water; }) &&
            std::any_of(parts.begin(), parts.end(),
                        [](const Reading& r) { return r.line.role == Role::salt; });
        for (std::size_t i = 0; i < parts.size(); ++i) {
            leave_out(parts[i], tokens, brine);
            keep(std::move(parts[i]), number, pieces[i]);
        }
        return true;
    }

    /// A line of several things without a mark between them, if enough of them are understood.
    /// Whether nothing stands between the things of a line, nor a heading before them.
    static bool run_together(Tokens tokens, const std::vector<std::size_t>& first) {
        if (std::any_of(tokens.begin(), tokens.end(), [](const Token& t) {
                return t.sort == Token::Sort::mark && t.text == ":";
            }))
            return false;
        return std::all_of(first.begin() + 1, first.end(), [&](std::size_t at) {
            const Token& before = tokens[at - 1];
            return before.sort == Token::Sort::word && !before.is.any(Concept::sum);
        });
    }

    static bool all_different(const std::vector<Reading>& parts) {
        for (std::size_t i = 0; i < parts.size(); ++i) {
            if (!parts[i].line.understood || !parts[i].amount) return false;
            for (std::size_t j = 0; j < i; ++j)
                if (parts[i].line.material == parts[j].line.material) return false;
        }
        return true;
    }

    /// @param certain only if every part is understood, and each is another thing
    bool run_on(const Seen& s, std::size_t least, bool certain = false) {
        std::string_view text = s.text;
        // "Ingredients: 2 lb beans …"
        const std::size_t mark = text.find(": ");
        if (mark < 24 && !has_number(tokens_of(text.substr(0, mark))))
            text = trimmed(text.substr(mark + 2));
        const std::vector<Token> tokens = tokens_of(text);
        const std::vector<std::size_t> first = beginnings_of_things(tokens, numbers());
        if (first.size() < least || first.front() != 0 || first.size() > 30) return false;
        if (certain && !run_together(tokens, first)) return false;
        std::vector<Reading> parts;
        std::vector<std::string_view> texts;
        std::size_t read = 0;
        for (std::size_t i = 0; i < first.size(); ++i) {
            const auto at = [&](std::size_t token) {
                return static_cast<std::size_t>(tokens[token].text.data() - text.data());
            };
            const std::size_t begin = at(first[i]);
            // Up to the next, without the mark or word that joins them.
            std::size_t last = i + 1 < first.size() ? first[i + 1] : tokens.size();
            while (last > first[i] + 1 &&
                   (means(tokens, last - 1, Concept::sum) || joint(tokens[last - 1])))
                --last;
            const std::size_t end = at(last - 1) + tokens[last - 1].text.size();
            const std::string_view piece = text.substr(begin, end - begin);
            Reading r = ingredient(piece, doc_.tongue, salt_);
            read += r.line.understood ? 1 : 0;
            parts.push_back(std::move(r));
            texts.push_back(piece);
        }
        if (read < least || read * 10 < first.size() * 6) return false;
        if (certain && !all_different(parts)) return false;
        for (std::size_t i = 0; i < parts.size(); ++i) {
            const std::vector<Token> piece = tokens_of(texts[i]);
            if (parts[i].line.understood) leave_out(parts[i], piece);
            keep(std::move(parts[i]), s.number, texts[i]);
        }
        return true;
    }

    /// "500 g each cabbage and carrots": each by itself, if all of them are understood.
    bool shared(Tokens tokens, std::size_t number, std::string_view text) {
        const Shared shared = shared_amount(tokens, doc_.tongue);
        if (!shared.each) return false;
        std::vector<Reading> parts;
        for (const std::string& line : shared.lines)
            parts.push_back(ingredient(line, doc_.tongue, salt_));
        if (parts.empty() || !std::all_of(parts.begin(), parts.end(),
                                          [](const Reading& r) { return r.line.understood; })) {
            Reading r;
            r.line.could_matter = true;
            r.line.notes.emplace_back("So much of each of several things, not all of which are "
                                      "understood.");
            keep(std::move(r), number, text);
            return true;
        }
        for (Reading& part : parts) {
            leave_out(part, tokens);
            keep(std::move(part), number, text);
        }
        return true;
    }

    /// What is bought or used but does not stay in the jar.
    /// @param whole of the line that this is a part of: a brine that is poured only if it is needed
    void leave_out(Reading& r, Tokens tokens, bool spare_brine = false) {
        // "1 L water, plus more for rinsing": the amount itself stays in.
        if (r.amount) tokens = tokens.first(end_of_amount(tokens));
        const bool shared = shares_use(tokens);
        const bool serve =
            section_ == Section::serving || (speaks_of(tokens, Concept::use_serving) && !shared);
        const bool soak = section_ == Section::soak ||
                          (speaks_of(tokens, Concept::use_bath) && !denies_bath(tokens) && !shared);
        const bool spare = (only_if_needed(tokens) || shared) && !r.open;
        const bool top =
            section_ == Section::top_up || (spare && !shared && (spare_brine || r.ratio));
        if (serve) r.line.notes.emplace_back("For serving: no part of the jar.");
        if (soak && !serve) r.line.notes.emplace_back("For a bath that is poured off again.");
        if (top && !serve && !soak) r.line.notes.emplace_back("Only if it is needed: not counted.");
        r.line.left_out = serve || soak || top;
        if (soak && r.line.role == Role::salt) doc_.rinsed = true;
        // Water or salt by itself changes the brine that is there: from none to all of it.
        if (!spare || r.line.left_out) return;
        r.spare = r.line.role == Role::water;
        if (r.line.grams) r.line.grams = units::Interval{0.0, r.line.grams->high};
        r.line.notes.emplace_back(
            shared ? "For the jar and for something else: from none to all of it."
                   : "Only if it is needed: from none to all of it.");
    }

    /// "Garden beets" above a list that weighs the beets is its title. A vegetable that no other
    /// line weighs stays one.
    void settle_title() {
        if (doc_.readings.size() < 3 || !doc_.title.empty()) return;
        Reading& first = doc_.readings.front();
        if (first.line.sort != LineSort::ingredient || first.amount || !first.item.material ||
            first.cover)
            return;
        const Role role = first.item.material->role;
        if (role != Role::vegetable && role != Role::aromatic && role != Role::other) return;
        // "Cabbage, shredded" may be the thing itself; "Garden dills, as a neighbour has them"
        // above an empty line is not.
        const bool apart = gaps_[1] && role != Role::vegetable;
        if (!apart && first.line.text.find(',') != std::string::npos) return;
        const std::string word = larder::singular(larder::fold(first.item.words));
        const std::string name = larder::fold(first.item.material->name);
        const bool again =
            std::any_of(doc_.readings.begin() + 1, doc_.readings.end(), [&](const Reading& r) {
                if (!r.amount || r.line.sort != LineSort::ingredient || !r.item.material)
                    return false;
                // "Cucumbers" and "Dill cucumbers" above "2 kg pickling cucumbers", too.
                const std::string words = larder::fold(r.item.words);
                const auto within = [&](const std::string& one) {
                    return one.size() > 3 && words.find(one) != std::string::npos;
                };
                return r.item.material == first.item.material ||
                       (r.item.material->role == role && (within(word) || within(name)));
            });
        const bool by_itself =
            gaps_[1] && (role != Role::vegetable || larder::find_kind(first.line.text) != nullptr);
        if (!again && !by_itself) return;
        doc_.title = first.line.text;
        const Line old = first.line;
        first = Reading{};
        first.line.number = old.number;
        first.line.text = old.text;
        first.line.sort = LineSort::heading;
        first.line.understood = true;
    }

    /// A line without a number that is not known may be prose or a thing; among ingredients it is
    /// taken for a thing.
    void settle_strangers() {
        const auto is_thing = [&](std::size_t i) {
            return i < doc_.readings.size() && doc_.readings[i].line.sort == LineSort::ingredient;
        };
        for (std::size_t i = 0; i < doc_.readings.size(); ++i) {
            Reading& r = doc_.readings[i];
            if (r.line.understood || r.amount || r.item.salty_words || r.left_over ||
                !r.line.notes.empty())
                continue;
            const bool beside = (i > 0 && is_thing(i - 1) && !gaps_[i]) ||
                                (is_thing(i + 1) && i + 1 < gaps_.size() && !gaps_[i + 1]);
            if (!beside) {
                r.line.could_matter = false;
                r.line.sort = LineSort::remark;
            }
        }
    }

    /// What lines that are not understood may bring at most.
    void bound_strangers() {
        for (Reading& r : doc_.readings) {
            if (!r.line.could_matter) continue;
            if (r.line.text.size() >= 2000 || r.line.notes.size() > 8) {
                r.bounds = {endless, endless, endless, true};
                continue;
            }
            const std::string plain = clean(r.line.text);
            r.bounds = bounds_of(tokens_of(plain), numbers());
        }
    }

    std::string plain_;
    const larder::Material* salt_;
    Document doc_;
    std::vector<bool> gaps_;
    Section section_ = Section::main;
    bool gap_ = true;
    Method method_{nullptr, nullptr};
    std::vector<SaltInMethod> beside_; ///< rates in parentheses on lines of salt
};

} // namespace

Document read_document(std::string_view text, const larder::Material* salt) {
    return Reader(text, salt).run();
}

} // namespace jarful::appraise
