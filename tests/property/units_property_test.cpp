#include "engine/units/amount.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>
#include <string>
#include <vector>

namespace jarful::units {
namespace {

// 113 bits hold any product of two doubles exactly, and place any quotient well within a step.
__extension__ using Wide = __float128;

/// Doubles of every size and sign: half of them raw bits, the rest the sizes that recipes have.
rc::Gen<double> any_finite() {
    const auto raw = rc::gen::suchThat(
        rc::gen::map(rc::gen::arbitrary<std::uint64_t>(),
                     [](std::uint64_t bits) { return std::bit_cast<double>(bits); }),
        [](double x) { return std::isfinite(x); });
    const auto usual = rc::gen::map(rc::gen::inRange<std::int64_t>(-10000000, 10000000),
                                    [](std::int64_t n) { return static_cast<double>(n) / 1000; });
    return rc::gen::oneOf(raw, usual);
}

rc::Gen<Interval> any_interval() {
    return rc::gen::map(rc::gen::pair(any_finite(), any_finite()), [](std::pair<double, double> p) {
        return Interval(std::min(p.first, p.second), std::max(p.first, p.second));
    });
}

/// A point of the interval: one of its ends or its middle.
double point_of(Interval i) {
    const int which = *rc::gen::inRange(0, 3);
    const double middle = i.low / 2 + i.high / 2;
    return which == 0 ? i.low : which == 1 ? i.high : std::clamp(middle, i.low, i.high);
}

bool encloses(Interval i, Wide exact) {
    return static_cast<Wide>(i.low) <= exact && exact <= static_cast<Wide>(i.high);
}

/// A number with up to six digits after the point, as text and as value.
std::string some_number() {
    const auto whole = *rc::gen::inRange(0, 100000);
    const auto decimals = *rc::gen::inRange(0, 4);
    std::string text = std::to_string(whole);
    for (int i = 0; i < decimals; ++i) {
        text += i == 0 ? "." : "";
        text += static_cast<char>('0' + *rc::gen::inRange(0, 10));
    }
    return text;
}

bool near(double a, double b, double relative) {
    return std::abs(a - b) <= relative * std::max(std::abs(a), std::abs(b));
}

RC_GTEST_PROP(IntervalProperty, StepsUndoEachOther, ()) {
    const double x = *any_finite();
    RC_PRE(std::abs(x) < std::numeric_limits<double>::max());
    RC_ASSERT(step_down(step_up(x)) == x);
    RC_ASSERT(step_up(step_down(x)) == x);
    RC_ASSERT(step_down(x) < x);
    RC_ASSERT(step_up(x) > x);
    RC_ASSERT(step_up(x) == std::nextafter(x, std::numeric_limits<double>::infinity()));
}

RC_GTEST_PROP(IntervalProperty, SumsEncloseTheTrueSum, ()) {
    const Interval a = *any_interval();
    const Interval b = *any_interval();
    const double x = point_of(a);
    const double y = point_of(b);
    RC_ASSERT(encloses(a + b, static_cast<Wide>(x) + y));
    RC_ASSERT(encloses(a - b, static_cast<Wide>(x) - y));
}

RC_GTEST_PROP(IntervalProperty, SumsOfPointsAreAtMostOneStepWide, ()) {
    const double x = *any_finite();
    const double y = *any_finite();
    const Interval sum = Interval(x) + Interval(y);
    RC_ASSERT(sum.high == sum.low || sum.high == step_up(sum.low));
}

RC_GTEST_PROP(IntervalProperty, ProductsEncloseTheTrueProduct, ()) {
    const Interval a = *any_interval();
    const Interval b = *any_interval();
    const double x = point_of(a);
    const double y = point_of(b);
    RC_ASSERT(encloses(a * b, static_cast<Wide>(x) * y));
    RC_ASSERT((a * b) == (b * a));
}

RC_GTEST_PROP(IntervalProperty, QuotientsEncloseTheTrueQuotient, ()) {
    const Interval a = *any_interval();
    const Interval b = *any_interval();
    const double x = point_of(a);
    const double y = point_of(b);
    RC_PRE(y != 0);
    RC_ASSERT(encloses(a / b, static_cast<Wide>(x) / y));
}

RC_GTEST_PROP(IntervalProperty, SquareRootsEncloseTheTrueRoot, ()) {
    const Interval a = abs(*any_interval());
    const double x = point_of(a);
    const Interval root = sqrt(a);
    const Wide low = root.low;
    const Wide high = root.high;
    RC_ASSERT(low * low <= static_cast<Wide>(x));
    RC_ASSERT(high * high >= static_cast<Wide>(x));
}

RC_GTEST_PROP(IntervalProperty, WholePowersEncloseRepeatedMultiplication, ()) {
    const double ends[2] = {static_cast<double>(*rc::gen::inRange(-3000, 3000)) / 1000,
                            static_cast<double>(*rc::gen::inRange(-3000, 3000)) / 1000};
    const Interval a(std::min(ends[0], ends[1]), std::max(ends[0], ends[1]));
    const double x = point_of(a);
    const int n = *rc::gen::inRange(0, 12);
    Wide exact = 1;
    for (int i = 0; i < n; ++i) {
        exact *= x;
    }
    RC_ASSERT(encloses(pow(a, n), exact));
    if (!a.contains(0.0)) {
        RC_ASSERT(encloses(pow(a, -n), 1 / exact));
    }
}

RC_GTEST_PROP(IntervalProperty, PowersEncloseTheLibrarysPower, ()) {
    const Interval a(static_cast<double>(*rc::gen::inRange(0, 3000)) / 1000, 3.5);
    const Interval e(static_cast<double>(*rc::gen::inRange(-3000, 3000)) / 1000, 3.25);
    const double x = point_of(a);
    const double y = point_of(e);
    RC_PRE(x > 0 || y > 0);
    RC_ASSERT(pow(a, e).contains(std::pow(x, y)));
}

RC_GTEST_PROP(IntervalProperty, MinMaxHullAndRoundingHoldTheirPoints, ()) {
    const Interval a = *any_interval();
    const Interval b = *any_interval();
    const double x = point_of(a);
    const double y = point_of(b);
    RC_ASSERT(min(a, b).contains(std::min(x, y)));
    RC_ASSERT(max(a, b).contains(std::max(x, y)));
    RC_ASSERT(hull(a, b).contains(x) && hull(a, b).contains(y));
    RC_ASSERT(abs(a).contains(std::abs(x)));
    RC_ASSERT(round(a).contains(std::round(x)));
    RC_ASSERT(floor(a).contains(std::floor(x)));
    RC_ASSERT(ceil(a).contains(std::ceil(x)));
}

RC_GTEST_PROP(NumberProperty, PrintedNumbersReadBackWithinTheirDigits, ()) {
    const double x = std::abs(*any_finite());
    RC_PRE(x == 0 || (x >= 1e-6 && x <= 1e14));
    const int digits = *rc::gen::inRange(1, 18);
    const std::string text = print_number(x, digits);
    const auto back = read_number(text);
    RC_ASSERT(back.has_value());
    RC_ASSERT(back->length == text.size());
    RC_ASSERT(near(back->value, x, 0.5000001 * std::pow(10.0, 1 - digits)));
    RC_ASSERT((back->value == 0) == (x == 0));
    RC_ASSERT(text.find('e') == std::string::npos);
    RC_ASSERT(digits < 17 || back->value == x);
}

RC_GTEST_PROP(NumberProperty, FixedDecimalsReadBackWithinHalfAStep, ()) {
    const double x = static_cast<double>(*rc::gen::inRange<std::int64_t>(0, 1000000000)) / 997;
    const int decimals = *rc::gen::inRange(0, 6);
    const std::string text = print_fixed(x, decimals);
    const auto back = read_number(text);
    RC_ASSERT(back.has_value());
    RC_ASSERT(back->length == text.size());
    RC_ASSERT(std::abs(back->value - x) <= 0.5000001 * std::pow(10.0, -decimals));
    const std::size_t point = text.find('.');
    RC_ASSERT((point == std::string::npos ? 0 : text.size() - point - 1) ==
              static_cast<std::size_t>(decimals));
}

RC_GTEST_PROP(NumberProperty, DecimalTextIsReadAsTheLibraryReadsIt, ()) {
    const std::string text = some_number();
    const auto n = read_number(text);
    RC_ASSERT(n.has_value());
    RC_ASSERT(n->length == text.size());
    RC_ASSERT(n->value == std::stod(text)); // the tests run in the C locale
}

RC_GTEST_PROP(AmountProperty, PrintedMassesReadBack, ()) {
    const double grams = static_cast<double>(*rc::gen::inRange<std::int64_t>(1, 100000000)) / 1000;
    const auto metric = read_amount(print_mass(grams));
    RC_ASSERT(metric.has_value());
    RC_ASSERT(metric->dimension == dim::mass);
    RC_ASSERT(near(metric->value, grams, 0.00501));
    const auto us = read_amount(print_mass(grams, Style::us));
    RC_ASSERT(us.has_value());
    RC_ASSERT(us->dimension == dim::mass);
    RC_ASSERT(near(us->value, grams, 0.00501));
}

RC_GTEST_PROP(AmountProperty, PrintedVolumesTimesAndTemperaturesReadBack, ()) {
    const double x = static_cast<double>(*rc::gen::inRange<std::int64_t>(5000, 100000000)) / 1000;
    for (Style style : {Style::metric, Style::us}) {
        std::string text = print_volume(x, style);
        // A unit of the language is one word.
        if (const std::size_t two = text.find("fl oz"); two != std::string::npos)
            text.replace(two, 5, "floz");
        const auto volume = read_amount(text);
        RC_ASSERT(volume.has_value());
        RC_ASSERT(volume->dimension == dim::volume);
        RC_ASSERT(near(volume->value, x, 0.00501));
    }
    const auto time = read_amount(print_time(x * 100));
    RC_ASSERT(time.has_value());
    RC_ASSERT(near(time->value, x * 100, 0.00501));
    const double kelvin = 273.15 + std::fmod(x, 100);
    const auto celsius = read_amount(print_temperature(kelvin));
    RC_ASSERT(celsius.has_value());
    RC_ASSERT(std::abs(celsius->value - kelvin) <= 0.0501);
    const auto fahrenheit = read_amount(print_temperature(kelvin, Style::us));
    RC_ASSERT(fahrenheit.has_value());
    RC_ASSERT(std::abs(fahrenheit->value - kelvin) <= 0.278);
}

RC_GTEST_PROP(AmountProperty, AnyNumberWithAnyUnitIsReadAsTheirProduct, ()) {
    const auto spellings = unit_spellings();
    const auto at = *rc::gen::inRange<std::size_t>(0, spellings.size());
    const Spelling s = spellings[at];
    const std::string number = some_number();
    const std::string blank = *rc::gen::elementOf(std::vector<std::string>{"", " ", "  "});
    const auto a = read_amount(number + blank + std::string(s.text));
    RC_ASSERT(a.has_value());
    const Unit& u = unit(s.id);
    RC_ASSERT(a->dimension == u.dimension);
    RC_ASSERT(a->low == a->value && a->high == a->value);
    RC_ASSERT(near(a->value, std::stod(number) * u.factor + u.offset, 1e-14));
    RC_ASSERT(a->bare_measure.has_value() == u.bare_measure);
}

RC_GTEST_PROP(AmountProperty, TheValueLiesBetweenLowAndHigh, ()) {
    const std::vector<std::string> masses{"g", "kg", "oz", "lb", "mg"};
    const std::string from = some_number() + " " + *rc::gen::elementOf(masses);
    const std::string to = some_number() + " " + *rc::gen::elementOf(masses);
    const std::string give =
        some_number() + " " + *rc::gen::elementOf(std::vector<std::string>{"g", "oz", "%"});
    const auto a = read_amount(from + ".." + to + " ± " + give);
    if (!a) {
        ReadFault fault;
        RC_ASSERT_FALSE(read_amount(from + ".." + to, &fault).has_value());
        RC_ASSERT((fault.kind == ReadFault::Kind::reversed_range));
        return;
    }
    RC_ASSERT(a->low <= a->value && a->value <= a->high);
    RC_ASSERT(a->range && a->uncertain);
}

RC_GTEST_PROP(UnitProperty, CompoundUnitsReadBackFromTheirText, ()) {
    const auto count = *rc::gen::inRange(1, 5);
    CompoundUnit u;
    for (int i = 0; i < count; ++i) {
        const auto id = *rc::gen::inRange<int>(0, static_cast<int>(unit_table().size()));
        const int exponent = *rc::gen::inRange(1, 5);
        const bool below = i > 0 && *rc::gen::arbitrary<bool>();
        u.factors[u.size++] = {static_cast<UnitId>(id),
                               static_cast<std::int8_t>(below ? -exponent : exponent)};
    }
    const auto back = read_unit(u.text());
    // What leaves the bounds at any place is refused, also where the whole would come back in.
    CompoundUnit part = u;
    bool bounded = true;
    for (part.size = 1; part.size <= u.size; ++part.size) {
        bounded = bounded && part.dimension().has_value();
    }
    RC_ASSERT(back.has_value() == bounded);
    if (back) {
        RC_ASSERT(*back == u);
        RC_ASSERT(back->text() == u.text());
        RC_ASSERT(near(u.from_base(u.to_base(7.25)), 7.25, 1e-14));
        RC_ASSERT(near(u.to_base(7.25), 7.25 * u.factor(), 1e-14));
    }
}

RC_GTEST_PROP(ReaderProperty, NoTextCrashesTheReaders, ()) {
    const std::vector<std::string> pieces{
        "1",  "25", ".",  "..", ",",  "/", "-", "–",   "±", "+/-", " ",    "½", "kg", "g",
        "lb", "oz", "°C", "%",  "us", "^", "*", "cup", "x", "(",   "\xff", "0", "of", "é"};
    std::string text;
    const int count = *rc::gen::inRange(0, 12);
    for (int i = 0; i < count; ++i) {
        text += *rc::gen::elementOf(pieces);
    }
    ReadFault fault;
    std::size_t length = 0;
    const auto prefix = read_amount_prefix(text, length, &fault);
    RC_ASSERT(length <= text.size());
    RC_ASSERT(prefix.has_value() == (length > 0));
    ReadFault whole_fault;
    const auto whole = read_amount(text, &whole_fault);
    RC_ASSERT(!whole || prefix);
    if (!whole) {
        RC_ASSERT(!whole_fault.message.empty());
        RC_ASSERT(whole_fault.begin <= whole_fault.end);
        RC_ASSERT(whole_fault.end <= text.size());
    }
    if (prefix) {
        // What the prefix took is an amount by itself.
        const auto again = read_amount(std::string_view(text).substr(0, length));
        RC_ASSERT(again.has_value());
        RC_ASSERT(again->value == prefix->value);
    }
}

} // namespace
} // namespace jarful::units
