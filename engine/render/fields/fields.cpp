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

void write_fields(JsonWriter& out, const AnyShape& shape, const void* object) {
    for (const Field& field : shape.fields) {
        if (field.name == nullptr) {
            field.write(out, object, field.presence);
            continue;
        }
        out.key(field.name);
        const bool written = field.write(out, object, field.presence);
        if (!written && field.presence != Presence::sometimes) out.null();
    }
}

void write_object(JsonWriter& out, const AnyShape& shape, const void* object) {
    out.begin_object();
    write_fields(out, shape, object);
    out.end_object();
}

std::string document(const Result& result, const AnyShape& shape, const void* object,
                     Layout layout) {
    JsonWriter out;
    out.begin_object(layout);
    out.key("format");
    out.text(result.format);
    write_fields(out, shape, object);
    out.end_object();
    return out.take() + "\n";
}

namespace {

units::Interval itself(const units::Interval& bounds) {
    return bounds;
}

constexpr auto interval_fields = fields<units::Interval>({
    {"low", low<itself>, "The least that it may be; null if it has no such bound."},
    {"high", high<itself>, "The most that it may be; null if it has no such bound."},
});

} // namespace

constexpr Shape<units::Interval> interval{"interval", "What it may be.", interval_fields};

} // namespace jarful::fields
