#include "engine/assist/names.hpp"

#include "engine/language/characters.hpp"

#include <algorithm>
#include <iterator>
#include <map>

namespace jarful::assist {

namespace {

using language::Document;
using language::FileKind;
using language::Line;

void add_word(std::vector<Occurrence>& out, const language::Word& word, bool definition = false) {
    out.push_back({word.value, word.place, definition});
}

/// The names of a line that stand in no expression.
void add_words(std::vector<Occurrence>& out, const Line& line,
               const std::vector<std::string>& brines) {
    const auto poured = [&](const std::optional<language::Word>& material) {
        if (material && std::find(brines.begin(), brines.end(), material->value) != brines.end())
            add_word(out, *material);
    };
    if (const auto* q = std::get_if<language::Quantity>(&line.statement)) {
        add_word(out, q->name, true);
        if (q->about_of) add_word(out, *q->about_of);
        if (q->replaces) add_word(out, *q->replaces);
        poured(q->tail.material);
    } else if (const auto* b = std::get_if<language::BrineLine>(&line.statement)) {
        add_word(out, b->name, true);
    } else if (const auto* w = std::get_if<language::WithoutLine>(&line.statement)) {
        add_word(out, w->name);
    } else if (const auto* t = std::get_if<language::TopUpLine>(&line.statement)) {
        poured(t->material);
    }
}

void add_brines(std::vector<std::string>& out, const Document& document) {
    for (const Line& line : document.lines)
        if (const auto* b = std::get_if<language::BrineLine>(&line.statement))
            out.push_back(b->name.value);
}

bool defines(const std::vector<Occurrence>& all, std::string_view name) {
    return std::any_of(all.begin(), all.end(),
                       [&](const Occurrence& one) { return one.definition && one.name == name; });
}

} // namespace

std::vector<Occurrence> occurrences(const Document& document,
                                    const std::vector<std::string>& inherited) {
    std::vector<Occurrence> out;
    if (document.kind == FileKind::batch) return out;
    std::vector<std::string> brines = inherited;
    add_brines(brines, document);
    for (const Line& line : document.lines)
        add_words(out, line, brines);
    const language::Expressions& pool = document.expressions;
    for (const language::Node& node : pool.nodes)
        if (node.kind == language::NodeKind::name) {
            // A name in parentheses has their place.
            language::Place place = node.place;
            const std::string_view text = document.source.at(place);
            const std::size_t begin = text.find_first_not_of("( \t");
            if (begin == std::string_view::npos) continue;
            const std::size_t end = text.find_last_not_of(") \t");
            place.end = place.begin + static_cast<std::uint32_t>(end) + 1;
            place.begin += static_cast<std::uint32_t>(begin);
            out.push_back({pool.names[node.index], place, false});
        }
    std::sort(out.begin(), out.end(), [](const Occurrence& a, const Occurrence& b) {
        return a.place.begin < b.place.begin;
    });
    return out;
}

const language::Text* base_at(const Document& document, std::uint32_t offset) {
    for (const Line& line : document.lines) {
        const auto* based = std::get_if<language::BasedOnLine>(&line.statement);
        if (based != nullptr && based->base.place.begin <= offset &&
            offset <= based->base.place.end)
            return &based->base;
    }
    return nullptr;
}

namespace {

/// The files of a book, each parsed once for a question.
class Shelf {
  public:
    explicit Shelf(const Session& session)
        : session_(session) {}

    struct Entry {
        Document document;
        bool faulty = false;
    };
    const Entry& of(const std::string& path) {
        const auto found = entries_.find(path);
        if (found != entries_.end()) return found->second;
        LoadedFile file = session_.parsed(path);
        Entry entry{std::move(file.document), file.findings.has_faults()};
        return entries_.emplace(path, std::move(entry)).first->second;
    }

    const std::vector<Occurrence>& names(const std::string& path) {
        const auto found = names_.find(path);
        if (found != names_.end()) return found->second;
        std::vector<std::string> inherited;
        const std::vector<std::string> files = chain(path);
        for (auto file = std::next(files.begin()); file != files.end(); ++file)
            add_brines(inherited, of(*file).document);
        return names_.emplace(path, occurrences(of(path).document, inherited)).first->second;
    }

    std::vector<std::string> chain(const std::string& path) {
        std::vector<std::string> out{path};
        while (out.size() <= language::most_bases) {
            const Document& document = of(out.back()).document;
            const auto line =
                std::find_if(document.lines.begin(), document.lines.end(), [](const Line& l) {
                    return std::holds_alternative<language::BasedOnLine>(l.statement);
                });
            if (line == document.lines.end()) break;
            const std::string& base = std::get<language::BasedOnLine>(line->statement).base.value;
            if (!language::stays_in_book(base)) break;
            const language::FoundBase found = session_.find_base(base, out.back());
            if (!found.message.empty() || found.path.empty()) break;
            if (std::find(out.begin(), out.end(), found.path) != out.end()) break;
            out.push_back(found.path);
        }
        return out;
    }

    std::string owner(const std::string& path, std::string_view name) {
        const std::vector<std::string> files = chain(path);
        for (auto file = files.rbegin(); file != files.rend(); ++file)
            if (defines(names(*file), name)) return *file;
        const auto kitchen = session_.files().kitchen_of(path);
        if (kitchen && defines(names(*kitchen), name)) return *kitchen;
        return {};
    }

  private:
    const Session& session_;
    std::map<std::string, Entry> entries_;
    std::map<std::string, std::vector<Occurrence>> names_;
};

/// The files of the first one's book, and these.
std::vector<std::string> files_around(const Session& session, const std::vector<std::string>& own) {
    std::vector<std::string> out = session.files().book_of(own.front());
    for (const std::string& more : own)
        if (std::find(out.begin(), out.end(), more) == out.end()) out.push_back(more);
    return out;
}

} // namespace

std::vector<Occurrence> occurrences(const Session& session, const std::string& path) {
    return Shelf(session).names(path);
}

std::optional<Occurrence> occurrence_at(const Session& session, const std::string& path,
                                        std::uint32_t offset) {
    for (Occurrence& one : occurrences(session, path))
        if (one.place.begin <= offset && offset <= one.place.end) return std::move(one);
    return std::nullopt;
}

std::vector<std::string> chain_of(const Session& session, const std::string& path) {
    return Shelf(session).chain(path);
}

std::string owner_of(const Session& session, const std::string& path, std::string_view name) {
    return Shelf(session).owner(path, name);
}

std::optional<Found> definition_of(const Session& session, const std::string& path,
                                   std::string_view name) {
    Shelf shelf(session);
    std::vector<std::string> files = shelf.chain(path);
    if (const auto kitchen = session.files().kitchen_of(path)) files.push_back(*kitchen);
    for (const std::string& file : files)
        for (const Occurrence& one : shelf.names(file))
            if (one.definition && one.name == name) return Found{file, one};
    return std::nullopt;
}

std::vector<Found> everywhere(const Session& session, const std::string& path,
                              std::string_view name, std::vector<std::string>* faulty) {
    Shelf shelf(session);
    std::vector<Found> out;
    const std::string owner = shelf.owner(path, name);
    if (owner.empty()) return out;
    for (const std::string& file : files_around(session, {path, owner})) {
        const Shelf::Entry& entry = shelf.of(file);
        if (entry.document.kind != FileKind::recipe && entry.document.kind != FileKind::kitchen)
            continue;
        // A text that cannot be read may still hold the name, as a whole word or not.
        const bool named =
            language::to_nfc(entry.document.source.text()).find(name) != std::string::npos;
        if (!named || shelf.owner(file, name) != owner) continue;
        if (entry.faulty && faulty != nullptr) faulty->push_back(file);
        for (const Occurrence& one : shelf.names(file))
            if (one.name == name) out.push_back({file, one});
    }
    return out;
}

std::optional<std::string> clash_of(const Session& session, const std::string& path,
                                    std::string_view name, std::string_view wanted) {
    Shelf shelf(session);
    const std::string owner = shelf.owner(path, name);
    for (const std::string& file : files_around(session, {path, owner})) {
        const FileKind kind = shelf.of(file).document.kind;
        if (kind != FileKind::recipe && kind != FileKind::kitchen) continue;
        const bool own = defines(shelf.names(file), wanted);
        if (kind == FileKind::kitchen && file == owner && own) return file;
        if (!shelf.owner(file, wanted).empty() && shelf.owner(file, name) == owner) return file;
    }
    return std::nullopt;
}

namespace {

/// What the lines of a file may be made of.
larder::Larder larder_of(Session& session, Shelf& shelf, const std::string& path) {
    larder::Larder out;
    for (const larder::OwnMaterial& own : session.look(path).kitchen().kitchen.materials)
        out.add(own);
    language::Findings aside;
    const std::vector<std::string> files = shelf.chain(path);
    for (auto file = files.rbegin(); file != files.rend(); ++file)
        for (const Line& line : shelf.of(*file).document.lines)
            if (const auto* m = std::get_if<language::MaterialLine>(&line.statement))
                out.add(kitchen::read_material(*m, aside));
    return out;
}

/// The words that a name without `as` is looked for by.
std::string phrase_of(std::string name) {
    std::replace(name.begin(), name.end(), '_', ' ');
    return name;
}

/// Whether what a line is made of is told by its name.
bool made_of_its_name(const language::Quantity& q) {
    using language::QuantityWord;
    return q.word != QuantityWord::let && q.word != QuantityWord::total && !q.tail.material &&
           !q.replaces;
}

std::string quoted(std::string_view words) {
    return "\"" + std::string(words) + "\"";
}

/// Why a line of one of the files would be made of something else.
std::optional<std::string> line_of_other(const Line& line, const larder::Larder& larder,
                                         const std::string& name, const std::string& wanted) {
    const larder::Material* before = larder.named(phrase_of(name));
    const larder::Material* after = larder.named(phrase_of(wanted));
    if (const auto* b = std::get_if<language::BrineLine>(&line.statement))
        if (b->name.value == name && after != nullptr)
            return quoted(wanted) + " is a material, and lines made of it would become this brine.";
    const auto* q = std::get_if<language::Quantity>(&line.statement);
    if (q == nullptr || q->name.value != name || !made_of_its_name(*q) || before == after)
        return std::nullopt;
    if (before != nullptr)
        return "What this line is made of is said by its name alone: give it `as " +
               phrase_of(name) + "` first.";
    return quoted(wanted) + " is a material, and the line " + quoted(name) +
           " does not say what it is made of: give it an `as` first.";
}

} // namespace

std::optional<std::string> made_of_other(Session& session, const std::string& path,
                                         const std::string& name, const std::string& wanted) {
    Shelf shelf(session);
    const std::string owner = shelf.owner(path, name);
    std::vector<std::string> brines;
    add_brines(brines, shelf.of(owner).document);
    const bool brine = std::find(brines.begin(), brines.end(), name) != brines.end();
    for (const std::string& file : files_around(session, {path, owner})) {
        const Document& document = shelf.of(file).document;
        if (document.kind != FileKind::recipe || shelf.owner(file, name) != owner) continue;
        const larder::Larder larder = larder_of(session, shelf, file);
        for (const Line& line : document.lines) {
            if (auto why = line_of_other(line, larder, name, wanted))
                return *why + (file == path ? "" : " It stands in " + file + ".");
            const auto* q = std::get_if<language::Quantity>(&line.statement);
            if (brine && q != nullptr && q->tail.material && q->tail.material->value == wanted)
                return "A line of " + file + " is made of something called " + quoted(wanted) +
                       " already.";
        }
    }
    return std::nullopt;
}

} // namespace jarful::assist
