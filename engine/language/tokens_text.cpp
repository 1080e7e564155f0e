#include "engine/language/characters.hpp"
#include "engine/language/tokens.hpp"

#include <algorithm>
#include <cstring>
#include <utility>

/// Texts in quotes, and the values in them.
namespace jarful::language {

namespace {

std::string_view rest(Cursor first, Cursor last) {
    return {first, static_cast<std::size_t>(last - first)};
}

bool curly_quote(char32_t c) {
    return (c >= 0x2018 && c <= 0x201F) || c == 0xAB || c == 0xBB;
}

/// Whether a text begins at `at`; refuses quotation marks of another sort.
bool begins_text(const State& state, Cursor at, Cursor last) {
    if (at == last) return false;
    if (*at == '"') return true;
    const Decoded d = decode(rest(at, last));
    if (d.valid && curly_quote(d.value))
        refuse("curly-quote", state.place(at, at + d.length),
               "This is a printer's quotation mark, as word processors set it.",
               "Write texts between straight ones: \"like this\".");
    return false;
}

/// The closing quote of the text that opens at `open`.
Cursor closing_quote(const State& state, Cursor open, Cursor last) {
    Cursor at = open + 1;
    const auto left = [&] { return static_cast<std::size_t>(last - at); };
    // Nearly every text has neither escapes in it nor a line break.
    if (const void* quote = std::memchr(at, '"', left())) {
        const std::string_view inside = rest(at, static_cast<Cursor>(quote));
        if (inside.find('\\') == inside.npos && inside.find('\n') == inside.npos)
            return static_cast<Cursor>(quote);
    }
    while (at < last && *at != '\n') {
        if (*at == '"') return at;
        if (*at == '\\') {
            const bool good = at + 1 < last && (at[1] == '"' || at[1] == '\\');
            if (!good)
                refuse("bad-escape", state.place(at, at + 1),
                       "A backslash in a text is followed by a quotation mark or by a second "
                       "backslash.",
                       "For a backslash itself write \\\\.");
            at += 2;
        } else {
            ++at;
        }
    }
    refuse("open-text", state.place(open, at), "This text has no closing quotation mark.",
           "A text ends on its own line. To go on, begin the next line with another text in "
           "quotes.");
}

/// The next text, if it begins a physical line of its own: then it goes on with this one.
Cursor continuation(const State& state, Cursor after, Cursor last) {
    const Cursor next = skip_blanks(after, last, state.comments);
    if (next == last || *next != '"') return nullptr;
    for (Cursor at = after; at < next; ++at)
        if (*at == '\n') return next;
    return nullptr;
}

void check_length(std::size_t characters, Place place) {
    if (characters <= limits::text_characters) return;
    refuse("text-too-long", place,
           "This text has " + std::to_string(characters) + " characters; a text may have " +
               std::to_string(limits::text_characters) + ".",
           "Make two of it.");
}

/// Reads a template piece by piece.
class TemplateReader {
  public:
    TemplateReader(State& state, Template& out)
        : state_(state)
        , out_(out) {}

    void piece(Cursor begin, Cursor end) {
        for (Cursor at = begin; at < end;) {
            const bool twice = at + 1 < end && at[1] == at[0];
            if (*at == '\\') {
                literal(at, at + 2, {at + 1, 1});
                at += 2;
            } else if ((*at == '{' || *at == '}') && twice) {
                literal(at, at + 2, {at, 1});
                at += 2;
            } else if (*at == '{') {
                at = hole(at, end);
            } else if (*at == '}') {
                report(Refusal{{"stray-brace",
                                Severity::fault,
                                state_.place(at, at + 1),
                                "This brace closes nothing.",
                                "For a brace in the text write it twice: }}.",
                                {}}});
                ++at;
            } else {
                const Cursor run =
                    std::find_if(at, end, [](char c) { return c == '\\' || c == '{' || c == '}'; });
                literal(at, run, {at, static_cast<std::size_t>(run - at)});
                at = run;
            }
        }
    }

    /// The blank that joins two lines.
    void join(Cursor where) { literal(where, where, " "); }

    void finish() {
        if (text_.empty()) return;
        out_.pieces.push_back({std::move(text_), no_node, place_});
        text_.clear();
    }

  private:
    void literal(Cursor from, Cursor to, std::string_view text) {
        if (text_.empty()) place_ = state_.place(from, to);
        place_.end = state_.offset(to);
        text_ += text;
    }

    void report(const Refusal& refusal) {
        state_.findings.add(refusal.diagnostic);
        state_.faulty = true;
    }

    Cursor hole(Cursor open, Cursor end) {
        Cursor close = open + 1;
        while (close < end && *close != '}' && *close != '{')
            ++close;
        if (close == end || *close == '{') {
            report(Refusal{{"open-brace",
                            Severity::fault,
                            state_.place(open, close),
                            "This brace is not closed before the text goes on.",
                            "Close it with }. For a brace in the text write it twice: {{.",
                            {}}});
            return close;
        }
        finish();
        const bool comments = std::exchange(state_.comments, false);
        NodeId value = no_node;
        try {
            Cursor at = open + 1;
            if (!read_expression(at, close, state_, value))
                refuse_expected(state_, "expected-quantity|a quantity", at, close);
            if (skip_blanks(at, close, false) != close) refuse_left_over(state_, at, close);
            out_.pieces.push_back({{}, value, state_.place(open, close + 1)});
        } catch (const Refusal& refusal) {
            report(refusal);
            state_.open.clear();
        }
        state_.comments = comments;
        return close + 1;
    }

    State& state_;
    Template& out_;
    std::string text_;
    Place place_;
};

} // namespace

bool read_text(Cursor& first, Cursor last, State& state, Text& out) {
    Cursor open = skip_blanks(first, last, state.comments);
    if (!begins_text(state, open, last)) return false;
    const Cursor begin = open;
    out.value.clear();
    while (true) {
        const Cursor close = closing_quote(state, open, last);
        for (Cursor at = open + 1; at < close;) {
            const Cursor run = std::find(at, close, '\\');
            out.value.append(at, run);
            at = run;
            if (at == close) break;
            out.value += at[1]; // what is behind the backslash
            at += 2;
        }
        first = close + 1;
        open = continuation(state, first, last);
        if (open == nullptr) break;
        out.value += ' ';
    }
    out.place = state.place(begin, first);
    check_length(count_characters(out.value), out.place);
    return true;
}

bool read_template(Cursor& first, Cursor last, State& state, Template& out) {
    Cursor open = skip_blanks(first, last, state.comments);
    if (!begins_text(state, open, last)) return false;
    const Cursor begin = open;
    std::size_t characters = 0;
    out.pieces.clear();
    TemplateReader reader(state, out);
    while (true) {
        const Cursor close = closing_quote(state, open, last);
        characters += count_characters(rest(open + 1, close));
        reader.piece(open + 1, close);
        first = close + 1;
        open = continuation(state, first, last);
        if (open == nullptr) break;
        reader.join(open);
        ++characters;
    }
    reader.finish();
    out.place = state.place(begin, first);
    check_length(characters, out.place);
    return true;
}

} // namespace jarful::language
