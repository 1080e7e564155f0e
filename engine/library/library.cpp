#include "engine/jarful.hpp"
#include "engine/plan/packing.hpp"
#include "engine/plan/plan.hpp"
#include "engine/render/appraise_report.hpp"
#include "engine/render/convert_report.hpp"
#include "engine/render/fields/shared.hpp"
#include "engine/render/json_weigh.hpp"
#include "engine/render/text_weigh.hpp"

namespace jarful::library {

namespace {

using status::nothing_to_say;
using status::something_found;
using List = std::vector<Finding>;

void add(List& list, const language::Source& source,
         const std::vector<language::Diagnostic>& findings) {
    for (const language::Diagnostic& one : findings) {
        const fields::LocatedDiagnostic found = fields::located(source, one);
        list.push_back({found.at.file.empty() ? source.name() : found.at.file,
                        found.at.line.value_or(0), found.at.column.value_or(0), found.code,
                        found.severity == language::Severity::fault, found.message, found.advice});
    }
}

void add(List& list, const std::string& words, const language::Findings& findings) {
    add(list, language::Source(words, words), findings.all());
}

void add_each(List& list, const std::vector<std::string>& words,
              const std::vector<language::Findings>& findings) {
    for (std::size_t i = 0; i < words.size() && i < findings.size(); ++i)
        add(list, words[i], findings[i]);
}

void add(List& list, const plan::RequestWords& words, const plan::RequestFindings& found) {
    add_each(list, words.settings, found.settings);
    add_each(list, words.without, found.without);
    add_each(list, words.poured, found.poured);
    add(list, words.moving.value_or(""), found.moving);
    add(list, "bowl=" + words.bowl.value_or(""), found.bowl);
}

void add(List& list, load::LoadedFile& file) {
    file.findings.sort();
    add(list, file.document.source, file.findings.all());
}

void add(List& list, std::string code, bool fault, std::string sentences) {
    list.push_back({"", 0, 0, std::move(code), fault, std::move(sentences), ""});
}

render::CheckSummary summary_of(const render::CheckedFile& file) {
    render::CheckSummary out;
    out.add(file);
    return out;
}

} // namespace

Answer<plan::WeighOut> weigh(const Texts& texts, const plan::RequestWords& words,
                             render::Units units) {
    Answer<plan::WeighOut> out;
    load::Together all = load::put_together(texts);
    load::want_recipe(all.recipe);
    plan::Request request;
    plan::RequestFindings of_words, found;
    const bool understood = plan::read_request(words, request, of_words);
    if (understood && all.recipe.ok() && all.kitchen.ok()) {
        all.kitchen.kitchen.shown = units;
        out.data = plan::weigh(all.recipe.document, all.kitchen.kitchen, request,
                               all.recipe.findings, found);
    }
    add(out.findings, all.recipe);
    add(out.findings, all.kitchen.file);
    add(out.findings, words, of_words);
    add(out.findings, words, found);
    if (out.data) out.status = plan::all_well(*out.data) ? nothing_to_say : something_found;
    return out;
}

Answer<render::CheckedFile> check(const Texts& texts) {
    Answer<render::CheckedFile> out;
    load::Together all = load::put_together(texts);
    out.data = look_at(texts.name, std::move(all.recipe),
                       [&]() -> const load::LoadedKitchen& { return all.kitchen; });
    add(out.findings, out.data->source, out.data->findings);
    add(out.findings, all.kitchen.file);
    out.status = status_of(summary_of(*out.data));
    return out;
}

Answer<std::vector<appraise::Appraisal>> appraise(std::string_view text,
                                                  const AppraiseWords& words) {
    Answer<std::vector<appraise::Appraisal>> out;
    std::string fault;
    if (const auto request = read_request(words, fault)) {
        AppraisedText read = appraise_text(std::string(text), *request);
        for (std::string& remark : read.remarks)
            add(out.findings, "page-source", false, std::move(remark));
        fault = std::move(read.fault);
        if (fault.empty()) {
            out.status = status_of(read.recipes);
            out.data = std::move(read.recipes);
        }
    }
    if (!fault.empty()) add(out.findings, "not-appraised", true, std::move(fault));
    return out;
}

Answer<larder::Conversion> convert(std::string_view words, const Texts& texts,
                                   std::optional<larder::Measures> measures) {
    Answer<larder::Conversion> out;
    load::LoadedKitchen kitchen = load::kitchen_of(texts);
    add(out.findings, kitchen.file);
    if (!kitchen.ok()) return out;
    const Counter counter = counter_of(kitchen.kitchen, measures);
    larder::ConversionOutcome outcome =
        larder::convert({std::string(words), "", counter.measures}, counter.larder);
    if (outcome.fault) add(out.findings, outcome.fault->code, true, sentences_of(*outcome.fault));
    if (outcome.conversion) out.status = nothing_to_say;
    out.data = std::move(outcome.conversion);
    return out;
}

std::string json(const plan::WeighOut& data) {
    return render::weigh_json(data);
}
std::string json(const render::CheckedFile& data) {
    return render::check_json_begin() + render::check_json_of(data) +
           render::check_json_end(summary_of(data));
}
std::string json(const std::vector<appraise::Appraisal>& data) {
    return render::appraise_json(data);
}
std::string json(const larder::Conversion& data) {
    return render::convert_json(data);
}

std::string text(const plan::WeighOut& data) {
    return render::weigh_text(data, {.units = data.shown});
}
std::string text(const render::CheckedFile& data) {
    return render::check_text_of(data, {}) + render::check_text_end(summary_of(data), {});
}
std::string text(const std::vector<appraise::Appraisal>& data, render::Units units) {
    std::string out;
    for (const appraise::Appraisal& one : data)
        out += (out.empty() ? "" : "\n\n") + render::appraise_text(one, {.units = units});
    return out;
}
std::string text(const larder::Conversion& data) {
    return render::convert_text(data, {});
}

} // namespace jarful::library
