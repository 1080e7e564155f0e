#include "engine/assist/names.hpp"
#include "engine/assist/requests.hpp"
#include "engine/language/parse.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <map>

/// Where names are defined and used, and how they are called otherwise.
namespace jarful::assist {

using Json = nlohmann::ordered_json;

namespace {

struct Asked {
    std::string path;
    language::Document document; ///< as it stands, without what it inherits
    std::uint32_t offset = 0;
};

Asked asked(Session& session, const Json& params) {
    Asked out;
    out.path = path_in(session, params);
    out.offset = offset_in(session, params);
    out.document = session.parsed(out.path).document;
    return out;
}

Where where_of(Session& session, const Found& found) {
    return {found.path, session.text(found.path).range(found.occurrence.place, session.encoding)};
}

/// The `material` line of the file itself that a material's name is said in.
std::optional<language::Place> own_material(const Asked& at) {
    for (const language::Line& line : at.document.lines) {
        const auto* q = std::get_if<language::Quantity>(&line.statement);
        if (q == nullptr || !q->tail.material) continue;
        const language::Word& word = *q->tail.material;
        if (at.offset < word.place.begin || at.offset > word.place.end) continue;
        for (const language::Line& other : at.document.lines)
            if (const auto* m = std::get_if<language::MaterialLine>(&other.statement);
                m != nullptr && m->name.value == word.value)
                return m->name.place;
    }
    return std::nullopt;
}

} // namespace

Json definition(Session& session, const Json& params) {
    const Asked at = asked(session, params);
    if (const language::Text* base = base_at(at.document, at.offset)) {
        if (!language::stays_in_book(base->value)) return nullptr;
        const language::FoundBase found = session.find_base(base->value, at.path);
        if (found.path.empty() || !found.message.empty()) return nullptr;
        return location(session, {found.path, {}});
    }
    if (const auto one = occurrence_at(session, at.path, at.offset)) {
        const auto found = definition_of(session, at.path, one->name);
        return found ? location(session, where_of(session, *found)) : Json(nullptr);
    }
    if (const auto place = own_material(at))
        return location(session, {at.path, session.text(at.path).range(*place, session.encoding)});
    return nullptr;
}

Json references(Session& session, const Json& params) {
    const Asked at = asked(session, params);
    const auto one = occurrence_at(session, at.path, at.offset);
    if (!one) return nullptr;
    const bool declaration =
        params.contains("context") && params.at("context").value("includeDeclaration", true);
    Json out = Json::array();
    for (const Found& found : everywhere(session, at.path, one->name))
        if (declaration || !found.occurrence.definition)
            out.push_back(location(session, where_of(session, found)));
    return out;
}

Json document_highlight(Session& session, const Json& params) {
    const Asked at = asked(session, params);
    const auto one = occurrence_at(session, at.path, at.offset);
    if (!one) return nullptr;
    constexpr int read = 2;
    constexpr int write = 3;
    const Text& text = session.text(at.path);
    Json out = Json::array();
    for (const Occurrence& other : occurrences(session, at.path))
        if (other.name == one->name)
            out.push_back(Json{{"range", json_of(text.range(other.place, session.encoding))},
                               {"kind", other.definition ? write : read}});
    return out;
}

namespace {

/// The name at a position that can be called otherwise.
Occurrence renamable(Session& session, const Asked& at) {
    const auto one = occurrence_at(session, at.path, at.offset);
    if (!one) throw Failure{errors::failed, "No name of a quantity stands here."};
    if (owner_of(session, at.path, one->name).empty())
        throw Failure{errors::failed, "\"" + one->name + "\" is defined nowhere."};
    return *one;
}

/// The new name as it is written, or why it cannot be one.
std::string new_name(const std::string& wanted) {
    const auto name = language::normalise_name(wanted);
    if (!name)
        throw Failure{errors::failed, "\"" + wanted +
                                          "\" is not written like a name: a letter, then letters, "
                                          "digits and _, at most 64."};
    if (language::is_reserved(*name))
        throw Failure{errors::failed,
                      "\"" + *name +
                          "\" is a word of the language or a unit and cannot be a name."};
    return *name;
}

} // namespace

Json prepare_rename(Session& session, const Json& params) {
    const Asked at = asked(session, params);
    const Occurrence one = renamable(session, at);
    return Json{{"range", json_of(session.text(at.path).range(one.place, session.encoding))},
                {"placeholder", one.name}};
}

Json rename(Session& session, const Client& client, const Json& params) {
    const Asked at = asked(session, params);
    const Occurrence one = renamable(session, at);
    const std::string name = new_name(params.at("newName").get<std::string>());
    std::vector<std::string> faulty;
    const std::vector<Found> all = everywhere(session, at.path, one.name, &faulty);
    if (!faulty.empty())
        throw Failure{errors::failed, "Mend the faults of " + faulty.front() +
                                          " first: a line that cannot be read may hold this name."};
    if (const auto clash =
            name == one.name ? std::nullopt : clash_of(session, at.path, one.name, name))
        throw Failure{errors::failed, "There is something called \"" + name + "\" already in " +
                                          *clash + " or what it builds on."};
    if (name != one.name)
        if (const auto other = made_of_other(session, at.path, one.name, name))
            throw Failure{errors::failed, *other};
    std::map<std::string, Json> edits;
    for (const Found& found : all) {
        Json& list = edits[found.path];
        if (list.is_null()) list = Json::array();
        list.push_back(Json{{"range", json_of(where_of(session, found).range)}, {"newText", name}});
    }
    if (!client.document_changes) {
        Json changes = Json::object();
        for (auto& [path, list] : edits)
            changes[session.uri_of(path)] = std::move(list);
        return Json{{"changes", std::move(changes)}};
    }
    Json changes = Json::array();
    for (auto& [path, list] : edits) {
        const Open* open = session.open_at(path);
        Json document{{"uri", session.uri_of(path)},
                      {"version", open != nullptr ? Json(open->version) : Json(nullptr)}};
        changes.push_back(Json{{"textDocument", std::move(document)}, {"edits", std::move(list)}});
    }
    return Json{{"documentChanges", std::move(changes)}};
}

} // namespace jarful::assist
