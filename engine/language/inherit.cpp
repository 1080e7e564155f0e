#include "engine/language/inherit.hpp"

#include "engine/language/characters.hpp"
#include "engine/language/inherit_move.hpp"
#include "engine/language/parse.hpp"
#include "engine/language/tidy.hpp"

#include <algorithm>
#include <set>

namespace jarful::language {

namespace {

const BasedOnLine* based_on(const Line& line) {
    return std::get_if<BasedOnLine>(&line.statement);
}

/// The name by which a line is overridden; empty if it has none.
std::string_view name_of(const Line& line) {
    if (const auto* q = std::get_if<Quantity>(&line.statement)) return q->name.value;
    if (const auto* b = std::get_if<BrineLine>(&line.statement)) return b->name.value;
    return {};
}

/// The parts of the method that are inherited one by one.
enum class Doing : std::uint8_t { none, steps, tending, ready, keeping };

Doing doing_of(const Line& line) {
    const Statement& s = line.statement;
    if (std::holds_alternative<StepLine>(s) || std::holds_alternative<RestLine>(s))
        return Doing::steps;
    if (std::holds_alternative<TendLine>(s)) return Doing::tending;
    if (std::holds_alternative<ReadyLine>(s)) return Doing::ready;
    if (std::holds_alternative<KeepLine>(s)) return Doing::keeping;
    return Doing::none;
}

bool is_header(const Line& line) {
    const Statement& s = line.statement;
    return std::holds_alternative<LanguageLine>(s) || std::holds_alternative<RecipeHeader>(s) ||
           std::holds_alternative<RemarkLine>(s) || std::holds_alternative<BasedOnLine>(s) ||
           std::holds_alternative<WithoutLine>(s);
}

/// Whether one line stands in the other's stead.
bool replaces(const Line& own, const Line& inherited, const Expressions& pool) {
    const std::string_view name = name_of(inherited);
    if (!name.empty()) return name_of(own) == name;
    if (own.statement.index() != inherited.statement.index()) return false;
    if (const auto* hold = std::get_if<HoldLine>(&inherited.statement))
        return same_expression(pool, std::get<HoldLine>(own.statement).value, pool, hold->value);
    const Statement& s = inherited.statement;
    return std::holds_alternative<KindLine>(s) || std::holds_alternative<FillLine>(s) ||
           std::holds_alternative<HeadspaceLine>(s) || std::holds_alternative<TopUpLine>(s);
}

class Inheritance {
  public:
    Inheritance(const FindBase& find, Findings& findings)
        : find_(find)
        , findings_(findings) {}

    Document run(Document recipe, const std::string& path) {
        chain_.push_back(path);
        const auto line = std::find_if(recipe.lines.begin(), recipe.lines.end(),
                                       [](const Line& l) { return based_on(l) != nullptr; });
        if (line == recipe.lines.end()) {
            for (const Line& l : recipe.lines)
                if (const auto* w = std::get_if<WithoutLine>(&l.statement))
                    nothing_to_drop(*w, "this recipe is based on no other");
        } else if (!second(recipe, *line)) {
            const Text base = based_on(*line)->base;
            if (auto found = base_of(base, path)) {
                Document parent = std::move(*found);
                recipe = merged(std::move(recipe), std::move(parent), base.place);
            }
        }
        chain_.pop_back();
        return recipe;
    }

  private:
    Diagnostic& fault(const char* code, Place place, std::string message, std::string advice) {
        return findings_.fault(code, place, std::move(message), std::move(advice));
    }

    void nothing_to_drop(const WithoutLine& line, const std::string& why) {
        fault("nothing-to-drop", line.name.place,
              "There is no inherited line \"" + line.name.value + "\" to leave out: " + why + ".",
              "Delete this line.");
    }

    /// Reports a second `based on`.
    bool second(const Document& recipe, const Line& first) {
        bool any = false;
        for (const Line& line : recipe.lines) {
            if (&line == &first || based_on(line) == nullptr) continue;
            fault("second-base", line.keyword, "A recipe builds on one other at most.",
                  "Base that one on this one, or the other way about.")
                .related.push_back({first.keyword, "the first one"});
            any = true;
        }
        return any;
    }

    /// The base, read and with all that it inherits itself; its findings are in base_findings_.
    std::optional<Document> base_of(const Text& base, const std::string& path) {
        const std::string in_quotes = "\"" + base.value + "\"";
        if (!stays_in_book(base.value)) {
            fault("base-outside", base.place, in_quotes + " does not lie in this book.",
                  "Name a recipe of the book by its file's name without the ending, or by a folder "
                  "and that, as in \"brines/six\".");
            return std::nullopt;
        }
        FoundBase found = find_(base.value, path);
        if (!found.message.empty()) {
            Diagnostic& missing =
                fault(found.code.c_str(), base.place, found.message, found.advice);
            if (!found.nearest.empty())
                missing.fixes.push_back({base.place, "\"" + found.nearest + "\""});
            return std::nullopt;
        }
        if (std::find(chain_.begin(), chain_.end(), found.path) != chain_.end()) {
            std::string circle;
            for (const std::string& one : chain_)
                circle += one + " → ";
            fault("base-circle", base.place,
                  "Each of these recipes is based on the next, and so none has a beginning: " +
                      circle + found.path + ".",
                  "Take the \"based on\" line out of one of them.");
            return std::nullopt;
        }
        if (chain_.size() > most_bases) {
            fault("too-many-bases", base.place,
                  "More than " + std::to_string(most_bases) +
                      " recipes are based on one another here.",
                  "Base this one on one further down.");
            return std::nullopt;
        }
        return read(std::move(found), base);
    }

    std::optional<Document> read(FoundBase found, const Text& base) {
        base_findings_ = Findings();
        auto source = read_source(found.path, std::move(found.bytes), base_findings_);
        Document parent;
        if (source) {
            parent = parse(std::move(*source), base_findings_);
        } else {
            parent.source = Source(found.path, "");
        }
        if (!base_findings_.has_faults() && parent.kind != FileKind::recipe) {
            fault("base-not-recipe", base.place, "\"" + base.value + "\" is not a recipe.",
                  "Name a file that begins with a \"recipe\" line.");
            return std::nullopt;
        }
        if (!base_findings_.has_faults()) {
            Findings deeper;
            Inheritance next(find_, deeper);
            next.chain_ = chain_;
            parent = next.run(std::move(parent), found.path);
            base_findings_ = std::move(deeper);
        }
        return parent;
    }

    /// What the base says of itself, at its place behind this recipe's own text.
    void take_findings(const Shift& shift, Place base) {
        if (base_findings_.has_faults())
            fault("faulty-base", base,
                  "What this recipe is based on has faults, so nothing is inherited.",
                  "Mend the other file first.");
        for (Diagnostic found : base_findings_.all()) {
            // A finding about the file as a whole is said where the file was asked for.
            found.place = found.place ? moved(*found.place, shift) : base;
            for (Related& r : found.related)
                r.place = moved(r.place, shift);
            for (Fix& fix : found.fixes)
                fix.place = moved(fix.place, shift);
            findings_.add(std::move(found));
        }
    }

    Document merged(Document recipe, Document parent, Place base) {
        const Shift shift = append(recipe, parent);
        take_findings(shift, base);
        if (base_findings_.has_faults()) return recipe;
        std::vector<Line> inherited;
        for (Line& line : parent.lines)
            if (!is_header(line)) inherited.push_back(moved(std::move(line), shift));
        drop(recipe, inherited);
        std::vector<Line> own = std::move(recipe.lines);
        recipe.lines.clear();
        std::erase_if(own, [](const Line& line) {
            return based_on(line) != nullptr || std::holds_alternative<WithoutLine>(line.statement);
        });
        std::vector<Line> method = method_of(own, inherited);
        std::vector<bool> used(own.size());
        for (const Line& line : inherited) {
            bool kept = true;
            for (std::size_t i = 0; i < own.size(); ++i) {
                if (!replaces(own[i], line, recipe.expressions)) continue;
                kept = false;
                if (!used[i]) recipe.lines.push_back(own[i]);
                used[i] = true;
            }
            if (kept) recipe.lines.push_back(line);
        }
        for (std::size_t i = 0; i < own.size(); ++i)
            if (!used[i]) recipe.lines.push_back(std::move(own[i]));
        for (Line& line : method)
            recipe.lines.push_back(std::move(line));
        return recipe;
    }

    /// `without NAME` lines.
    void drop(const Document& recipe, std::vector<Line>& inherited) {
        for (const Line& line : recipe.lines) {
            const auto* w = std::get_if<WithoutLine>(&line.statement);
            if (w == nullptr) continue;
            const auto named = [&](const Line& l) { return name_of(l) == w->name.value; };
            if (std::any_of(recipe.lines.begin(), recipe.lines.end(), named)) {
                nothing_to_drop(*w, "this recipe has a line of that name, which takes its place");
            } else if (std::erase_if(inherited, named) == 0) {
                nothing_to_drop(*w, "what it is based on has none of that name");
            }
        }
    }

    /// The method: the base's, with the parts that the recipe has itself in their places; or the
    /// recipe's in its own order and what more the base has, where it has steps of its own. Taken
    /// out of both lists.
    static std::vector<Line> method_of(std::vector<Line>& own, std::vector<Line>& inherited) {
        const auto take = [](std::vector<Line>& from) {
            std::vector<Line> out;
            for (const Line& line : from)
                if (doing_of(line) != Doing::none) out.push_back(line);
            std::erase_if(from, [](const Line& l) { return doing_of(l) != Doing::none; });
            return out;
        };
        const std::vector<Line> mine = take(own);
        const std::vector<Line> theirs = take(inherited);
        std::set<Doing> has;
        for (const Line& line : mine)
            has.insert(doing_of(line));
        std::vector<Line> out;
        std::set<Doing> placed;
        const bool own_order = has.count(Doing::steps) != 0;
        if (own_order) out = mine;
        for (const Line& line : theirs) {
            const Doing part = doing_of(line);
            if (has.count(part) == 0) {
                out.push_back(line);
            } else if (!own_order && placed.insert(part).second) {
                std::copy_if(mine.begin(), mine.end(), std::back_inserter(out),
                             [&](const Line& l) { return doing_of(l) == part; });
            }
        }
        if (!own_order)
            std::copy_if(mine.begin(), mine.end(), std::back_inserter(out),
                         [&](const Line& l) { return placed.count(doing_of(l)) == 0; });
        return out;
    }

    const FindBase& find_;
    Findings& findings_;
    Findings base_findings_;
    std::vector<std::string> chain_; ///< from the recipe that was asked for to the one at hand
};

} // namespace

bool stays_in_book(std::string_view name) {
    if (name.empty() || name.size() > 255 || name.find('\\') != std::string_view::npos)
        return false;
    while (true) {
        const std::size_t end = std::min(name.find('/'), name.size());
        const std::string_view part = name.substr(0, end);
        if (part.empty() || part.front() == '.' || part.front() == '~' || part.front() == ' ' ||
            part.find(':') != std::string_view::npos)
            return false;
        if (end == name.size()) return true;
        name.remove_prefix(end + 1);
    }
}

bool has_base(const Document& document) {
    return std::any_of(document.lines.begin(), document.lines.end(), [](const Line& line) {
        return based_on(line) != nullptr || std::holds_alternative<WithoutLine>(line.statement);
    });
}

void take_along(Document& into, Findings& findings, const Source& other,
                const std::vector<Diagnostic>& found) {
    Document empty;
    empty.source = other;
    const Shift shift = append(into, empty);
    for (Diagnostic d : found) {
        // A finding about that file as a whole is shown at its beginning.
        d.place = moved(d.place.value_or(Place{0, 0}), shift);
        if (*d.place == Place{}) d.place = Place{shift.text, shift.text};
        for (Related& r : d.related)
            r.place = moved(r.place, shift);
        for (Fix& fix : d.fixes)
            fix.place = moved(fix.place, shift);
        findings.add(std::move(d));
    }
}

Document inherit(Document recipe, const std::string& path, const FindBase& find,
                 Findings& findings) {
    if (!has_base(recipe)) return recipe;
    return Inheritance(find, findings).run(std::move(recipe), path);
}

} // namespace jarful::language
