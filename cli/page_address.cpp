#include "cli/page_address.hpp"

#include "cli/qr_code.hpp"
#include "engine/page/publish.hpp"

#include <algorithm>

namespace jarful::cli {

namespace {

const language::Quantity* quantity(const language::Document& recipe, const std::string& name) {
    for (const language::Line& line : recipe.lines) {
        const auto* q = std::get_if<language::Quantity>(&line.statement);
        if (q != nullptr && q->name.value == name) return q;
    }
    return nullptr;
}

/// The amount as it was typed.
std::string amount_of(const std::string& word) {
    std::string text = word.substr(std::min(word.find('='), word.size() - 1) + 1);
    text.erase(0, text.find_first_not_of(" \t"));
    return text;
}

class Fragment {
  public:
    void put(const std::string& key, const std::string& value) {
        out_ += out_.empty() ? "" : "&";
        out_ += page::in_address(key) + "=" + page::in_address(value);
    }
    [[nodiscard]] const std::string& written() const { return out_; }

  private:
    std::string out_;
};

/// One setting; false if a page has no way to be asked it.
bool put_setting(Fragment& out, const language::Document& recipe, const plan::Setting& setting,
                 const std::string& word) {
    using language::QuantityWord;
    if (setting.name == "jar") {
        const auto& jars = setting.jars;
        const bool alike = !jars.empty() && std::count(jars.begin(), jars.end(), jars.front()) ==
                                                static_cast<std::ptrdiff_t>(jars.size());
        if (!alike) return false;
        out.put("by", "jar");
        out.put("jar", jars.front());
        out.put("have", std::to_string(jars.size()));
        return true;
    }
    const language::Quantity* q = quantity(recipe, setting.name);
    if (q == nullptr) return false;
    if (q->word == QuantityWord::given || q->word == QuantityWord::total ||
        q->word == QuantityWord::measure) {
        out.put("." + setting.name, amount_of(word));
        return true;
    }
    const bool salt =
        q->word == QuantityWord::weigh &&
        (setting.name == "salt" ||
         (q->tail.material && q->tail.material->value.find("salt") != std::string::npos));
    if (!salt) return false;
    out.put("by", "salt");
    out.put("cell", setting.name);
    out.put("salt", amount_of(word));
    return true;
}

} // namespace

bool is_address(const std::string& text) {
    const bool starts = text.starts_with("https://") || text.starts_with("http://");
    return starts && text.size() > 8 && std::none_of(text.begin(), text.end(), [](unsigned char c) {
               return c <= ' ' || c >= 0x7f || c == '"' || c == '<' || c == '>' || c == '#';
           });
}

std::string no_address(const std::string& text) {
    return in_quotes(text) +
           " is no address of a page. Write it as in --address https://garden.example/kraut.html, "
           "without a #.";
}

std::optional<render::CardAddress> with_code(std::string url, std::string& why) {
    render::CardAddress out;
    out.code = qr_code(url, why);
    if (!out.code) return std::nullopt;
    out.url = std::move(url);
    return out;
}

std::optional<std::string> page_fragment(const language::Document& recipe,
                                         const RequestWords& words, const plan::Request& request,
                                         const std::optional<std::string>& start,
                                         std::optional<render::Units> units, std::string& why) {
    Fragment out;
    if (!request.poured.empty() || !request.moving.empty()) {
        why = "a page cannot be asked with --poured or --for; leave --address out.";
        return std::nullopt;
    }
    for (std::size_t i = 0; i < request.settings.size(); ++i) {
        if (put_setting(out, recipe, request.settings[i], words.settings[i])) continue;
        why = "a page cannot be asked for " + in_quotes(words.settings[i]) +
              "; leave --address out, or set what is weighed first.";
        return std::nullopt;
    }
    if (units)
        out.put("units", *units == render::Units::us     ? "us"
                         : *units == render::Units::both ? "both"
                                                         : "metric");
    if (start) out.put("start", *start);
    if (!request.without.empty()) {
        std::string names;
        for (const std::string& name : request.without)
            names += (names.empty() ? "" : ",") + name;
        out.put("without", names);
    }
    return out.written();
}

} // namespace jarful::cli
