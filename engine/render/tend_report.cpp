#include "engine/render/tend_report.hpp"

namespace jarful::render {

TendReport tend_report(const plan::WeighOut& out, tend::Date start,
                       std::optional<double> room_celsius) {
    TendReport report;
    report.title = out.title;
    report.version = out.version;
    report.kind = out.kind;
    report.method = out.method;
    report.kitchen = out.kitchen;
    report.kitchen_built_in = out.kitchen_built_in;
    report.jars = out.chosen_jars;
    report.cautions = out.cautions;
    report.shown = out.shown;
    report.schedule =
        tend::make_schedule(out.kind, out.method, out.method_lines, start, room_celsius, out.shown);
    return report;
}

} // namespace jarful::render
