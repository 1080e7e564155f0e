#include "engine/appraise/document.hpp"

#include "engine/appraise/line.hpp"
#include "engine/appraise/sections.hpp"
#include "engine/appraise/text.hpp"
#include "engine/larder/fold.hpp"

#include <algorithm>

namespace jarful::appraise {

using larder::Role;
using Unit = Measure::Sort;
using Tokens = std::span<const Token>;

bool Document::says(std::initializer_list<std::string_view> any_word) const {
    return std::any_of(any_word.begin(), any_word.end(),
                       [&](std::string_view w) { return words.contains(std::string(w)); });
}

namespace {

/// A vegetable's name and nothing else: more likely a thing of the list than its title.
bool bare_vegetable(std::string_view text) {
    const larder::Material* const material = larder::find_exact(larder::fold(text));
    return material != nullptr && material->role == Role::vegetable;
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
             (i + 1 >= tokens.size() || !tokens[i + 1].glued));
        if (!stop) continue;
        if (i > begin) out.push_back(tokens.subspan(begin, i - begin));
        begin = i + 1;
    }
    return out;
}

std::string text_of(Tokens tokens) {
    if (tokens.empty()) return {};
    const char* begin = tokens.front().text.data();
    const char* end = tokens.back().text.data() + tokens.back().text.size();
    return {begin, static_cast<std::size_t>(end - begin)};
}

/// Salt with an amount in a sentence of the method.
void scan_sentence(Document& doc, Tokens tokens, const larder::Material* salt, bool& salted) {
    const bool speaks = has(tokens, {"salt", "salts", "salz", "sel", "salted", "salting", "brine"});
    if (salted &&
        has(tokens, {"rinse", "rinsed", "rinsing", "abspulen", "rincer", "rincez", "desalt"}) &&
        !has(tokens, {"not", "don't", "dont", "without", "never", "jar", "jars", "weights", "hands",
                      "no"})) {
        doc.rinsed = true;
    }
    if (!speaks) return;
    salted = true;
    const bool conditional = has(tokens, {"if", "needed", "necessary", "bag", "plastic", "falls",
                                          "wenn", "si", "should", "topping"});
    const Numbers numbers{doc.tongue == Tongue::german || doc.tongue == Tongue::french,
                          doc.tongue != Tongue::unknown};
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        if (tokens[i].sort != Token::Sort::number) continue;
        const auto q = quantity_at(tokens, i, numbers, false);
        if (!q) continue;
        const std::size_t behind = i + q->tokens;
        const Quantity& quantity = q->quantity;
        const bool measured = quantity.is(Unit::mass) || quantity.is(Unit::volume) ||
                              quantity.is(Unit::percent) || quantity.is(Unit::loose);
        if (!measured) {
            i = behind - 1;
            continue;
        }
        // The words up to the next number or mark.
        std::size_t end = behind;
        while (end < tokens.size() && end < behind + 7 && tokens[end].sort == Token::Sort::word &&
               !among(tokens[end].folded, {"per", "for", "to", "into", "over", "in", "on", "and",
                                           "with", "pro", "par", "until", "at", "from"}))
            ++end;
        const Item item = item_of(tokens.subspan(behind, end - behind), doc.tongue);
        const bool brine =
            quantity.is(Unit::percent) && has(tokens.subspan(behind, end - behind), {"brine"});
        if (!brine && (item.material == nullptr || item.material->role != Role::salt)) {
            i = behind - 1;
            continue;
        }
        SaltInMethod found;
        found.text = text_of(tokens);
        found.conditional = conditional;
        // "for every 5 pounds use 3 tbsp salt", or behind it.
        std::size_t last = end;
        while (last < tokens.size() && last < end + 14)
            ++last;
        std::string words = text_of(tokens.subspan(i, last - i));
        if (const auto per = per_word(tokens.subspan(0, i), numbers)) {
            words = text_of(tokens.subspan(i, end - i)) + " " +
                    text_of(tokens.subspan(per->at, i - per->at));
        }
        if (const auto close = words.find(')'); close != std::string::npos) words.resize(close);
        found.reading = ingredient(words, doc.tongue, salt);
        // "100 g salt over the cabbage" is one of salt.
        if (!found.reading.line.understood || found.reading.line.role != Role::salt) {
            found.reading = ingredient(text_of(tokens.subspan(i, end - i)), doc.tongue, salt);
        }
        if (found.reading.line.understood && found.reading.line.role == Role::salt)
            doc.method_salt.push_back(std::move(found));
        i = end - 1;
    }
}

Tongue tongue_of_text(std::string_view text) {
    int votes[4] = {0, 0, 0, 0};
    for (const std::string_view line : lines_of(text.substr(0, 8000))) {
        for (const Token& t : tokens_of(line)) {
            if (t.sort == Token::Sort::word) ++votes[static_cast<int>(tongue_of_word(t.folded))];
            if (t.text == "EL" || t.text == "TL") votes[2] += 2;
        }
    }
    if (votes[2] > votes[1] && votes[2] > votes[3]) return Tongue::german;
    if (votes[3] > votes[1] && votes[3] > votes[2]) return Tongue::french;
    return votes[1] > 0 ? Tongue::english : Tongue::unknown;
}

class Reader {
  public:
    Reader(std::string_view text, const larder::Material* salt)
        : salt_(salt) {
        plain_ = clean(text);
        doc_.tongue = tongue_of_text(plain_);
        // A list of one or two lines does not say its language; each line speaks for itself then.
    }

    Document run() {
        std::size_t number = 0;
        for (const std::string_view raw : lines_of(plain_)) {
            ++number;
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
            read(raw, number);
            gap_ = false;
        }
        settle_title();
        settle_strangers();
        return std::move(doc_);
    }

  private:
    static constexpr std::size_t longest_line = 20000;
    static constexpr std::size_t most_lines = 5000;

    void keep(Reading reading, std::size_t number, std::string_view text) {
        reading.line.number = number;
        reading.line.text = std::string(beginning(text, 2000));
        doc_.readings.push_back(std::move(reading));
        doc_.sections.push_back(section_);
        gaps_.push_back(gap_);
    }

    void keep_as(LineSort sort, std::size_t number, std::string_view text) {
        Reading r;
        r.line.sort = sort;
        r.line.understood = true;
        keep(std::move(r), number, text);
    }

    void method(Tokens tokens, std::size_t number, std::string_view text) {
        ++doc_.method_lines;
        for (const Tokens sentence : sentences(tokens))
            scan_sentence(doc_, sentence, salt_, salted_);
        keep_as(LineSort::method, number, text);
    }

    void read(std::string_view raw, std::size_t number) {
        const bool markdown = trimmed(raw).starts_with("# ") || trimmed(raw).starts_with("##");
        std::string_view text = trimmed(raw);
        while (markdown && text.starts_with('#'))
            text.remove_prefix(1);
        text = without_bullet(text);
        if (text.empty()) return;
        const std::vector<Token> tokens = tokens_of(text);
        if (doc_.folded.size() < 200000) {
            doc_.folded += larder::fold(text);
            doc_.folded += " \n ";
        }
        for (const Token& t : tokens) {
            if (t.sort == Token::Sort::word) doc_.words.insert(t.folded);
        }
        doc_.unsoaked = doc_.unsoaked || denies_bath(tokens);
        const std::size_t words = count_words(tokens);
        const bool number_in_it = has_number(tokens);
        const bool colon = text.ends_with(':');
        if (words == 0 && !number_in_it) return;

        const bool dish = !number_in_it && words <= 12 && names_dish(text, tokens);
        // "Kimchi without soaking", "How to make sauerkraut": what names the dish at the very top
        // is its title, whatever section its words would open.
        const bool first_line = doc_.title.empty() && doc_.readings.empty();
        if (first_line && dish && !colon && !bare_vegetable(text)) {
            doc_.title = std::string(text);
            keep_as(LineSort::heading, number, text);
            return;
        }
        // Headings.
        Section section = section_;
        if ((markdown || colon || words <= 5) && !number_in_it && words <= 8) {
            const std::string folded = larder::fold(text);
            const bool named = heading_section(folded, section) &&
                               !(section == Section::soak && denies_bath(tokens));
            const Item item = item_of(tokens, doc_.tongue);
            const bool thing = item.material != nullptr && !colon && !markdown;
            if ((named && !thing) || colon || markdown) {
                if (named)
                    section_ = section;
                else if (colon)
                    section_ = Section::main;
                if (markdown && doc_.title.empty() && !named) doc_.title = std::string(text);
                keep_as(LineSort::heading, number, text);
                return;
            }
        }
        if (first_line && !number_in_it && words <= 12 &&
            ((dish && !bare_vegetable(text)) || item_of(tokens, doc_.tongue).material == nullptr)) {
            doc_.title = std::string(text);
            keep_as(LineSort::heading, number, text);
            return;
        }
        if (section_ == Section::equipment) {
            keep_as(LineSort::remark, number, text);
            return;
        }
        if (section_ == Section::method || section_ == Section::notes) {
            method(tokens, number, text);
            return;
        }
        const auto opening = quantity_at(tokens, 0, {});
        const bool opens_with_amount = opening && opening->quantity.measure != nullptr;
        const bool starts_number = tokens.front().sort == Token::Sort::number;
        const bool sentence = text.ends_with('.') && (words >= 8 || (words >= 3 && !number_in_it));
        const bool first_verb = tokens.front().sort == Token::Sort::word &&
                                verb(tokens.front().folded) && !open_salt(tokens);
        if (words > 28 || (!opens_with_amount && !starts_number &&
                           ((first_verb && words >= 3) || sentence || words > 16))) {
            const bool fresh_list =
                words <= 10 && !sentence && first_verb && number_in_it && has(tokens, {"for"});
            if (!fresh_list) {
                method(tokens, number, text);
                return;
            }
        }
        if (!opens_with_amount && remark(tokens)) {
            keep_as(LineSort::remark, number, text);
            return;
        }
        Reading r = ingredient(text, doc_.tongue, salt_);
        if (!r.line.understood) {
            if (equipment(tokens)) {
                keep_as(LineSort::remark, number, text);
                return;
            }
            if (remark(tokens)) {
                keep_as(LineSort::remark, number, text);
                return;
            }
            if (headed(number, text)) return;
            if (several(tokens, number, text)) return;
            keep(std::move(r), number, text);
            return;
        }
        if (!r.amount && dish && r.item.material->role == Role::seasoning) {
            keep_as(LineSort::heading, number, text);
            return;
        }
        if (r.amount && r.amount->is(Unit::package) && r.weights.empty() && equipment(tokens)) {
            keep_as(LineSort::remark, number, text);
            return;
        }
        leave_out(r, tokens);
        keep(std::move(r), number, text);
    }

    /// "Salt to taste", "Salt as needed": a thing of the list, where "Salt the cabbage" is a deed.
    [[nodiscard]] bool open_salt(Tokens tokens) const {
        if (tokens.empty() || tokens.front().folded != "salt") return false;
        const Item item = item_of(tokens, doc_.tongue);
        return item.material != nullptr && item.material->role == Role::salt &&
               count_words(tokens) <= 8 && !has(tokens, {"the", "them", "it", "lightly", "well"});
    }

    /// "Brine: 1 L water + 35 g salt": a heading with its list on the same line.
    bool headed(std::size_t number, std::string_view text) {
        const std::size_t mark = text.find(": ");
        if (mark > 40) return false; // npos, too
        const std::string_view head = text.substr(0, mark);
        Section section = section_;
        if (has_number(tokens_of(head)) || !heading_section(larder::fold(head), section) ||
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
            const bool mark =
                tokens[i].sort == Token::Sort::mark && among(tokens[i].text, {",", "+", "&", ";"});
            const bool word = tokens[i].sort == Token::Sort::word &&
                              among(tokens[i].folded, {"and", "plus", "und", "et"});
            if (!mark && !word) continue;
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

    /// What is bought or used but does not stay in the jar.
    /// @param whole of the line that this is a part of: a brine that is poured only if it is needed
    void leave_out(Reading& r, Tokens tokens, bool spare_brine = false) {
        // "1 L water, plus more for rinsing": the amount itself stays in.
        if (r.amount) tokens = tokens.first(end_of_amount(tokens));
        const bool serve = section_ == Section::serving ||
                           has(tokens, {"serving", "garnish", "serve", "garnishing", "garnieren"});
        const bool soak =
            section_ == Section::soak ||
            (has(tokens, {"soaking", "rinsing", "blanching", "washing", "soak", "sterilizing"}) &&
             !denies_bath(tokens));
        const bool spare = only_if_needed(tokens) && !r.open;
        const bool top = section_ == Section::top_up || (spare && (spare_brine || r.ratio));
        if (serve) r.line.notes.emplace_back("For serving: no part of the jar.");
        if (soak && !serve) r.line.notes.emplace_back("For a bath that is poured off again.");
        if (top && !serve && !soak) r.line.notes.emplace_back("Only if it is needed: not counted.");
        r.line.left_out = serve || soak || top;
        if (soak && r.line.role == Role::salt) doc_.rinsed = true;
        // Water or salt by itself changes the brine that is there: from none to all of it.
        if (!spare || r.line.left_out) return;
        r.spare = r.line.role == Role::water;
        if (r.line.grams) r.line.grams = units::Interval{0.0, r.line.grams->high};
        r.line.notes.emplace_back("Only if it is needed: from none to all of it.");
    }

    /// "Garden beets" above a list that weighs the beets is its title. A vegetable that no other
    /// line weighs stays one.
    void settle_title() {
        if (doc_.readings.size() < 3 || !doc_.title.empty()) return;
        Reading& first = doc_.readings.front();
        if (first.line.sort != LineSort::ingredient || first.amount || !first.item.material ||
            first.cover || first.line.text.find(',') != std::string::npos)
            return;
        const Role role = first.item.material->role;
        if (role != Role::vegetable && role != Role::aromatic && role != Role::other) return;
        const std::string word = larder::singular(larder::fold(first.item.words));
        const bool again =
            std::any_of(doc_.readings.begin() + 1, doc_.readings.end(), [&](const Reading& r) {
                if (!r.amount || r.line.sort != LineSort::ingredient || !r.item.material)
                    return false;
                // "Cucumbers" above "2 kg pickling cucumbers", too.
                return r.item.material == first.item.material ||
                       (word.size() > 3 && r.item.material->role == role &&
                        larder::fold(r.item.words).find(word) != std::string::npos);
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

    std::string plain_;
    const larder::Material* salt_;
    Document doc_;
    std::vector<bool> gaps_;
    Section section_ = Section::main;
    bool gap_ = true;
    bool salted_ = false;
};

} // namespace

Document read_document(std::string_view text, const larder::Material* salt) {
    return Reader(text, salt).run();
}

} // namespace jarful::appraise
