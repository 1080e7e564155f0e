#include "engine/render/fields/shared.hpp"

#include "engine/language/words.hpp"

namespace jarful::fields {

namespace {

// ---- A recipe and a kitchen by name. ----

constexpr auto recipe_head_fields = fields<RecipeHead>({
    {"title", text<&RecipeHead::title>, "As in the recipe."},
    {"version", maybe(whole<&RecipeHead::version>), "As in the recipe."},
    {"kind", maybe(text<&RecipeHead::kind>), "The kind of ferment."},
    {"method", maybe(text<&RecipeHead::method>), "The kind's method, where it has several."},
});
constexpr auto kitchen_head_fields = fields<KitchenHead>({
    {"name", text<&KitchenHead::name>, "As in the kitchen file."},
    {"built_in", flag<&KitchenHead::built_in>, "Whether no kitchen was found."},
});

// ---- Weighing. ----

constexpr auto portion_fields = fields<plan::Portion>({
    {"scale", text<&plan::Portion::scale>, "The scale's name."},
    {"reading_g", number<&plan::Portion::reading_g>, "What to wait for.", "g"},
});
constexpr auto reading_fields = fields<Reading>({
    {"exact_g", number<&Reading::exact_g>, "What it comes to before it is rounded.", "g"},
    {"reading_g", maybe(number<&Reading::reading_g>),
     "What to wait for on the scale, of all portions together; null for what is weighed later.",
     "g"},
    {"step_g", number<&Reading::step_g>, "The scale's step.", "g"},
    {"scale", maybe(text<&Reading::scale>), "The scale's name."},
    {"low_g", low<&Reading::truth>, "The least that may really have been weighed.", "g"},
    {"high_g", high<&Reading::truth>, "The most that may really have been weighed.", "g"},
    {"too_small", flag<&Reading::too_small>, "The scale would show nothing."},
    {"portions", list<portion, &Reading::portions>,
     "One, or several where it is more than the scale carries; none for what is weighed later or "
     "is too little for the scale."},
});

// ---- Salt. ----

template <auto end>
std::optional<double> percent_at(const RangeEnds& range) {
    const plan::RangeEnd* at = range.*end;
    if (at == nullptr) return std::nullopt;
    return at->percent;
}

template <auto end, auto member>
std::string_view text_at(const RangeEnds& range) {
    const plan::RangeEnd* at = range.*end;
    return at == nullptr ? std::string_view() : std::string_view(at->*member);
}

constexpr auto low_end = &RangeEnds::low;
constexpr auto high_end = &RangeEnds::high;
constexpr auto source_of = &plan::RangeEnd::source;
constexpr auto status_of = &plan::RangeEnd::status;
constexpr auto row_of = &plan::RangeEnd::row;

constexpr auto range_ends_fields = fields<RangeEnds>({
    {"low", maybe(number<percent_at<low_end>>), "Null if the range has no low end.", "percent"},
    {"high", maybe(number<percent_at<high_end>>), "Null if the range has no high end.", "percent"},
    {"low_source", maybe(text<text_at<low_end, source_of>>),
     "Document and section that the low end rests on."},
    {"high_source", maybe(text<text_at<high_end, source_of>>),
     "Document and section that the high end rests on."},
    {"low_status", maybe(choice<standing_words, text_at<low_end, status_of>>)},
    {"high_status", maybe(choice<standing_words, text_at<high_end, status_of>>)},
});

constexpr auto range_fields = fields<RangeEnds>({
    parts<range_ends_shape, itself<RangeEnds>>,
    {"low_row", maybe(text<text_at<low_end, row_of>>),
     "The low end's row in `jarful ranges --json`."},
    {"high_row", maybe(text<text_at<high_end, row_of>>),
     "The high end's row in `jarful ranges --json`."},
});
constexpr Shape<RangeEnds> range{"range", "The ruling range, and the rows that it rests on.",
                                 table<range_fields>};

constexpr auto basis_figure_fields = fields<plan::BasisFigure>({
    {"basis", choice<basis_words, &plan::BasisFigure::basis>},
    {"percent", number<&plan::BasisFigure::percent>,
     "Of what the scales show or what was poured, by the exact amounts where nothing is weighed; "
     "written 2.2 for 2.2 %."},
    {"low", low<&plan::BasisFigure::bounds>,
     "The least that it may be; null if there is no such bound.", "percent"},
    {"high", high<&plan::BasisFigure::bounds>,
     "The most that it may be; null if there is no such bound.", "percent"},
});

constexpr auto nearby_fields = fields<plan::NearbyRow>({
    {"text", text<&plan::NearbyRow::text>, "The figure and what it is."},
    {"source", maybe(text<&plan::NearbyRow::source>), "Document and section."},
});
constexpr Shape<plan::NearbyRow> nearby{"nearby", "A row that says something else near a figure.",
                                        table<nearby_fields>};

using Variant = plan::SaltJudgement::Variant;
constexpr auto variant_fields = fields<Variant>({
    {"text", text<&Variant::text>, "What is different, as in `without apple`."},
    {"low", low<&Variant::bounds>, "The least that the salt may then be.", "percent"},
    {"high", high<&Variant::bounds>, "The most that the salt may then be.", "percent"},
    {"verdict", choice<verdict_words, &Variant::verdict>},
});
constexpr Shape<Variant> variant{"variant", "The salt, if one thing is done otherwise.",
                                 table<variant_fields>};

std::optional<RangeEnds> range_of(const plan::SaltJudgement& judged) {
    return range_ends(judged.low, judged.high);
}

using Salt = plan::SaltJudgement;
constexpr auto salt_fields = fields<Salt>({
    parts<basis_figure, &Salt::figure>,
    {"range", maybe(object<range, range_of>), "Null if no figure is published or practised."},
    {"why", maybe(text<&Salt::why>), "Which row rules and why."},
    {"verdict", choice<verdict_words, &Salt::verdict>},
    {"reason", text<&Salt::reason>, "The verdict in a sentence."},
    {"decides", maybe(text<&Salt::decides>), "What would settle an undecided verdict."},
    {"nearby", list<nearby, &Salt::nearby>, "Rows that say something else near this figure."},
    {"variants", list<variant, &Salt::variants>,
     "The same without optional lines, or with a cap dissolved."},
    {"by_the_spoon", sometimes(object<interval, &Salt::by_the_spoon>),
     "What the spoons alone would come to; only for salt written in spoons.", "percent"},
});

using Check = plan::HoldCheck;
constexpr auto check_fields = fields<Check>({
    {"text", text<&Check::text>, "The held expression, as written."},
    {"unit", text<&Check::unit>, "Unit of the figures: %, g, mL, or empty for a plain number."},
    {"low", low<&Check::value>, "The least that it may be."},
    {"high", high<&Check::value>, "The most that it may be."},
    {"at_least", maybe(number<&Check::at_least>), "The low bound, included."},
    {"at_most", maybe(number<&Check::at_most>), "The high bound, included."},
    {"verdict", choice<verdict_words, &Check::verdict>},
    {"why", maybe(text<&Check::why>), "What the recipe says of it."},
    {"reason", text<&Check::reason>, "A sentence."},
    {"decides", maybe(text<&Check::decides>), "What would settle an undecided verdict."},
});

using Warning = plan::Warning;
constexpr auto caution_fields = fields<Warning>({
    {"id", text<&Warning::id>, "Stable key."},
    {"title", text<&Warning::title>, "A few words."},
    {"text", text<&Warning::text>, "What to check and what to do."},
    {"source", maybe(text<&Warning::source>), "Document."},
});

// ---- Findings. ----

constexpr auto place_fields = fields<FoundAt>({
    {"line", maybe(at_least(1, whole<&FoundAt::line>)),
     "From 1; null for a finding about the file as a whole."},
    {"column", maybe(at_least(1, whole<&FoundAt::column>)),
     "From 1, in characters; null likewise."},
    {"end_line", maybe(at_least(1, whole<&FoundAt::end_line>)), "Where the place ends."},
    {"end_column", maybe(at_least(1, whole<&FoundAt::end_column>)),
     "One beyond the last character."},
    {"file", sometimes(text<&FoundAt::file>),
     "The file that the place is in, where it is not the file that was looked at: that of an "
     "inherited line, or the house's."},
});
constexpr Shape<FoundAt> place_shape{"place", "A place in a file.", table<place_fields>};

constexpr auto related_fields = fields<LocatedRelated>({
    parts<place_shape, &LocatedRelated::at>,
    {"text", text<&LocatedRelated::text>, "What is there."},
});
constexpr Shape<LocatedRelated> related{"related", "Another place that belongs to a finding.",
                                        table<related_fields>};

std::string_view severity_word(language::Severity severity) {
    return severity == language::Severity::fault ? "fault" : "remark";
}
constexpr auto severity_words = one_of<language::Severity>(
    severity_word, {language::Severity::fault, language::Severity::remark});

using Found = LocatedDiagnostic;
constexpr auto diagnostic_fields = fields<Found>({
    parts<place_shape, &Found::at>,
    {"severity", choice<severity_words, &Found::severity>,
     "A fault stops the file from being used."},
    {"code", like("^[a-z][a-z0-9-]*$", text<&Found::code>),
     "Stable; listed in docs/diagnostics.md."},
    {"message", text<&Found::message>, "What is wrong, a sentence."},
    {"advice", maybe(text<&Found::advice>), "What to do, a sentence."},
    {"related", list<related, &Found::related>, "Other places that belong to it."},
});

FoundAt found_at(const language::Source& source, language::Place place) {
    const language::LineColumn from = source.locate(place.begin);
    const language::LineColumn to = source.locate(place.end);
    FoundAt out{from.line, from.column, to.line, to.column, ""};
    // Of an inherited line: the file that it stands in.
    if (const std::string& file = source.name_at(place.begin); file != source.name())
        out.file = file;
    return out;
}

} // namespace

std::vector<std::string_view> read_tasks() {
    const auto words = language::task_words();
    return {words.begin(), words.end()};
}

std::vector<std::string_view> read_periods() {
    // Of each the one and the many: "day", "days".
    std::vector<std::string_view> out;
    const auto words = language::period_words();
    for (std::size_t i = 0; i < words.size(); i += 2)
        out.push_back(words[i]);
    return out;
}

constexpr Shape<RecipeHead> recipe_head_shape{"recipe_head", "The recipe.",
                                              table<recipe_head_fields>};
constexpr Shape<KitchenHead> kitchen_head_shape{"kitchen_head", "The kitchen.",
                                                table<kitchen_head_fields>};
constexpr Shape<plan::Portion> portion{"portion", "One go.", table<portion_fields>};
constexpr Shape<Reading> reading{"reading", "One quantity on one scale.", table<reading_fields>};
constexpr Shape<RangeEnds> range_ends_shape{"range_ends", "The ruling range.",
                                            table<range_ends_fields>};
constexpr Shape<plan::BasisFigure> basis_figure{"basis_figure", "The salt by one basis.",
                                                table<basis_figure_fields>};
constexpr Shape<plan::SaltJudgement> salt{
    "salt", "The salt on the basis that its range is stated on.", table<salt_fields>};
constexpr Shape<plan::HoldCheck> check{"check", "A bound of the house (`hold`).",
                                       table<check_fields>};
constexpr Shape<plan::Warning> caution{"caution", "What can hurt, and what to do.",
                                       table<caution_fields>};
constexpr Shape<LocatedDiagnostic> diagnostic{"diagnostic", "What is wrong, where, and what to do.",
                                              table<diagnostic_fields>};

std::optional<RangeEnds> range_ends(const std::optional<plan::RangeEnd>& low,
                                    const std::optional<plan::RangeEnd>& high) {
    if (!low && !high) return std::nullopt;
    return RangeEnds{low ? &*low : nullptr, high ? &*high : nullptr};
}

LocatedDiagnostic located(const language::Source& source, const language::Diagnostic& found) {
    LocatedDiagnostic out{{}, found.severity, found.code, found.message, found.advice, {}};
    if (found.place) out.at = found_at(source, *found.place);
    for (const language::Related& other : found.related)
        out.related.push_back({found_at(source, other.place), other.text});
    return out;
}

} // namespace jarful::fields
