#include "engine/appraise/document_reader.hpp"
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

namespace {

/// A vegetable's name and nothing else: more likely a thing of the list than its title.
bool bare_vegetable(std::string_view text) {
    const larder::Material* const material = larder::find_exact(larder::fold(text));
    return material != nullptr && material->role == Role::vegetable;
}

/// Whether a point stands behind a shortened word: "ca. 20 g", "2 tbsp. of salt".
bool shortened(Tokens tokens, std::size_t at) {
    if (at == 0 || tokens[at].text != ".") return false;
    if (tokens[at - 1].is.any(Concept::about)) return true;
    const bool goes_on = at + 1 < tokens.size() && tokens[at + 1].sort == Token::Sort::word &&
                         tokens[at + 1].text[0] >= 'a' && tokens[at + 1].text[0] <= 'z';
    return goes_on && measure_at(tokens, at - 1, true).has_value();
}

/// Sentences of a method line, as ranges of tokens.
std::vector<Tokens> sentences(Tokens tokens) {
    std::vector<Tokens> out;
    std::size_t begin = 0;
    for (std::size_t i = 0; i <= tokens.size(); ++i) {
        const bool stop =
            i == tokens.size() ||
            (tokens[i].sort == Token::Sort::mark &&
             std::string_view(".!?;").find(tokens[i].text) != std::string_view::npos &&
             !shortened(tokens, i) && (i + 1 >= tokens.size() || !tokens[i + 1].glued));
        if (!stop) continue;
        if (i > begin) out.push_back(tokens.subspan(begin, i - begin));
        begin = i + 1;
    }
    return out;
}

/// Whether an oven or a pan is used; "with roast chicken" does not.
bool cooked(Tokens tokens) {
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        if (tokens[i].is.any(Concept::oven) && !means(tokens, i + 1, Concept::another_food))
            return true;
    }
    return false;
}

/// "Ingredients", and no other heading of things.
bool begins_ingredients(Tokens tokens) {
    return means(tokens, 0, Concept::head_main) && means(tokens, 0, Concept::heading);
}

/// Nothing of a line but how it stands there.
void leave_text_alone(Reading& r, LineSort sort) {
    Line plain;
    plain.number = r.line.number;
    plain.text = std::move(r.line.text);
    plain.sort = sort;
    plain.understood = true;
    r = Reading{};
    r.line = std::move(plain);
}

} // namespace

/// "any other vegetables you like"
bool leaves_choice(Tokens tokens) {
    return speaks_of(tokens, Concept::any_vegetable) && speaks_of(tokens, Concept::choice);
}

Reader::Reader(std::string_view text, const larder::Material* salt)
    : salt_(salt) {
    plain_ = clean(text);
    const TextTongue text_tongue = tongue_of_text(plain_);
    doc_.tongue = text_tongue.tongue;
    if (text_tongue.plain) heard_ = {doc_.tongue};
    doc_.unread = foreign(plain_);
    method_ = Method(doc_.tongue, salt_);
    // A list of one or two lines does not say its language; each line speaks for itself then.
}

void Reader::join_amounts(std::vector<Paragraph>& paragraphs) {
    const auto sort_of = [&](std::size_t i) {
        const std::vector<Token> tokens = tokens_of(trimmed(paragraphs[i].text));
        const auto q = quantity_at(tokens, 0, numbers());
        if (q && measured(q->quantity) && q->tokens == tokens.size()) return 'a';
        return tokens.empty() || has_number(tokens) || count_words(tokens) > 8 ? '-' : 'n';
    };
    std::size_t pairs = 0;
    std::vector<bool> amount(paragraphs.size());
    for (std::size_t i = 0; i + 1 < paragraphs.size(); ++i) {
        amount[i] = paragraphs[i].text.size() < 20 && sort_of(i) == 'a' && sort_of(i + 1) == 'n';
        pairs += amount[i] ? 1 : 0;
    }
    if (pairs < 2) return;
    for (std::size_t i = 0; i + 1 < paragraphs.size(); ++i) {
        if (!amount[i]) continue;
        joined_.push_back(std::string(trimmed(paragraphs[i].text)) + " " +
                          std::string(trimmed(paragraphs[i + 1].text)));
        paragraphs[i + 1].text = joined_.back();
        paragraphs[i].text = {};
    }
}

Document Reader::run() {
    std::vector<Paragraph> paragraphs = paragraphs_of(plain_);
    join_amounts(paragraphs);
    for (std::size_t i = 0; i < paragraphs.size(); ++i) {
        const Paragraph& paragraph = paragraphs[i];
        const std::string_view raw = paragraph.text;
        const std::string_view next =
            i + 1 < paragraphs.size() ? trimmed(paragraphs[i + 1].text) : std::string_view{};
        gap_behind_ = i + 1 < paragraphs.size() && next.empty();
        amount_follows_ = next.find_first_of("0123456789") != std::string_view::npos;
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
        if (paragraph.prose) {
            method(number, trimmed(raw));
        } else {
            const std::string line = without_columns(raw);
            read(line, number);
        }
        gap_ = false;
    }
    settle();
    return std::move(doc_);
}

void Reader::settle() {
    settle_title();
    settle_strangers();
    bound_strangers();
    if (std::any_of(doc_.readings.begin(), doc_.readings.end(), [](const Reading& r) {
            return r.line.role == Role::salt && r.line.grams.has_value();
        }))
        method_.read_title(tokens_of(doc_.title, heard_), numbers());
    for (const Token& t : tokens_of(doc_.title))
        doc_.title_says = doc_.title_says | t.is;
    doc_.account = method_.account();
    doc_.rinsed = doc_.rinsed || doc_.account.rinsed;
    for (Reading& r : doc_.readings)
        if (doc_.account.late_acid && r.line.role == Role::acid) {
            r.line.left_out = true;
            r.line.notes.emplace_back("It goes in when it has fermented: not counted.");
        }
    doc_.account.salt.insert(doc_.account.salt.end(), beside_.begin(), beside_.end());
}

void Reader::keep(Reading reading, std::size_t number, std::string_view text) {
    // A remark may be a deed: "Rinse well", by itself on a line.
    if (reading.line.sort == LineSort::method || reading.line.sort == LineSort::remark ||
        reading.line.sort == LineSort::unknown) {
        const std::vector<Token> tokens = tokens_of(text, heard_);
        for (const Tokens sentence : sentences(tokens)) {
            // "Salt (no iodine)" by itself is no sentence.
            if (reading.line.sort == LineSort::remark && count_words(sentence) < 3 &&
                means(sentence, 0, Concept::salt))
                continue;
            method_.read(sentence, numbers(), reading.line.sort != LineSort::unknown,
                         reading.line.sort == LineSort::method || !has_number(sentence));
        }
    } else if (reading.line.sort == LineSort::ingredient) {
        const Role role = reading.line.role.value_or(Role::other);
        if (reading.amount) method_.listed(*reading.amount, role);
        for (const Quantity& weight : reading.weights)
            method_.listed(weight, role);
        // "1 kg cabbage. Use only half of it."
        const std::vector<Token> tokens = tokens_of(text);
        const std::vector<Tokens> parts = sentences(tokens);
        for (std::size_t i = 1; i < parts.size(); ++i) {
            const char first = parts[i].front().text[0];
            const bool capital = first >= 'A' && first <= 'Z'; // "2 c. à s. de sel" goes on
            if (capital && count_words(parts[i]) >= 3) method_.read(parts[i], numbers());
        }
    }
    reading.line.number = number;
    reading.line.text = std::string(beginning(text, 2000));
    doc_.readings.push_back(std::move(reading));
    doc_.sections.push_back(section_);
    gaps_.push_back(gap_);
}

void Reader::keep_as(LineSort sort, std::size_t number, std::string_view text) {
    Reading r;
    r.line.sort = sort;
    r.line.understood = true;
    keep(std::move(r), number, text);
}

void Reader::method(std::size_t number, std::string_view text) {
    ++doc_.method_lines;
    keep_as(LineSort::method, number, text);
}

void Reader::read(std::string_view raw, std::size_t number) {
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
    if (first_line && !s.colon && (numbered_title(s) || stands_apart(s))) return title(s);
    if (heading(s)) return;
    if (first_line && !s.has_number && s.words <= 12 &&
        (named_dish ||
         (item_of(s.tokens, doc_.tongue).material == nullptr && !leaves_choice(s.tokens))))
        return title(s);

    // What stands above the list is told again there.
    if (!first_line && s.text == doc_.title) return keep_as(LineSort::heading, number, s.text);
    if (tells_yield(s)) return keep_as(LineSort::remark, number, s.text);
    if (names_vessel(s)) return keep_as(LineSort::remark, number, s.text);
    if (labelled_note(s)) return method(number, s.text);
    if (heads_a_list(s)) return keep_as(LineSort::heading, number, s.text);
    if (section_ == Section::equipment) return keep_as(LineSort::remark, number, s.text);
    if (section_ == Section::main && s.words > 12 && run_on(s, 3)) return;
    if (section_ == Section::main && amounts_in(s.tokens) >= 2 && s.words <= 40 &&
        in_one_line(s, 2))
        return;
    if (section_ == Section::method || section_ == Section::notes || prose(s))
        return method(number, s.text);
    // "Take 25 g of salt per kilo.": a sentence, however short.
    if (s.text.ends_with('.') && names_rule(s.tokens, numbers(), doc_.tongue))
        return method(number, s.text);
    thing(s);
}

bool Reader::names_no_food(const Seen& s) const {
    if (s.has_number || s.words > 3 || s.colon || leaves_choice(s.tokens)) return false;
    const larder::Material* const m = item_of(s.tokens, doc_.tongue).material;
    return m != nullptr && m->id == "mixed-vegetables";
}

bool Reader::stands_apart(const Seen& s) const {
    return gap_behind_ && !s.has_number && s.words >= 2 && s.words <= 14 &&
           !leaves_choice(s.tokens) && !bare_vegetable(s.text);
}

bool Reader::tells_yield(const Seen& s) const {
    return s.words <= 9 && !speaks_of(s.tokens, {Concept::salty_word, Concept::water}) &&
           means(s.tokens, 0, {Concept::heading, Concept::yield, Concept::purpose}) &&
           speaks_of(s.tokens, Concept::vessel) &&
           item_of(s.tokens, doc_.tongue).material == nullptr;
}

bool Reader::names_vessel(const Seen& s) const {
    constexpr Concepts about{Concept::vessel,  Concept::kitchen,  Concept::of_vessel,
                             Concept::known,   Concept::function, Concept::either,
                             Concept::purpose, Concept::optional, Concept::times,
                             Concept::also,    Concept::within,   Concept::plain};
    if (s.words > 12 || !speaks_of(s.tokens, Concept::vessel)) return false;
    for (std::size_t i = 0; i < s.tokens.size(); ++i) {
        const Token& t = s.tokens[i];
        if (t.sort != Token::Sort::word || t.number != 0 || measure_at(s.tokens, i, true)) continue;
        const bool plain =
            t.is.any(about) ||
            (t.is.empty() && knows_form(t.folded, doc_.tongue ? *doc_.tongue : *base_tongue()));
        // "a jar of last year's" is of what was in it.
        const bool of = t.is.any(Concept::of) && i + 1 < s.tokens.size() &&
                        s.tokens[i + 1].sort != Token::Sort::number;
        if (!plain || of ||
            t.is.any({Concept::salty_word, Concept::water, Concept::liquid, Concept::acid,
                      Concept::seasoning_word, Concept::spice, Concept::another_food}) ||
            named(t.folded, doc_.tongue).material != nullptr)
            return false;
    }
    return true;
}

bool Reader::labelled_note(const Seen& s) {
    const std::size_t colon = s.text.find(':');
    if (colon == std::string_view::npos || colon > 14 || s.colon || s.words < 4) return false;
    const std::vector<Token> label = tokens_of(s.text.substr(0, colon));
    Section section = Section::main;
    std::vector<Token> words;
    for (const Token& t : label)
        if (t.sort == Token::Sort::word) words.push_back(t);
    return words.size() == 1 && heading_section(words, section) && section == Section::notes;
}

bool Reader::heads_a_list(const Seen& s) const {
    if (s.has_number || s.words > 6 || !gap_ || !amount_follows_ || leaves_choice(s.tokens) ||
        speaks_of(s.tokens, {Concept::salty_word, Concept::water}))
        return false;
    const larder::Material* const m = item_of(s.tokens, doc_.tongue).material;
    return m == nullptr || m->id == "mixed-vegetables";
}

bool Reader::numbered_title(const Seen& s) const {
    if (!s.has_number || s.words < 2 || s.words > 12 || !gap_behind_ ||
        s.tokens.front().sort == Token::Sort::number)
        return false;
    for (std::size_t i = 0; i < s.tokens.size(); ++i) {
        const auto q = quantity_at(s.tokens, i, numbers());
        if (s.tokens[i].sort != Token::Sort::number || !q || q->quantity.measure == nullptr)
            continue;
        // "(makes a 2-litre jar)", "(un bocal de 2 litres)"
        const std::size_t first = i < 4 ? 0 : i - 4;
        const Tokens around = Tokens(s.tokens).subspan(
            first, std::min(s.tokens.size() - first, i - first + q->tokens + 3));
        if (!q->quantity.is(Unit::volume) || !speaks_of(around, {Concept::vessel, Concept::yield}))
            return false;
    }
    return true;
}

void Reader::take_words(const Seen& s) {
    for (const Token& t : s.tokens)
        doc_.says = doc_.says | t.is;
    // Only these words mean another thing in another language.
    if (speaks_of(s.tokens, Concept::oven))
        doc_.cooks =
            doc_.cooks || cooked(tokens_of(s.text, {doc_.tongue ? doc_.tongue : base_tongue()}));
    doc_.unsoaked = doc_.unsoaked || denies_bath(s.tokens);
}

void Reader::title(const Seen& s) {
    doc_.title = std::string(s.text);
    keep_as(LineSort::heading, s.number, s.text);
}

bool Reader::heading(const Seen& s) {
    if (headed_aside(s)) return true;
    if ((!s.markdown && !s.colon && s.words > 5) || s.words > 8) return false;
    // "For a 2-litre jar:"
    if (s.has_number && (!s.colon || speaks_of(s.tokens, Concept::salty_word) ||
                         item_of(s.tokens, doc_.tongue).material != nullptr))
        return false;
    // "Discard half of the brine" is a deed, wherever it stands.
    if (!s.colon && !s.markdown && s.words > 2 &&
        means(s.tokens, 0, {Concept::discard, Concept::drain, Concept::pour, Concept::keep}))
        return false;
    Section section = section_;
    const bool named =
        heading_section(s.tokens, section) && !(section == Section::soak && denies_bath(s.tokens));
    const Item item = item_of(s.tokens, doc_.tongue);
    // "any other vegetables you like" go in the jar.
    // "Ingredients of kraut"
    const bool ingredients = begins_ingredients(s.tokens) && !s.has_number;
    const bool is_thing = (item.material != nullptr || leaves_choice(s.tokens)) && !s.colon &&
                          !s.markdown && !ingredients;
    if ((!named || is_thing) && !s.colon && !s.markdown) return false;
    if (ingredients) forget_above();
    if (named)
        section_ = section;
    else if (s.colon)
        section_ = Section::main;
    if (s.markdown && doc_.title.empty() && !named) doc_.title = std::string(s.text);
    keep_as(LineSort::heading, s.number, s.text);
    return true;
}

void Reader::forget_above() {
    // Behind a thing with its amount the list has begun already.
    const auto listed = [](const Reading& r) {
        return (r.item.material != nullptr || r.item.salty_words) &&
               (r.line.grams || r.amount || r.ratio || r.left_over);
    };
    if (std::any_of(doc_.readings.begin(), doc_.readings.end(), listed)) return;
    for (Reading& r : doc_.readings)
        if (r.line.sort == LineSort::unknown || r.line.sort == LineSort::ingredient)
            leave_text_alone(r, LineSort::remark);
}

bool Reader::headed_aside(const Seen& s) {
    const std::size_t open = s.text.find('(');
    if (open == std::string_view::npos || !s.text.ends_with(')')) return false;
    const std::string_view head = trimmed(s.text.substr(0, open));
    const std::vector<Token> words = tokens_of(head);
    Section section = section_;
    if (words.empty() || words.size() > 4 || has_number(words) ||
        speaks_of(s.tokens, {Concept::salty_word, Concept::optional, Concept::needed}) ||
        !heading_section(words, section) || item_of(words, doc_.tongue).material != nullptr)
        return false;
    if (begins_ingredients(words)) forget_above();
    section_ = section;
    keep_as(LineSort::heading, s.number, s.text);
    return true;
}

bool Reader::numbered_step(const Seen& s) {
    return s.words >= 3 && s.tokens.size() > 3 && s.tokens[0].sort == Token::Sort::number &&
           s.tokens[0].whole && s.tokens[0].value < 40 && is_mark(s.tokens, 1, "-") &&
           !s.tokens[1].glued &&
           means(s.tokens, 2,
                 {Concept::opens_method, Concept::cut, Concept::mash, Concept::mix, Concept::put});
}

bool Reader::prose(const Seen& s) const {
    if (numbered_step(s)) return true;
    // "Salt, any that is pure, 18 g"
    const bool salt_first = means(s.tokens, 0, Concept::salt) && s.has_number &&
                            (is_mark(s.tokens, 1, ",") || is_mark(s.tokens, 1, ":"));
    if (salt_first && s.words <= 16) return false;
    const auto opening = quantity_at(s.tokens, 0, {});
    const bool sentence =
        s.text.ends_with('.') && (s.words >= 8 || (s.words >= 3 && !s.has_number));
    // A thing of the list may have a long story.
    const bool weighed =
        opening && (opening->quantity.is(Unit::mass) || opening->quantity.is(Unit::volume));
    if (s.words > 28) return !weighed;
    // "5 weeks in the cellar. Skim if wanted."
    if (s.words >= 4 && s.tokens.front().sort == Token::Sort::number &&
        means(s.tokens, 1, Concept::time))
        return true;
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

void Reader::settle_title() {
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
    const std::string word = larder::singular(larder::fold(first.item.words));
    const std::string name = larder::fold(first.item.material->name);
    const bool again =
        std::any_of(doc_.readings.begin() + 1, doc_.readings.end(), [&](const Reading& r) {
            if (!r.amount || r.line.sort != LineSort::ingredient || !r.item.material) return false;
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
    const bool comma = first.line.text.find(',') != std::string::npos;
    if (comma && !apart && !(again && gaps_[1])) return;
    doc_.title = first.line.text;
    leave_text_alone(first, LineSort::heading);
}

void Reader::settle_strangers() {
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

void Reader::bound_strangers() {
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

Document read_document(std::string_view text, const larder::Material* salt) {
    return Reader(text, salt).run();
}

} // namespace jarful::appraise
