#include "engine/library/words.hpp"

#include "engine/units/amount.hpp"

#include <algorithm>

namespace jarful::library {

// ---- check ----

namespace {

using Sort = render::CheckedFile::Sort;

Sort sort_of(language::FileKind kind) {
    switch (kind) {
    case language::FileKind::recipe:
        return Sort::recipe;
    case language::FileKind::kitchen:
        return Sort::kitchen;
    case language::FileKind::house:
        return Sort::house;
    case language::FileKind::batch:
        return Sort::batch;
    case language::FileKind::unknown:
        break;
    }
    return Sort::unknown;
}

} // namespace

render::CheckedFile look_at(std::string path, load::LoadedFile file,
                            const std::function<const load::LoadedKitchen&()>& kitchen_of,
                            plan::Reasons reasons) {
    render::CheckedFile out;
    out.path = std::move(path);
    out.sort = sort_of(file.document.kind);
    out.result = load::examine(file, kitchen_of, reasons);
    out.findings = file.findings.all();
    out.read = file.read;
    out.source = std::move(file.document.source);
    return out;
}

int status_of(const render::CheckSummary& sum) {
    if (sum.faulty > 0) return status::not_done;
    if (sum.below + sum.above + sum.undecided > 0) return status::something_found;
    return status::nothing_to_say;
}

// ---- appraise ----

std::optional<appraise::LineAnswer> numbered(std::string_view text) {
    const std::size_t equals = text.find('=');
    if (equals == std::string_view::npos || equals == 0 || equals > 6) return std::nullopt;
    appraise::LineAnswer out;
    for (const char c : text.substr(0, equals)) {
        if (c < '0' || c > '9') return std::nullopt;
        out.number = out.number * 10 + static_cast<std::size_t>(c - '0');
    }
    out.text = text.substr(equals + 1);
    return out.number > 0 ? std::optional(out) : std::nullopt;
}

std::optional<appraise::Request> read_request(const AppraiseWords& words, std::string& fault) {
    appraise::Request request;
    request.salt = words.salt;
    appraise::set_kind(request, words.kind);
    for (const std::string& text : words.weighs) {
        const std::size_t equals = text.find('=');
        const auto amount = equals == std::string::npos
                                ? std::nullopt
                                : units::read_amount(std::string_view(text).substr(equals + 1));
        if (!amount || equals == 0 || !(amount->dimension == units::dim::mass) ||
            !(amount->value > 0) || !(amount->value <= 1e6)) {
            fault = "\"" + text +
                    "\" is not understood: write a name, = and a weight without blanks, as in "
                    "--weighs cabbage=1.84kg.";
            return std::nullopt;
        }
        request.pins.push_back({text.substr(0, equals), amount->value});
    }
    for (const std::string& text : words.lines) {
        const auto line = numbered(text);
        if (!line) {
            fault = "\"" + text +
                    "\" is not understood: write the line's number, = and what it is to be read "
                    "as, as in --line \"4=2 qt water\".";
            return std::nullopt;
        }
        request.lines.push_back(*line);
    }
    return request;
}

namespace {

std::vector<appraise::Found> recipes_in(std::string bytes, std::vector<std::string>& remarks) {
    if (!appraise::is_page(bytes)) return {appraise::Found{"", std::move(bytes)}};
    appraise::Page page = appraise::read_page(bytes);
    remarks = std::move(page.remarks);
    if (!page.from_data)
        remarks.push_back("The page holds no recipe data; its text is read, with whatever else "
                          "stands on it.");
    return std::move(page.recipes);
}

} // namespace

AppraisedText appraise_text(std::string bytes, const appraise::Request& request) {
    AppraisedText out;
    if (bytes.size() > appraise::max_bytes) {
        out.fault = too_large;
        return out;
    }
    for (const appraise::Found& one : recipes_in(std::move(bytes), out.remarks)) {
        appraise::Refusal refusal;
        auto appraisal = appraise::appraise(one.text, request, refusal);
        if (!appraisal) {
            out.recipes.clear();
            out.fault = refusal.message + " " + refusal.advice;
            return out;
        }
        out.recipes.push_back(std::move(*appraisal));
    }
    if (std::all_of(out.recipes.begin(), out.recipes.end(),
                    [](const auto& one) { return one.lines.empty(); })) {
        out.recipes.clear();
        out.fault = "Nothing could be read: no line of ingredients. Paste them as they stand, a "
                    "line each.";
    }
    return out;
}

int status_of(std::span<const appraise::Appraisal> recipes) {
    const bool well =
        std::all_of(recipes.begin(), recipes.end(), [](const appraise::Appraisal& one) {
            return one.verdict == appraise::Verdict::inside;
        });
    return well ? status::nothing_to_say : status::something_found;
}

// ---- convert ----

Counter counter_of(const kitchen::Kitchen& kitchen, std::optional<larder::Measures> measures) {
    Counter out;
    for (const larder::OwnMaterial& own : kitchen.materials)
        out.larder.add(own);
    out.measures = measures.value_or(larder::measures_of(kitchen.spoons));
    return out;
}

std::string sentences_of(const larder::ConversionFault& fault) {
    std::string out = fault.message;
    if (!fault.advice.empty()) out += " " + fault.advice;
    std::string list;
    for (const std::string& name : fault.nearest)
        list += (list.empty() ? "" : ", ") + name;
    if (!list.empty()) out += " Nearest in the larder: " + list + ".";
    return out;
}

} // namespace jarful::library
