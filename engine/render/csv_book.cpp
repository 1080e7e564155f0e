#include "engine/render/book_report.hpp"
#include "engine/render/csv.hpp"
#include "engine/units/amount.hpp"

namespace jarful::render {

namespace {

struct Column {
    const char* head;
    std::string (*cell)(const BookRecipe& recipe);
};

/// Flatter than the JSON, and in words where people read them.
constexpr Column book_columns[] = {
    {"path", [](const BookRecipe& r) { return r.path; }},
    {"title", [](const BookRecipe& r) { return r.title; }},
    {"version",
     [](const BookRecipe& r) { return r.version ? std::to_string(*r.version) : std::string(); }},
    {"kind", [](const BookRecipe& r) { return r.kind; }},
    {"method", [](const BookRecipe& r) { return r.method; }},
    {"verdict",
     [](const BookRecipe& r) { return std::string(r.verdict ? plan::describe(*r.verdict) : ""); }},
    {"salt_percent",
     [](const BookRecipe& r) {
         return r.salt ? units::print_number(r.salt->figure.percent, 9) : std::string();
     }},
    {"salt_of",
     [](const BookRecipe& r) {
         return std::string(r.salt ? larder::describe(r.salt->figure.basis) : "");
     }},
    {"faults", [](const BookRecipe& r) { return std::to_string(r.faults); }},
    {"changed", [](const BookRecipe& r) { return r.changed ? r.changed->date() : std::string(); }},
    {"commit", [](const BookRecipe& r) { return r.changed ? r.changed->id : std::string(); }},
    {"standing",
     [](const BookRecipe& r) { return std::string(r.standing ? describe(*r.standing) : ""); }},
};

} // namespace

std::string book_csv(const BookReport& report) {
    std::string out;
    std::vector<std::string> line;
    for (const Column& column : book_columns)
        line.emplace_back(column.head);
    csv_line(out, line);
    for (const BookRecipe& recipe : report.recipes) {
        line.clear();
        for (const Column& column : book_columns)
            line.push_back(column.cell(recipe));
        csv_line(out, line);
    }
    return out;
}

} // namespace jarful::render
