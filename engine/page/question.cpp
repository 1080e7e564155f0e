#include "engine/page/question.hpp"

#include <nlohmann/json.hpp>

#include <cmath>

namespace jarful::page {

namespace {

using Json = nlohmann::json;

constexpr std::size_t most_json = 8u << 20;
constexpr std::size_t most_text = 100'000; ///< of a list to appraise: pages of it
constexpr std::size_t most_words = 64;
constexpr std::size_t longest_word = 400;
constexpr std::size_t most_bases = 64;

/// The members of an object, each read once; the first that is not as it should be is remembered.
class Reader {
  public:
    Reader(const Json& object, std::string where, std::string& fault)
        : object_(object)
        , where_(std::move(where))
        , fault_(fault) {}

    /// The member, unless it is missing or null.
    [[nodiscard]] const Json* at(const char* name) const {
        const auto found = object_.find(name);
        return found == object_.end() || found->is_null() ? nullptr : &*found;
    }

    void wrong(const char* name, const std::string& wanted) {
        if (fault_.empty())
            fault_ = "\"" + where_ + name + "\" of the question must be " + wanted + ".";
    }

    std::string text(const char* name, std::size_t longest) {
        const Json* value = at(name);
        if (value == nullptr) return {};
        if (!value->is_string() || value->get_ref<const std::string&>().size() > longest) {
            wrong(name, "a text of at most " + std::to_string(longest) + " bytes");
            return {};
        }
        return value->get<std::string>();
    }

    std::optional<double> number(const char* name, double least, double most) {
        const Json* value = at(name);
        if (value == nullptr) return std::nullopt;
        if (!value->is_number() || !(value->get<double>() >= least) ||
            !(value->get<double>() <= most)) {
            const auto figure = [](double x) {
                std::string out = std::to_string(x);
                out.erase(out.find_last_not_of('0') + 1);
                if (out.back() == '.') out.pop_back();
                return out;
            };
            wrong(name, "a number from " + figure(least) + " to " + figure(most));
            return std::nullopt;
        }
        return value->get<double>();
    }

    bool flag(const char* name) {
        const Json* value = at(name);
        if (value == nullptr) return false;
        if (!value->is_boolean()) wrong(name, "true or false");
        return value->is_boolean() && value->get<bool>();
    }

    std::vector<std::string> texts(const char* name) {
        std::vector<std::string> out;
        const Json* value = at(name);
        if (value == nullptr) return out;
        bool good = value->is_array() && value->size() <= most_words;
        for (std::size_t i = 0; good && i < value->size(); ++i) {
            const Json& one = (*value)[i];
            good = one.is_string() && one.get_ref<const std::string&>().size() <= longest_word;
            if (good) out.push_back(one.get<std::string>());
        }
        if (!good) {
            wrong(name, "a list of at most " + std::to_string(most_words) + " texts of at most " +
                            std::to_string(longest_word) + " bytes");
            out.clear();
        }
        return out;
    }

    std::optional<render::Units> units() {
        const std::string word = text("units", 16);
        if (word.empty()) return std::nullopt;
        if (word == "us") return render::Units::us;
        if (word == "both") return render::Units::both;
        if (word != "metric") wrong("units", "metric, us or both");
        return render::Units::metric;
    }

    std::optional<tend::Date> day(const char* name) {
        const std::string word = text(name, 16);
        if (word.empty()) return std::nullopt;
        const auto day = tend::read_date(word);
        if (!day) wrong(name, "a day of a calendar, as in 2026-11-25");
        return day;
    }

  private:
    const Json& object_;
    std::string where_;
    std::string& fault_;
};

/// An object, or why there is none.
std::optional<Json> object_of(std::string_view json, std::string& fault) {
    if (json.size() > most_json) {
        fault = "The question is larger than 8 MiB.";
        return std::nullopt;
    }
    Json document = Json::parse(json, nullptr, false);
    if (document.is_discarded() || !document.is_object()) {
        fault = "The question is no JSON object.";
        return std::nullopt;
    }
    return document;
}

void read_reader(const Json& object, WeighQuestion& question, std::string& fault) {
    Reader reader(object, "reader.", fault);
    // Without a scale is said by null; a member that is missing leaves the kitchen's scales.
    const auto step = object.find("step_g");
    question.no_scale = step != object.end() && step->is_null();
    question.step_g = reader.number("step_g", 0.001, 1000);
    question.room_celsius = reader.number("room_c", -10, 50);
    const std::string spoons = reader.text("spoons", 16);
    if (!spoons.empty()) {
        const auto measures = larder::find_measures(spoons);
        if (measures) {
            question.spoons = *measures;
        } else {
            reader.wrong("spoons", "us, metric, imperial or label");
        }
    }
    const Json* jar = reader.at("jar");
    if (jar == nullptr) return;
    if (!jar->is_object()) {
        reader.wrong("jar", "an object");
        return;
    }
    Reader of_jar(*jar, "reader.jar.", fault);
    ReaderJar own;
    own.name = of_jar.text("name", longest_word);
    const auto brimful = of_jar.number("brimful_ml", 10, 1e6);
    if (!brimful && own.name.empty()) of_jar.wrong("brimful_ml", "a number from 10 to 1000000");
    own.brimful_ml = brimful.value_or(0);
    own.across_cm = of_jar.number("across_cm", 1, 200);
    if (const auto have = of_jar.number("have", 1, 100))
        own.have = static_cast<int>(std::lround(*have));
    question.jar = own;
}

WeighQuestion weigh_question(const Json& object, std::string& fault) {
    Reader reader(object, "", fault);
    WeighQuestion question;
    question.words = {.settings = reader.texts("words"),
                      .without = reader.texts("without"),
                      .poured = reader.texts("poured"),
                      .moving = reader.text("for", longest_word),
                      .yes = reader.flag("yes")};
    question.grain = reader.text("grain", longest_word);
    question.units = reader.units();
    question.start = reader.day("start");
    // Seconds since 1970 of the years 2020 to 2999.
    if (const auto made = reader.number("made", 1577836800, 32503680000))
        question.made =
            std::chrono::sys_seconds{std::chrono::seconds{static_cast<long long>(*made)}};
    if (const Json* own = reader.at("reader")) {
        if (own->is_object()) {
            read_reader(*own, question, fault);
        } else {
            reader.wrong("reader", "an object");
        }
    }
    return question;
}

} // namespace

Question read_question(std::string_view json) {
    Question out;
    const auto object = object_of(json, out.fault);
    if (!object) return out;
    Reader reader(*object, "", out.fault);
    const std::string asked = reader.text("do", 64);
    if (asked == "weigh") {
        WeighQuestion question = weigh_question(*object, out.fault);
        if (out.fault.empty()) out.weigh = std::move(question);
    } else if (asked == "appraise") {
        AppraiseQuestion question;
        question.text = reader.text("text", most_text);
        question.kind = reader.text("kind", longest_word);
        question.units = reader.units().value_or(render::Units::metric);
        if (out.fault.empty()) out.appraise = std::move(question);
    } else {
        reader.wrong("do", "weigh or appraise");
    }
    return out;
}

std::optional<load::Texts> read_load(std::string_view json, std::string& fault) {
    const auto object = object_of(json, fault);
    if (!object) return std::nullopt;
    Reader reader(*object, "", fault);
    load::Texts out;
    if (reader.at("recipe") == nullptr) reader.wrong("recipe", "the text of a recipe");
    out.recipe = reader.text("recipe", most_json);
    if (reader.at("kitchen") != nullptr) out.kitchen = reader.text("kitchen", most_json);
    if (reader.at("house") != nullptr) out.house = reader.text("house", most_json);
    if (const Json* bases = reader.at("bases")) {
        if (!bases->is_array() || bases->size() > most_bases) {
            reader.wrong("bases", "a list of at most " + std::to_string(most_bases));
        } else {
            for (const Json& base : *bases) {
                if (!base.is_object()) {
                    reader.wrong("bases", "a list of objects");
                    break;
                }
                Reader of_base(base, "bases.", fault);
                out.bases.push_back(
                    {of_base.text("name", longest_word), of_base.text("text", most_json)});
            }
        }
    }
    if (!fault.empty()) return std::nullopt;
    return out;
}

} // namespace jarful::page
