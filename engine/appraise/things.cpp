#include "engine/appraise/document_reader.hpp"
#include "engine/appraise/sections.hpp"
#include "engine/appraise/shared.hpp"
#include "engine/appraise/text.hpp"

#include <algorithm>

/// The things of a list: one on a line, or several.
namespace jarful::appraise {

using larder::Role;
using Unit = Measure::Sort;

namespace {

/// A mark between the things of a line.
bool joint(const Token& t) {
    return t.sort == Token::Sort::mark && std::string_view(",;.+&").find(t.text) < 5;
}

} // namespace

void Reader::thing(const Seen& s) {
    const auto opening = quantity_at(s.tokens, 0, {});
    const bool opens_with_amount = opening && opening->quantity.measure != nullptr;
    if (!opens_with_amount && remark(s.tokens)) return keep_as(LineSort::remark, s.number, s.text);
    if (shared(s.tokens, s.number, s.text)) return;
    // "6 juniper berries 400 g cauliflower" are two things, and not six cauliflowers of 400 g.
    if (run_on(s, 2, true)) return;
    Reading r = ingredient(s.text, doc_.tongue, salt_);
    if (opens_with_amount && means(s.tokens, opening->tokens, Concept::purpose) &&
        !means(s.tokens, opening->tokens, Concept::of)) {
        r = Reading{};
        r.line.could_matter = true;
        r.line.notes.emplace_back("It says what an amount is for, and not of what it is.");
        return keep(std::move(r), s.number, s.text);
    }
    if (!r.line.understood) {
        if (r.line.notes.empty() && leaves_choice(s.tokens))
            r.line.notes.emplace_back("Which of them go in, and how much, is left open.");
        if (!r.doubt.empty()) return keep(std::move(r), s.number, s.text);
        if (equipment(s.tokens) || remark(s.tokens) || names_equipment(s.tokens, numbers()))
            return keep_as(LineSort::remark, s.number, s.text);
        if (headed(s.number, s.text) || several(s.tokens, s.number, s.text) || run_on(s, 2) ||
            in_one_line(s, 0))
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

bool Reader::rate_beside(const Reading& line) {
    SaltInMethod one;
    one.text = line.line.text;
    one.of_line = one.rule = true;
    // In the word of its own language: "sel", of "du sel, ici".
    std::string name(line.item.material->name.view());
    if (foreign_tongue(line.item.tongue)) {
        const std::vector<Token> words = tokens_of(line.item.words);
        const auto salt = std::find_if(words.begin(), words.end(),
                                       [](const Token& t) { return t.is.any(Concept::salt); });
        if (salt != words.end()) name = salt->text;
    }
    one.reading = ingredient(line.rate_beside->amount + " " + name + " " + line.rate_beside->of,
                             doc_.tongue, salt_);
    if (!one.reading.line.understood || one.reading.line.role != Role::salt || !one.reading.ratio)
        return false;
    beside_.push_back(std::move(one));
    return true;
}

void Reader::keep_salt(Reading r, std::size_t number, std::string_view text) {
    if (r.rate_beside && !r.line.left_out && r.line.role == Role::salt && !rate_beside(r)) {
        r.line.could_matter = true;
        r.line.understood = false;
        r.line.notes.emplace_back("A rate or percentage stands beside the amount: whether they "
                                  "agree cannot be told.");
    }
    keep(std::move(r), number, text);
}

bool Reader::open_salt(Tokens tokens) const {
    if (!means(tokens, 0, Concept::salt)) return false;
    const Item item = item_of(tokens, doc_.tongue);
    return item.material != nullptr && item.material->role == Role::salt &&
           count_words(tokens) <= 8 &&
           !speaks_of(tokens, {Concept::the, Concept::pronoun, Concept::loosely});
}

bool Reader::headed(std::size_t number, std::string_view text) {
    const std::size_t mark = text.find(": ");
    if (mark > 40) return false; // npos, too
    const std::string_view head = text.substr(0, mark);
    Section section = section_;
    const std::vector<Token> head_tokens = tokens_of(head);
    if (has_number(head_tokens) || !heading_section(head_tokens, section) ||
        section == Section::method || section == Section::notes || section == Section::equipment)
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

bool Reader::several(Tokens tokens, std::size_t number, std::string_view text) {
    std::vector<std::string_view> pieces;
    std::size_t begin = 0;
    for (std::size_t i = 1; i + 1 < tokens.size(); ++i) {
        const bool mark = is_mark(tokens, i, ",") || is_mark(tokens, i, "+") ||
                          is_mark(tokens, i, "&") || is_mark(tokens, i, ";");
        if (!mark && !means(tokens, i, Concept::sum)) continue;
        if (tokens[i + 1].sort != Token::Sort::number) continue;
        const auto q = quantity_at(tokens, i + 1, {}, false);
        if (!q || q->quantity.measure == nullptr || i + 1 + q->tokens >= tokens.size()) continue;
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

std::size_t Reader::amounts_in(Tokens tokens) {
    std::size_t n = 0;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        if (tokens[i].sort != Token::Sort::number && tokens[i].number == 0) continue;
        const auto q = quantity_at(tokens, i, {});
        n += q && q->quantity.measure != nullptr ? 1 : 0;
    }
    return n;
}

bool Reader::in_one_line(const Seen& s, std::size_t amounts) {
    std::string_view text = s.text;
    if (const std::size_t colon = text.find(": ");
        colon < 24 && !has_number(tokens_of(text.substr(0, colon))) &&
        item_of(tokens_of(text.substr(0, colon)), doc_.tongue).material == nullptr)
        text = trimmed(text.substr(colon + 2));
    for (const std::string_view marks : {".;", ".;,/"}) {
        std::vector<std::string_view> texts;
        std::size_t begin = 0;
        for (std::size_t i = 0; i <= text.size(); ++i) {
            const bool mark = i == text.size() || (marks.find(text[i]) != std::string_view::npos &&
                                                   (i + 1 == text.size() || text[i + 1] == ' '));
            if (!mark) continue;
            const std::string_view piece = trimmed(text.substr(begin, i - begin));
            if (!piece.empty()) texts.push_back(piece);
            begin = i + 1;
        }
        if (keep_all(s.number, texts, amounts)) return true;
    }
    return false;
}

bool Reader::keep_all(std::size_t number, const std::vector<std::string_view>& texts,
                      std::size_t least) {
    if (texts.size() < 2 || texts.size() > 12) return false;
    std::vector<Reading> parts;
    std::size_t amounts = 0;
    for (const std::string_view text : texts) {
        Reading r = ingredient(text, doc_.tongue, salt_);
        if (!r.line.understood || r.item.material == nullptr) return false;
        const Role role = r.item.material->role;
        if (!r.amount && role != Role::aromatic && role != Role::other) return false;
        amounts += r.amount ? 1 : 0;
        parts.push_back(std::move(r));
    }
    if (amounts < least) return false;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        leave_out(parts[i], tokens_of(texts[i]));
        keep_salt(std::move(parts[i]), number, texts[i]);
    }
    return true;
}

bool Reader::run_together(Tokens tokens, const std::vector<std::size_t>& first) {
    if (std::any_of(tokens.begin(), tokens.end(),
                    [](const Token& t) { return t.sort == Token::Sort::mark && t.text == ":"; }))
        return false;
    return std::all_of(first.begin() + 1, first.end(), [&](std::size_t at) {
        const Token& before = tokens[at - 1];
        return before.sort == Token::Sort::word && !before.is.any(Concept::sum);
    });
}

bool Reader::all_different(const std::vector<Reading>& parts) {
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (!parts[i].line.understood || !parts[i].amount) return false;
        for (std::size_t j = 0; j < i; ++j)
            if (parts[i].line.material == parts[j].line.material) return false;
    }
    return true;
}

bool Reader::run_on(const Seen& s, std::size_t least, bool certain) {
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

bool Reader::shared(Tokens tokens, std::size_t number, std::string_view text) {
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

namespace {

/// "(once fermented)", "after the fermentation"
bool goes_in_later(Tokens tokens) {
    for (std::size_t i = 0; i + 1 < tokens.size(); ++i) {
        if (!means(tokens, i, {Concept::once, Concept::after, Concept::when})) continue;
        const std::size_t last = std::min(i + 3, tokens.size() - 1);
        for (std::size_t k = i + 1; k <= last; ++k)
            if (means(tokens, k, Concept::older_batch)) return true;
    }
    return false;
}

} // namespace

void Reader::leave_out(Reading& r, Tokens tokens, bool spare_brine) {
    const bool later = r.line.role != Role::salt && goes_in_later(tokens);
    // "1 L water, plus more for rinsing": the amount itself stays in.
    if (r.amount) tokens = tokens.first(end_of_amount(tokens));
    const bool shared = shares_use(tokens);
    const bool serve = later || section_ == Section::serving ||
                       (speaks_of(tokens, Concept::use_serving) && !shared);
    const bool soak = section_ == Section::soak ||
                      (speaks_of(tokens, Concept::use_bath) && !denies_bath(tokens) && !shared);
    const bool spare = (only_if_needed(tokens) || shared) && !r.open;
    const bool top = section_ == Section::top_up || (spare && !shared && (spare_brine || r.ratio));
    // "2 cabbage leaves to lay on top"
    const bool cover = r.amount && r.amount->measure != nullptr &&
                       r.amount->measure->unit == "leaf" && r.line.role == Role::vegetable &&
                       speaks_of(tokens, {Concept::on_top, Concept::cover, Concept::covering});
    if (cover) {
        r.line.left_out = true;
        r.line.notes.emplace_back("It lies on top: not counted.");
        return;
    }
    if (serve) r.line.notes.emplace_back("For serving: no part of the jar.");
    if (soak && !serve) r.line.notes.emplace_back("For a bath that is poured off again.");
    if (top && !serve && !soak) r.line.notes.emplace_back("Only if it is needed: not counted.");
    r.line.left_out = serve || soak || top;
    if (soak && r.line.role == Role::salt) doc_.rinsed = true;
    // Water or salt by itself changes the brine that is there: from none to all of it.
    if (!spare || r.line.left_out) return;
    r.spare = r.line.role == Role::water;
    if (r.line.grams) r.line.grams = units::Interval{0.0, r.line.grams->high};
    r.line.notes.emplace_back(shared ? "For the jar and for something else: from none to all of it."
                                     : "Only if it is needed: from none to all of it.");
}

} // namespace jarful::appraise
