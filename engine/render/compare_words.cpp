#include "engine/render/compare_report.hpp"
#include "engine/render/text_parts.hpp"
#include "engine/render/words.hpp"
#include "engine/units/amount.hpp"

#include <cmath>

namespace jarful::render {

namespace {

using plan::ComparedAmount;
using plan::ComparedLine;

/// A reading where both readings tell the change, otherwise the amounts before they were rounded.
std::string amount_words(const ComparedAmount& amount, bool exact, Units units) {
    std::string out;
    if (amount.pieces) {
        out = exact ? units::print_number(amount.exact_g, 4)
                    : std::to_string(static_cast<int>(amount.reading_g));
    } else if (units != Units::metric || exact || amount.reading_g <= 0) {
        out = exact || amount.reading_g <= 0 ? mass(amount.exact_g, units)
                                             : weighed_mass(amount.reading_g, amount.step_g, units);
    } else {
        out = units::print_reading(amount.reading_g, amount.step_g);
    }
    if (amount.share_percent) out += " (" + percent(*amount.share_percent) + " %)";
    return out;
}

std::string change_words(const ComparedLine& line, bool exact, Units units) {
    if (!line.before) return "new";
    if (!line.after) return "gone";
    if (!line.amount_differs || line.before->pieces != line.after->pieces) return "";
    const double change = exact ? line.after->exact_g - line.before->exact_g
                                : line.after->reading_g - line.before->reading_g;
    const std::string sign = change < 0 ? "−" : "+";
    if (line.after->pieces) return sign + units::print_number(std::fabs(change), 4);
    return sign + mass(std::fabs(change), units);
}

std::string jar_figure(const std::optional<double>& value, std::string (*print)(double)) {
    return value ? print(*value) : "nothing said";
}

} // namespace

std::vector<CompareRow> compare_rows(const plan::Comparison& comparison, Units units) {
    std::vector<CompareRow> out;
    for (const ComparedLine& line : comparison.lines) {
        if (!line.differs()) continue;
        const bool exact = line.before && line.after && line.amount_differs &&
                           line.before->reading_g == line.after->reading_g;
        CompareRow row;
        row.name = line.name;
        row.before = line.before ? amount_words(*line.before, exact, units) : "–";
        row.after = line.after ? amount_words(*line.after, exact, units) : "–";
        row.change = change_words(line, exact, units);
        out.push_back(std::move(row));
        for (const std::string& remark : line.remarks)
            out.push_back({"", "", "", remark});
    }
    return out;
}

std::string compare_salt_words(const plan::ComparedSalt& salt) {
    if (salt.salt) return stopped(salt_in_short(*salt.salt));
    return "not judged: " + stopped(salt.why_not);
}

std::vector<std::string> compare_facts(const plan::Comparison& comparison, Units units) {
    std::vector<std::string> out;
    const auto say = [&](const std::string& what, const std::string& after,
                         const std::string& before) {
        out.push_back(what + ": " + after + ", before " + before + ".");
    };
    if (comparison.kind_before != comparison.kind_after)
        say("Kind", comparison.kind_after, comparison.kind_before);
    if (comparison.fill_ml.differs()) {
        const auto print = [&](const std::optional<double>& ml) {
            return ml ? volume(*ml, units) : std::string("nothing said");
        };
        say("Room that it takes", print(comparison.fill_ml.after),
            print(comparison.fill_ml.before));
    }
    const auto in_percent = [](double value) { return percent(value) + " %"; };
    if (comparison.headspace_percent.differs())
        say("Headspace", jar_figure(comparison.headspace_percent.after, in_percent),
            jar_figure(comparison.headspace_percent.before, in_percent));
    const auto in_cm = [](double value) { return units::print_number(value, 3) + " cm"; };
    if (comparison.headspace_cm.differs())
        say("Headspace", jar_figure(comparison.headspace_cm.after, in_cm),
            jar_figure(comparison.headspace_cm.before, in_cm));
    const auto of_water = [](double value) { return percent(value) + " g to 100 g of water"; };
    if (comparison.topup_percent.differs())
        say("Salt of the top-up", jar_figure(comparison.topup_percent.after, of_water),
            jar_figure(comparison.topup_percent.before, of_water));
    return out;
}

std::string compare_batch(const plan::Comparison& comparison) {
    return comparison.batch.empty() ? "Neither has a given." : "For " + comparison.batch + ".";
}

} // namespace jarful::render
