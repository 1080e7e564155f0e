#include "engine/assist/complete.hpp"

#include "engine/assist/hover.hpp"
#include "engine/assist/meanings.hpp"
#include "engine/assist/names.hpp"
#include "engine/language/characters.hpp"
#include "engine/language/describe.hpp"
#include "engine/language/words.hpp"

#include <algorithm>
#include <array>
#include <set>

namespace jarful::assist {

namespace {

using language::FileKind;
using Sort = Offer::Sort;

/// A line up to the cursor, taken apart as far as is needed.
struct Before {
    std::uint32_t begin = 0; ///< of the line
    std::string_view text;
    bool comment = false;
    bool quoted = false;                 ///< in a text
    bool hole = false;                   ///< in the braces of a text
    std::size_t open = 0;                ///< where the text or the hole begins
    std::vector<std::string_view> words; ///< outside of texts; the last is being written
};

bool word_byte(std::string_view text, std::size_t at) {
    const auto byte = static_cast<unsigned char>(text[at]);
    return byte >= 0x80 || language::goes_on_with_name(text.substr(at, 1)) || text[at] == '-';
}

void find_text(Before& out) {
    for (std::size_t i = 0; i < out.text.size() && !out.comment; ++i) {
        const char c = out.text[i];
        if (out.quoted) {
            if (c == '\\') {
                ++i;
            } else if (c == '"') {
                out.quoted = out.hole = false;
            } else if (c == '{') {
                out.hole = !(i + 1 < out.text.size() && out.text[i + 1] == '{');
                if (!out.hole) ++i;
                out.open = i + 1;
            } else if (c == '}') {
                out.hole = false;
            }
        } else if (c == '"') {
            out.quoted = true;
            out.open = i + 1;
        } else {
            out.comment = c == '#';
        }
    }
}

Before before(std::string_view text, std::uint32_t offset) {
    Before out;
    offset = std::min(offset, static_cast<std::uint32_t>(text.size()));
    const std::size_t end = offset == 0 ? std::string_view::npos : text.rfind('\n', offset - 1);
    out.begin = end == std::string_view::npos ? 0 : static_cast<std::uint32_t>(end + 1);
    out.text = text.substr(out.begin, offset - out.begin);
    find_text(out);
    bool in_text = false;
    for (std::size_t i = 0; i < out.text.size();) {
        if (out.text[i] == '"') in_text = !in_text;
        if (in_text || !word_byte(out.text, i)) {
            ++i;
            continue;
        }
        const std::size_t from = i;
        while (i < out.text.size() && word_byte(out.text, i))
            ++i;
        out.words.push_back(out.text.substr(from, i - from));
    }
    std::size_t from = out.text.size();
    while (from > 0 && word_byte(out.text, from - 1))
        --from;
    if (in_text || from == out.text.size()) out.words.push_back(out.text.substr(from));
    return out;
}

/// The words of a form with places to fill in for those in capitals: NAME, "TITLE".
std::string snippet_of(std::string_view form) {
    std::string out;
    int number = 0;
    for (std::size_t i = 0; i < form.size();) {
        std::size_t end = i;
        while (end < form.size() && form[end] >= 'A' && form[end] <= 'Z')
            ++end;
        if (end - i >= 3) {
            out +=
                "${" + std::to_string(++number) + ":" + std::string(form.substr(i, end - i)) + "}";
            i = end;
            continue;
        }
        if (form[i] == '$' || form[i] == '}' || form[i] == '\\') out += '\\';
        out += form[i++];
    }
    return number == 0 ? std::string() : out;
}

class Offering {
  public:
    Offering(Session& session, const std::string& path, std::uint32_t offset)
        : session_(session)
        , path_(path)
        , offset_(offset)
        , look_(session.look(path))
        , own_(session.parsed(path).document)
        , here_(before(own_.source.text(), offset)) {
        out_.place = {offset - static_cast<std::uint32_t>(here_.words.back().size()), offset};
    }

    Offers run() {
        if (here_.comment) return out_;
        if (here_.quoted && !here_.hole) {
            in_text();
        } else if (here_.hole) {
            values();
        } else if (here_.words.size() == 1 && only_blanks_before()) {
            statements();
        } else {
            further_on();
        }
        return std::move(out_);
    }

  private:
    void add(Sort sort, std::string_view words, std::string_view detail = {},
             std::string about = {}, std::string snippet = {}) {
        if (!said_.insert(std::string(words)).second) return;
        out_.all.push_back(
            {sort, std::string(words), std::string(detail), std::move(about), std::move(snippet)});
    }
    void add_all(std::span<const std::string_view> words) {
        for (const std::string_view word : words)
            add(Sort::word, word, {}, std::string(word_meaning(word)));
    }
    void add_all(std::initializer_list<std::string_view> words) {
        add_all(std::span<const std::string_view>(words.begin(), words.size()));
    }

    [[nodiscard]] bool only_blanks_before() const {
        const std::size_t written = here_.words.back().size();
        const std::string_view rest = here_.text.substr(0, here_.text.size() - written);
        return rest.find_first_not_of(" \t") == std::string_view::npos;
    }
    /// The word before the one that is being written; empty if there is none.
    [[nodiscard]] std::string_view last(std::size_t back = 1) const {
        return here_.words.size() > back ? here_.words[here_.words.size() - 1 - back]
                                         : std::string_view();
    }

    void statements() {
        for (const language::StatementWord& one : language::statement_words())
            if (language::belongs(one.home, own_.kind))
                add(Sort::statement, one.word, one.form, std::string(statement_meaning(one.word)),
                    snippet_of(one.form));
    }

    void in_text() {
        if (here_.words.front() != "based") return;
        out_.place.begin = here_.begin + static_cast<std::uint32_t>(here_.open);
        for (const std::string& file : session_.files().book_of(path_)) {
            const std::size_t stroke = file.rfind('/');
            std::string name = file.substr(stroke == std::string::npos ? 0 : stroke + 1);
            if (!name.ends_with(".jarful") || file == path_) continue;
            name.resize(name.size() - std::string_view(".jarful").size());
            if (name == "kitchen" || name == "house" || file.find("batches/") != std::string::npos)
                continue;
            // Only what `based on` finds by this name is offered.
            const language::FoundBase found = session_.find_base(name, path_);
            if (found.message.empty() && found.path == file) add(Sort::recipe, name, file);
        }
    }

    void further_on() {
        const std::string_view first = here_.words.front();
        const bool second = here_.words.size() == 2;
        if (takes_text_alone(first)) return;
        if (first == "kind" || first == "range") return kinds(second);
        if (first == "tend" && second) return add_all(language::task_words());
        if (first == "keep") {
            if (second) return add_all({"cold", "cool"});
            add_all({"for"});
            return add_all(language::period_words());
        }
        if (first == "spoons") return add_all({"us", "metric", "imperial"});
        if (first == "units") return add_all({"us", "metric"});
        if (first == "based" && second) return add_all({"on"});
        if (first == "without") return inherited();
        if (second && language::find_statement_word(first) != nullptr && defines(first)) return;
        if (last() == "counts") return add_all({"as"});
        if (last() == "as" && last(2) == "counts") return add_all(language::role_words());
        if (const std::size_t as = after_as(); as != std::string_view::npos) return materials(as);
        if (first == "material" && last() == "is") return add_all(language::role_words());
        if (unit_place()) units();
        if (own_.kind == FileKind::kitchen && first != "let") return kitchen_words(first);
        if (first == "tend") return add_all({"every", "on", "from", "to", "day"});
        if (first == "ready") return add_all({"day", "to", "at"});
        if (first == "replaces" || last() == "replaces") return names();
        if (takes_figure_alone(first)) return;
        if (first == "headspace") return names("let");
        values();
        going_on(first);
    }

    static bool takes_text_alone(std::string_view first) {
        constexpr std::array<std::string_view, 9> words{
            "step", "note", "by", "source", "recipe", "kitchen", "house", "batch", "language"};
        return language::contains(words, first);
    }

    /// A time or a temperature: no quantity can stand there.
    static bool takes_figure_alone(std::string_view first) {
        return first == "rest" || first == "room";
    }

    static bool defines(std::string_view first) {
        constexpr std::array<std::string_view, 12> words{"given", "total", "share",   "weigh",
                                                         "count", "let",   "measure", "brine",
                                                         "cap",   "scale", "jar",     "crock"};
        return language::contains(words, first);
    }

    void kinds(bool second) {
        const larder::House* house = look_.kitchen().kitchen.house.get();
        if (second) {
            for (const larder::Kind& kind : larder::kinds())
                add(Sort::kind, kind.name, kind.title, about_kind(kind, ""));
            if (house != nullptr)
                for (const larder::Kind* kind : house->own_kinds())
                    add(Sort::kind, kind->name, kind->title, about_kind(*kind, ""));
            return;
        }
        const larder::Kind* kind = larder::find_kind(here_.words[1]);
        if (kind == nullptr) return;
        for (const larder::Ruling& ruling : kind->rulings)
            if (!ruling.method.empty())
                add(Sort::kind, ruling.method, ruling.title, about_kind(*kind, ruling.method));
    }

    /// Where the words behind the last `as` begin, if a material is being written.
    [[nodiscard]] std::size_t after_as() const {
        for (std::size_t i = here_.words.size() - 1; i-- > 0;) {
            if (here_.words[i] != "as") {
                if (language::contains(language::tail_words(), here_.words[i])) break;
                continue;
            }
            if (i > 0 && here_.words[i - 1] == "counts") break;
            const auto at = static_cast<std::size_t>(here_.words[i].data() - here_.text.data());
            const std::size_t words = here_.text.find_first_not_of(" \t", at + 2);
            return words == std::string_view::npos ? here_.text.size() : words;
        }
        return std::string_view::npos;
    }

    void materials(std::size_t begin) {
        out_.place.begin = here_.begin + static_cast<std::uint32_t>(begin);
        for (const language::Line& line : own_.lines) {
            if (const auto* m = std::get_if<language::MaterialLine>(&line.statement))
                add(Sort::material, m->name.value, "of this recipe");
            if (const auto* b = std::get_if<language::BrineLine>(&line.statement))
                add(Sort::material, b->name.value, "a brine of this recipe");
        }
        for (const larder::OwnMaterial& own : look_.kitchen().kitchen.materials)
            add(Sort::material, own.name, "of the kitchen or the house");
        for (const larder::Material& known : larder::materials())
            add(Sort::material, known.name, larder::describe(known.role), about_material(known));
        // What comes behind a whole name.
        if (begin < here_.text.size() && here_.words.back().empty()) add_all({"counts"});
    }

    /// Whether a number stands before what is being written.
    [[nodiscard]] bool unit_place() const {
        std::string_view rest = here_.text;
        // `1.8k`: the unit is being written straight behind its number.
        while (!rest.empty() && language::is_ascii_letter(rest.back()))
            rest.remove_suffix(1);
        while (!rest.empty() && rest.back() == ' ')
            rest.remove_suffix(1);
        if (rest.empty() || !language::is_digit(rest.back())) return false;
        while (!rest.empty() &&
               (language::is_digit(rest.back()) || rest.back() == '.' || rest.back() == '/'))
            rest.remove_suffix(1);
        return rest.empty() || !language::goes_on_with_name(rest.substr(rest.size() - 1));
    }

    void units() {
        const std::string_view written = here_.words.back();
        const std::size_t digits = written.find_first_not_of("0123456789");
        if (!written.empty() && digits != 0)
            out_.place.begin += static_cast<std::uint32_t>(std::min(digits, written.size()));
        for (const units::Unit& unit : units::unit_table())
            add(Sort::unit, unit.symbol, unit.definition);
    }

    void kitchen_words(std::string_view first) {
        if (first == "scale") add_all({"reads", "up", "to", "within", "bowl", "use"});
        if (first == "jar" || first == "crock")
            add_all({"holds", "brimful", "across", "section", "weights", "have"});
    }

    void inherited() {
        const auto files = chain_of(session_, path_);
        for (std::size_t i = 1; i < files.size(); ++i)
            for (const Occurrence& one : occurrences(session_.parsed(files[i]).document))
                if (one.definition) add(Sort::name, one.name, "of " + files[i]);
    }

    /// The names that this file knows, its own first.
    /// @param word that their lines begin with; empty for all.
    void names(std::string_view word = {}) {
        std::vector<std::string> files = chain_of(session_, path_);
        if (const auto kitchen = session_.files().kitchen_of(path_)) files.push_back(*kitchen);
        for (const std::string& file : files) {
            const language::Document document = session_.parsed(file).document;
            for (const Occurrence& one : occurrences(document))
                if (one.definition && row_of(document, one).starts_with(word))
                    add(Sort::name, one.name, file == path_ ? row_of(document, one) : "of " + file);
        }
    }

    static std::string row_of(const language::Document& document, const Occurrence& one) {
        std::string_view row = document.source.line_at(one.place.begin);
        const std::size_t begin = std::min(row.find_first_not_of(" \t"), row.size());
        row.remove_prefix(begin);
        constexpr std::size_t most = 60;
        std::string out;
        for (const char c : row.substr(0, most))
            if (c != ' ' || (!out.empty() && out.back() != ' ')) out += c;
        return out;
    }

    void values() {
        names();
        for (const std::string_view standing :
             {"all_produce", "all_salt", "all_water", "everything"})
            add(Sort::name, standing, "always there", std::string(word_meaning(standing)));
        for (const std::string_view name : language::function_names()) {
            const FunctionForm* form = function_form(name);
            if (form == nullptr) continue;
            add(Sort::function, name, form->form, std::string(form->about),
                std::string(name) + "(${1:" + std::string(form->parameters[0]) + "})");
        }
    }

    void going_on(std::string_view first) {
        if (own_.kind == FileKind::house) return add_all({"of", "between", "and", "at"});
        add_all({"of", "per"});
        if (first == "weigh" || first == "share" || first == "count" || first == "cap" ||
            first == "given" || first == "measure")
            add_all({"as", "optional", "discarded", "keeps", "counts"});
        if (first == "count") add_all({"each", "jar"});
        if (first == "measure") add_all({"about", "of", "replaces"});
        if (first == "hold") add_all({"between", "and", "at", "least", "most"});
        if (first == "brine") add_all({"water", "make", "as"});
        add_all({"if", "then", "else"});
    }

    Session& session_;
    const std::string& path_;
    std::uint32_t offset_;
    const Look& look_;
    language::Document own_;
    Before here_;
    Offers out_;
    std::set<std::string> said_;
};

} // namespace

Offers offers_at(Session& session, const std::string& path, std::uint32_t offset) {
    return Offering(session, path, offset).run();
}

std::optional<CallAt> call_at(const std::string& text, std::uint32_t offset) {
    const Before here = before(text, offset);
    if (here.comment || (here.quoted && !here.hole)) return std::nullopt;
    std::size_t depth = 0;
    std::size_t commas = 0;
    for (std::size_t i = here.text.size(); i-- > 0;) {
        const char c = here.text[i];
        if (c == '{' && here.hole) return std::nullopt;
        if (c == ')') ++depth;
        if (c == ',' && depth == 0) ++commas;
        if (c != '(') continue;
        if (depth > 0) {
            --depth;
            continue;
        }
        std::size_t begin = i;
        while (begin > 0 && language::is_ascii_letter(here.text[begin - 1]))
            --begin;
        const std::string_view name = here.text.substr(begin, i - begin);
        if (function_form(name) != nullptr) return CallAt{std::string(name), commas};
        commas = 0; // parentheses round a part of an argument
    }
    return std::nullopt;
}

} // namespace jarful::assist
