#pragma once

#include "engine/larder/compile/facts.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <initializer_list>
#include <map>
#include <set>
#include <string>
#include <vector>

/// What the readers of the data files share.
namespace jarful::larder::compile {

using nlohmann::json;

/// Reads entries and gathers faults, so that one run reports them all.
class Reader {
  public:
    Reader(std::string folder, std::vector<std::string>& faults)
        : folder_(std::move(folder))
        , faults_(faults) {}

    void fault(const std::string& where, const std::string& what) {
        faults_.push_back(where + ": " + what + ".");
    }

    /// The list (or object) called `member` in a file of the folder; empty with a fault if it is
    /// not there.
    json load(const std::string& file, const std::string& member) {
        std::ifstream in(folder_ + "/" + file);
        json root = json::parse(in, nullptr, false);
        if (root.is_discarded() || !root.is_object()) {
            fault(file, "cannot be read as JSON");
            return json::array();
        }
        if (member.empty()) return root;
        if (!root.contains(member)) {
            fault(file, "has no \"" + member + "\"");
            return json::array();
        }
        return root.at(member);
    }

    /// Refuses members that nobody reads: most of them are misspelt.
    void only(const json& entry, const std::string& where,
              std::initializer_list<std::string_view> known) {
        if (!entry.is_object()) return;
        for (const auto& [name, value] : entry.items()) {
            if (std::find(known.begin(), known.end(), name) == known.end()) {
                fault(where, "does not know \"" + name + "\"");
            }
        }
    }

    std::string text(const json& entry, const char* member, const std::string& where,
                     bool needed = true) {
        if (entry.contains(member) && entry.at(member).is_string()) {
            std::string value = entry.at(member).get<std::string>();
            if (!value.empty()) return value;
        }
        if (needed || entry.contains(member)) fault(where, std::string("has no ") + member);
        return {};
    }

    std::optional<double> number(const json& entry, const char* member, const std::string& where) {
        if (!entry.contains(member)) return std::nullopt;
        if (!entry.at(member).is_number() || !std::isfinite(entry.at(member).get<double>())) {
            fault(where, std::string(member) + " is not a number");
            return std::nullopt;
        }
        return entry.at(member).get<double>();
    }

    bool flag(const json& entry, const char* member, const std::string& where) {
        if (!entry.contains(member)) return false;
        if (!entry.at(member).is_boolean())
            fault(where, std::string(member) + " is not true or false");
        return entry.at(member) == true;
    }

    /// The list called `member`; empty if there is none.
    json list(const json& entry, const char* member, const std::string& where) {
        if (!entry.contains(member)) return json::array();
        if (!entry.at(member).is_array()) {
            fault(where, std::string(member) + " is not a list");
            return json::array();
        }
        return entry.at(member);
    }

    std::vector<std::string> texts(const json& entry, const char* member,
                                   const std::string& where) {
        std::vector<std::string> out;
        for (const json& item : list(entry, member, where)) {
            if (item.is_string() && !item.get<std::string>().empty()) {
                out.push_back(item.get<std::string>());
            } else {
                fault(where, std::string(member) + " holds something that is not a word");
            }
        }
        return out;
    }

    /// One of a closed set of words. A word that is missing or not known is a fault.
    template <typename Value>
    Value word(const json& entry, const char* member, const std::string& where,
               std::initializer_list<std::pair<std::string_view, Value>> known) {
        const std::string value = text(entry, member, where);
        for (const auto& [name, meaning] : known) {
            if (name == value) return meaning;
        }
        if (!value.empty())
            fault(where, std::string("has an unknown ") + member + " \"" + value + "\"");
        return known.begin()->second;
    }

    Status status(const json& entry, const std::string& where) {
        return word<Status>(entry, "status", where,
                            {{"published", Status::published},
                             {"common_practice", Status::common_practice},
                             {"from_memory", Status::from_memory}});
    }

    Basis basis(const json& entry, const std::string& where) {
        const std::string value = text(entry, "basis", where);
        for (const Basis b : {Basis::of_vegetables, Basis::of_vegetables_and_water, Basis::of_brine,
                              Basis::of_evened_brine, Basis::of_everything, Basis::of_water,
                              Basis::of_drained_brine}) {
            if (key(b) == value) return b;
        }
        fault(where, "has an unknown basis \"" + value + "\"");
        return Basis::of_vegetables;
    }

    void load_sources() {
        const json sources = load("sources.json", "sources");
        for (const auto& [name, value] : sources.items()) {
            if (!value.is_string() || value.get<std::string>().empty()) {
                fault("sources.json, " + name, "has no text");
            } else {
                sources_[name] = value.get<std::string>();
            }
        }
        for (const json& name : load("sources.json", "nameless")) {
            if (!name.is_string() || !sources_.contains(name.get<std::string>())) {
                fault("sources.json, nameless", "names what is no source");
            } else {
                nameless_.insert(name.get<std::string>());
            }
        }
    }

    /// Whether nobody can look up the entry's source: a page without its publisher, a chapter
    /// without its book. Nothing may rule on it, and no figure of it is called published.
    bool nameless(const json& entry) const {
        return entry.contains("source") && entry.at("source").is_string() &&
               nameless_.contains(entry.at("source").get<std::string>());
    }

    /// The document behind an entry's source key.
    std::string source(const json& entry, const std::string& where) {
        const std::string name = text(entry, "source", where);
        const auto found = sources_.find(name);
        if (found == sources_.end()) {
            if (!name.empty()) fault(where, "has an unknown source \"" + name + "\"");
            return {};
        }
        used_sources_.insert(name);
        return found->second;
    }

    void refuse_unused_sources() {
        for (const auto& [name, value] : sources_) {
            if (!used_sources_.contains(name)) fault("sources.json, " + name, "is used by nothing");
        }
    }

    std::optional<FigureFact> figure(const json& entry, const char* member,
                                     const std::string& outer, double greatest) {
        if (!entry.contains(member)) return std::nullopt;
        const std::string where = outer + ", " + member;
        const json& f = entry.at(member);
        only(f, where, {"low", "typical", "high", "status", "source", "section"});
        FigureFact figure;
        for (const auto& [name, target] : {std::pair{"low", &figure.low},
                                           {"typical", &figure.typical},
                                           {"high", &figure.high}}) {
            if (const auto value = number(f, name, where)) {
                *target = *value;
            } else {
                fault(where, std::string("has no ") + name);
            }
        }
        if (!(figure.low <= figure.typical && figure.typical <= figure.high)) {
            fault(where, "low, typical and high are not in that order");
        }
        if (figure.low < 0 || figure.high > greatest) fault(where, "is out of its bounds");
        figure.status = status(f, where);
        figure.source = source(f, where);
        if (figure.status == Status::published && nameless(f))
            fault(where, "is called published, and its source has no name");
        if (const std::string section = text(f, "section", where, false); !section.empty()) {
            figure.source += ", " + section;
        }
        return figure;
    }

  private:
    std::string folder_;
    std::vector<std::string>& faults_;
    std::map<std::string, std::string> sources_;
    std::set<std::string> used_sources_;
    std::set<std::string> nameless_;
};

/// Days, temperatures and pH: timing.json. The kinds are read before it.
void read_timing(Reader& reader, Facts& facts);

} // namespace jarful::larder::compile
