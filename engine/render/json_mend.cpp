#include "engine/render/fields/results.hpp"
#include "engine/render/fields/shared.hpp"
#include "engine/render/mend_report.hpp"

namespace jarful::fields {

namespace {

using plan::Addition;
constexpr auto addition_fields = fields<Addition>({
    {"name", text<&Addition::name>, "The name in the recipe."},
    {"material", maybe(text<&Addition::material>), "As resolved."},
    {"exact_g", number<&Addition::exact_g>, "What it comes to before it is rounded.", "g"},
    {"reading_g", number<&Addition::reading_g>, "What to wait for on the scale.", "g"},
    {"scale", text<&Addition::scale>, "The scale's name."},
});
constexpr Shape<Addition> addition{"addition", "One thing to add.", table<addition_fields>};

using plan::Way;
constexpr auto way_fields = fields<Way>({
    {"text", text<&Way::text>, "What it is, in a few words."},
    {"add", list<addition, &Way::add>, "What to add."},
    {"salt", maybe(object<basis_figure, &Way::salt>), "The salt afterwards."},
    {"holds", flag<&Way::holds>, "Every bound is kept in the worst case of the readings."},
    {"fill_ml", maybe(number<&Way::fill_ml>), "The room that the batch takes afterwards.", "mL"},
    {"fits", flag<&Way::fits>, "In the jars that were named."},
});
constexpr Shape<Way> way{"way", "One way back.", table<way_fields>};

using plan::MendOut;
constexpr auto mend_fields = fields<MendOut>({
    {"recipe", text<&MendOut::title>, "The recipe's title."},
    {"salt", maybe(object<salt, &MendOut::before>),
     "The salt as it is now; null if there is nothing to judge it by."},
    {"salt_reason", maybe(text<&MendOut::no_salt_reason>), "Why the salt is not judged."},
    {"checks", list<check, &MendOut::checks>, "The bounds of the house as they are now."},
    {"nothing_to_mend", flag<&MendOut::nothing_to_mend>, "All is as it should be."},
    {"usable_ml", maybe(number<&MendOut::usable_ml>), "Room of the jars that were named.", "mL"},
    {"ways", list<way, &MendOut::ways>, "Those that hold first."},
    {"instead", list<caution, &MendOut::instead>,
     "What to do instead, where mending may be too late."},
});
constexpr Shape<MendOut> mend_shape{"mend", "What is wrong, and each way back.",
                                    table<mend_fields>};

} // namespace

constexpr Result mend_result{
    "mend", "jarful.mend/1",
    "The answer of `jarful mend --json`: what is wrong with what is in the jar, and each way back. "
    "Masses in g, volumes in mL, percentages written 2.2 for 2.2 %.",
    mend_shape};

} // namespace jarful::fields

namespace jarful::render {

std::string mend_json(const plan::MendOut& out) {
    return fields::document(fields::mend_result, fields::mend_shape, out);
}

} // namespace jarful::render
