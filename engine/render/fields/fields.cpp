#include "engine/render/fields/fields.hpp"

namespace jarful::fields {

bool TextSort::put(JsonWriter& out, std::string_view value, Presence presence) {
    if (value.empty() && presence != Presence::always) return false;
    out.text(value);
    return true;
}

bool NumberSort::put(JsonWriter& out, double value, Presence /*unused*/) {
    out.number(value);
    return true;
}

bool LowSort::put(JsonWriter& out, units::Interval value, Presence /*unused*/) {
    out.low(value);
    return true;
}

bool HighSort::put(JsonWriter& out, units::Interval value, Presence /*unused*/) {
    out.high(value);
    return true;
}

bool FlagSort::put(JsonWriter& out, bool value, Presence /*unused*/) {
    out.flag(value);
    return true;
}

bool WrittenSort::put(JsonWriter& out, std::string_view json, Presence presence) {
    if (json.empty() && presence != Presence::always) return false;
    out.written(json);
    return true;
}

void NotesList::add(const char* name, Presence presence, Words meaning, Words unit) {
    all_.push_back({name, presence, {}, meaning, unit});
}

void NotesList::is(Type::Base base, bool list, bool number_may_be_null, Bounds bounds) {
    Type& type = all_.back().type;
    type.base = base;
    type.list = list;
    type.number_may_be_null = number_may_be_null;
    type.bounds = bounds;
}

void NotesList::refers(const AnyShape* shape, const WordList* words, const char* pattern) {
    Type& type = all_.back().type;
    type.shape = shape;
    type.words = words;
    type.pattern = pattern;
}

void write_field(JsonWriter& out, const char* name, Write write, Presence presence,
                 const void* object) {
    if (name == nullptr) {
        write(out, object, presence);
        return;
    }
    out.key(name);
    const bool written = write(out, object, presence);
    if (!written && presence != Presence::sometimes) out.null();
}

void write_object(JsonWriter& out, const AnyShape& shape, const void* object) {
    out.begin_object();
    shape.write(out, object);
    out.end_object();
}

std::string document(const Result& result, const AnyShape& shape, const void* object,
                     Layout layout) {
    JsonWriter out;
    out.begin_object(layout);
    out.key("format");
    out.text(result.format);
    shape.write(out, object);
    out.end_object();
    return out.take() + "\n";
}

namespace {

constexpr auto interval_fields = fields<units::Interval>({
    {"low", low<itself<units::Interval>>,
     "The least that it may be; null if it has no such bound."},
    {"high", high<itself<units::Interval>>,
     "The most that it may be; null if it has no such bound."},
});

} // namespace

constexpr Shape<units::Interval> interval{"interval", "What it may be.", table<interval_fields>};

} // namespace jarful::fields
