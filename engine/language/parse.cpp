#include "engine/language/parse.hpp"

#include "engine/language/characters.hpp"
#include "engine/language/state.hpp"
#include "engine/language/statements.hpp"
#include "engine/language/tokens.hpp"
#include "engine/units/nearest.hpp"

#include <algorithm>
#include <array>
#include <cstring>
#include <utility>

/// A file, line by line: which lines there are, what each begins with, and whether it belongs here.
namespace jarful::language {

namespace {

std::string_view rest(Cursor first, Cursor last) {
    return {first, static_cast<std::size_t>(last - first)};
}

/// The line feed, or the end.
Cursor end_of_line(Cursor at, Cursor end) {
    const void* found = std::memchr(at, '\n', static_cast<std::size_t>(end - at));
    return found == nullptr ? end : static_cast<Cursor>(found);
}

/// The version of the language that this program reads.
constexpr int language_version = 1;

constexpr const char* how_a_file_begins =
    "A recipe begins with a line such as: recipe \"Quay Street kraut\" version 1. A kitchen begins "
    "with: kitchen \"Quay Street\". A house file begins with: house \"Quay Street\".";

/// What a header's first word says that the file is.
FileKind kind_of(std::string_view word) {
    if (word == "recipe") return FileKind::recipe;
    if (word == "kitchen") return FileKind::kitchen;
    if (word == "batch") return FileKind::batch;
    return word == "house" ? FileKind::house : FileKind::unknown;
}

std::string called(FileKind kind) {
    return kind == FileKind::kitchen ? "kitchen"
           : kind == FileKind::house ? "house file"
           : kind == FileKind::batch ? "batch"
                                     : "recipe";
}

bool is_conflict_marker(std::string_view line) {
    if (line.size() < 7 || line[0] != line[6]) return false;
    for (const std::string_view mark : {"<<<<<<<", "=======", ">>>>>>>", "|||||||"})
        if (line.starts_with(mark)) return true;
    return false;
}

class FileParser {
  public:
    FileParser(Source source, Findings& findings)
        : all_findings_(findings) {
        document_.source = std::move(source);
        text_ = document_.source.text();
    }

    Document run() {
        make_room();
        find_header();
        const Cursor end = text_.data() + text_.size();
        for (Cursor at = text_.data(); at < end && !full_;) {
            const Cursor line_end = end_of_line(at, end);
            const Cursor first = skip_spaces(at, line_end);
            if (first == line_end || *first == '#') {
                at = after(line_end, end);
            } else if (is_conflict_marker(rest(at, line_end))) {
                conflicts(at, end);
                return std::move(document_);
            } else {
                const Cursor logical_end = with_continuations(line_end, end);
                logical_line(first, logical_end);
                at = after(logical_end, end);
            }
        }
        finish();
        return std::move(document_);
    }

  private:
    /// For about as many statements as there are lines, and what most of them hold, so that little
    /// has to move.
    void make_room() {
        constexpr std::size_t most = 4096;
        constexpr std::size_t short_line = 40;
        const std::size_t room = std::min(most, text_.size() / short_line + 8);
        document_.lines.reserve(room);
        document_.expressions.nodes.reserve(2 * room);
        document_.expressions.amounts.reserve(room);
        document_.expressions.names.reserve(room);
        heights_.reserve(2 * room);
    }

    static Cursor after(Cursor line_end, Cursor end) {
        return line_end == end ? end : line_end + 1;
    }

    Place place(Cursor from, Cursor to) const {
        return {static_cast<std::uint32_t>(from - text_.data()),
                static_cast<std::uint32_t>(to - text_.data())};
    }

    /// The first header line decides what the file is, wherever it stands.
    void find_header() {
        const Cursor end = text_.data() + text_.size();
        for (Cursor at = text_.data(); at < end;) {
            const Cursor line_end = end_of_line(at, end);
            const Cursor first = skip_spaces(at, line_end);
            const std::string_view word =
                rest(first, line_end).substr(0, word_length(rest(first, line_end)));
            if (const FileKind kind = kind_of(word); kind != FileKind::unknown) {
                document_.kind = kind;
                header_ = place(first, first + word.size());
                return;
            }
            at = after(line_end, end);
        }
    }

    /// A line that begins with a text goes on with the line above it.
    static Cursor with_continuations(Cursor line_end, Cursor end) {
        while (line_end != end) {
            const Cursor next = skip_spaces(line_end + 1, end);
            if (next == end || *next != '"') break;
            line_end = end_of_line(next, end);
        }
        return line_end;
    }

    /// The first mark of a merge that was left undone is the one thing to say of such a file: what
    /// else looks wrong in it (two headers, a name given twice) comes of the two versions.
    void conflicts(Cursor at, Cursor end) {
        Diagnostic found{
            "merge-conflict",
            Severity::fault,
            place(at, at + 7),
            "Two versions of this file were merged, and here they were left side by side.",
            "Keep the lines that are right and delete the lines with <<<<<<<, ======= and "
            ">>>>>>>.",
            {}};
        while (at < end) {
            const Cursor line_end = end_of_line(at, end);
            if (is_conflict_marker(rest(at, line_end)) && found.related.size() < 8 &&
                place(at, at + 7) != *found.place)
                found.related.push_back({place(at, at + 7), "another mark of the merge"});
            at = after(line_end, end);
        }
        document_.lines.clear();
        all_findings_.add(std::move(found));
    }

    void logical_line(Cursor first, Cursor last) {
        if (++statements_ > limits::statements) {
            full_ = true;
            findings_.fault("too-many-statements", place(first, first + 1),
                            "This file has more than " + std::to_string(limits::statements) +
                                " statements; the rest was not read.",
                            "Make several files of it.");
            return;
        }
        const Expressions& pool = document_.expressions;
        const std::array sizes{pool.nodes.size(), pool.amounts.size(), pool.units.size(),
                               pool.names.size(), pool.arguments.size()};
        State state{.text = text_,
                    .pool = document_.expressions,
                    .findings = findings_,
                    .heights = std::move(heights_)};
        try {
            statement(first, last, state);
        } catch (Refusal& refusal) {
            findings_.add(std::move(refusal.diagnostic));
            state.faulty = true;
        }
        heights_ = std::move(state.heights);
        if (state.faulty) roll_back(sizes);
    }

    /// Nothing of a faulty line stays in the pool.
    void roll_back(const std::array<std::size_t, 5>& sizes) {
        Expressions& pool = document_.expressions;
        pool.nodes.resize(sizes[0]);
        heights_.resize(sizes[0]);
        pool.amounts.resize(sizes[1]);
        pool.units.resize(sizes[2]);
        pool.names.resize(sizes[3]);
        pool.arguments.resize(sizes[4]);
    }

    void statement(Cursor first, Cursor last, State& state) {
        const std::size_t length = word_length(rest(first, last));
        const StatementWord* word = find_statement_word({first, length});
        if (word == nullptr) refuse_first_word(first, last, state);
        const Place keyword = place(first, first + length);
        check_home(*word, keyword);
        state.statement = word;
        Cursor at = first + length;
        Line line;
        line.keyword = keyword;
        if (is_quantity(word->id)) {
            line.statement = parse_quantity_statement(word->id, at, last, state);
        } else if (word->id >= Word1::step && word->id <= Word1::keep) {
            line.statement = parse_doing_statement(word->id, at, last, state);
        } else if (word->id >= Word1::batch) {
            line.statement = parse_batch_statement(word->id, at, last, state);
        } else {
            line.statement = parse_kitchen_statement(word->id, at, last, state);
        }
        if (skip_blanks(at, last, true) != last) refuse_left_over(state, at, last);
        line.place = place(first, at);
        check_header(*word, line);
        if (!state.faulty) document_.lines.push_back(std::move(line));
    }

    static bool is_quantity(Word1 id) { return id >= Word1::given && id <= Word1::hold; }

    [[noreturn]] void refuse_first_word(Cursor first, Cursor last, State& state) {
        const Place thing = thing_at(state, first, last);
        const std::string_view word = state.at(thing);
        if (*first == '"')
            refuse("stray-text", thing,
                   "A text stands here, and no statement stands on the line above it.",
                   "Put it directly below the line that it goes on with, or begin with a word such "
                   "as \"note\" or \"step\".");
        const std::size_t length = name_length(rest(first, last));
        if (length == 0)
            refuse("unknown-statement", thing,
                   "A line begins with a word that says what it is, and not with " + quoted(word) +
                       ".",
                   "Examples: given, weigh, let, step. For a remark, write # before it.");
        const Cursor next = skip_blanks(first + length, last, true);
        if (next < last && (*next == '=' || *next == ':'))
            refuse("missing-word", thing,
                   "A line begins with a word that says what it is; here it begins with the name " +
                       quoted(word) + ".",
                   "Write, for example, \"weigh " + std::string(first, length) + " = …\", or " +
                       "\"let " + std::string(first, length) + " = …\" for a working value.",
                   *next == '=' ? fixes_with({thing.begin, thing.begin}, {"weigh ", "let "})
                                : std::vector<Fix>{});
        if (const auto near = nearest_statement_word(word))
            refuse("unknown-statement", thing, "No line begins with the word " + quoted(word) + ".",
                   "Did you mean \"" + std::string(*near) + "\"?", {{thing, std::string(*near)}});
        const char* list =
            document_.kind == FileKind::house
                ? "A line of a house file begins with one of house, range, material, note. For a "
                  "remark, write # before it."
            : document_.kind == FileKind::kitchen
                ? "A line of a kitchen begins with one of kitchen, scale, jar, crock, spoons, "
                  "units, room, let, material, note. For a remark, write # before it."
            : document_.kind == FileKind::batch
                ? "A line of a batch begins with one of batch, begun, kind, room, left_out, "
                  "vessel, planned, tend, ready, keep, weighed, noted, note. For a remark, write # "
                  "before it."
                : "A line of a recipe begins with one of recipe, kind, by, source, note, based, "
                  "without, "
                  "material, "
                  "given, total, share, weigh, count, let, measure, brine, fill, headspace, topup, "
                  "cap, hold, step, rest, tend, ready, keep. For a remark, write # before it.";
        refuse("unknown-statement", thing, "No line begins with the word " + quoted(word) + ".",
               list);
    }

    void check_home(const StatementWord& word, Place keyword) const {
        if (belongs(word.home, document_.kind)) return;
        const std::string here = called(document_.kind);
        const FileKind home = belongs(word.home, FileKind::recipe)    ? FileKind::recipe
                              : belongs(word.home, FileKind::kitchen) ? FileKind::kitchen
                              : belongs(word.home, FileKind::house)   ? FileKind::house
                                                                      : FileKind::batch;
        Diagnostic d{"wrong-file",
                     Severity::fault,
                     keyword,
                     quoted(word.word) + " belongs in a " +
                         (word.home == Home::cooking ? "recipe or a kitchen" : called(home)) +
                         ", and this file is a " + here + ".",
                     home == FileKind::recipe    ? "Move the line to the recipe that it is for."
                     : home == FileKind::kitchen ? "Move the line to the file kitchen.jarful."
                     : home == FileKind::house   ? "Move the line to the file house.jarful."
                                                 : "Move the line to the batch that it is of.",
                     {}};
        d.related.push_back({*header_, "the file says that it is a " + here});
        throw Refusal{std::move(d)};
    }

    void check_header(const StatementWord& word, const Line& line) {
        if (word.id == Word1::language) {
            check_language(std::get<LanguageLine>(line.statement), line);
        } else if (kind_of(word.word) != FileKind::unknown && line.keyword != *header_) {
            Diagnostic d{"second-header",
                         Severity::fault,
                         line.keyword,
                         "A file holds one recipe, one kitchen, one house or one batch, and this "
                         "is a second "
                         "header.",
                         "Put the second one in a file of its own.",
                         {}};
            d.related.push_back({*header_, "the first header stands here"});
            throw Refusal{std::move(d)};
        }
    }

    void check_language(const LanguageLine& language, const Line& line) const {
        if (statements_ != 1)
            refuse("language-place", line.keyword,
                   "The version of the language is said on the first line of a file only.",
                   "Move the line to the top, or delete it; \"language 1\" is understood anyway.");
        if (language.version.value != language_version)
            refuse("language-version", language.version.place,
                   "This file asks for language " + std::to_string(language.version.value) +
                       ", and this program reads language " + std::to_string(language_version) +
                       ".",
                   language.version.value > language_version
                       ? "A newer version of the program is needed."
                       : "Write \"language 1\", or delete the line.");
    }

    void finish() {
        if (document_.kind == FileKind::unknown)
            findings_.fault(
                "missing-header", std::nullopt,
                statements_ == 0
                    ? "This file is empty."
                    : "This file does not say whether it is a recipe, a kitchen, a house file or a "
                      "batch.",
                how_a_file_begins);
        for (const Diagnostic& found : findings_.all())
            all_findings_.add(found);
        all_findings_.sort();
    }

    Findings& all_findings_; ///< of whoever asked
    Findings findings_;      ///< of this reading
    Document document_;
    std::string_view text_;
    std::optional<Place> header_;
    std::vector<std::uint16_t> heights_;
    std::size_t statements_ = 0;
    bool full_ = false;
};

} // namespace

Document parse(Source source, Findings& findings) {
    return FileParser(std::move(source), findings).run();
}

std::optional<LoneExpression> parse_expression(std::string_view text, Findings& findings) {
    LoneExpression result;
    State state{.text = text, .pool = result.expressions, .findings = findings};
    state.comments = false; // a lone expression is no line of a file
    Cursor at = text.data();
    const Cursor last = at + text.size();
    try {
        if (!read_expression(at, last, state, result.root))
            refuse_expected(state, "expected-quantity|a quantity", at, last);
        if (skip_blanks(at, last, state.comments) != last) refuse_left_over(state, at, last);
    } catch (Refusal& refusal) {
        findings.add(std::move(refusal.diagnostic));
        return std::nullopt;
    }
    return result;
}

} // namespace jarful::language
