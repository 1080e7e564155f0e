#include "engine/units/dimension.hpp"

#include <climits>
#include <gtest/gtest.h>

namespace jarful::units {
namespace {

TEST(Dimension, MultipliesAndDividesByAddingExponents) {
    EXPECT_EQ(multiply(dim::area, dim::length), dim::volume);
    EXPECT_EQ(divide(dim::mass, dim::volume), dim::density);
    EXPECT_EQ(divide(dim::volume, dim::area), dim::length);
    EXPECT_EQ(divide(dim::mass, dim::mass), dim::plain);
    EXPECT_EQ(multiply(dim::plain, dim::time), dim::time);
}

TEST(Dimension, RaisesToWholePowers) {
    EXPECT_EQ(power(dim::length, 3), dim::volume);
    EXPECT_EQ(power(dim::volume, 0), dim::plain);
    EXPECT_EQ(power(dim::length, -3), divide(dim::plain, dim::volume));
    EXPECT_EQ(power(dim::plain, INT_MAX), dim::plain);
}

TEST(Dimension, RefusesExponentsBeyondTheirBounds) {
    const auto twelfth = power(dim::mass, max_exponent);
    ASSERT_TRUE(twelfth);
    EXPECT_FALSE(multiply(*twelfth, dim::mass));
    EXPECT_FALSE(power(dim::mass, max_exponent + 1));
    EXPECT_FALSE(power(dim::mass, -max_exponent - 1));
    EXPECT_FALSE(power(dim::volume, INT_MAX));
    EXPECT_FALSE(power(dim::volume, INT_MIN));
    EXPECT_FALSE(divide(*power(dim::time, -max_exponent), dim::time));
}

TEST(Dimension, TakesSquareRootsOfEvenExponentsOnly) {
    EXPECT_EQ(square_root(dim::area), dim::length);
    EXPECT_EQ(square_root(dim::plain), dim::plain);
    EXPECT_FALSE(square_root(dim::volume));
    EXPECT_FALSE(square_root(*divide(dim::area, dim::time)));
}

TEST(Dimension, IsDescribedInACooksWords) {
    EXPECT_EQ(describe(dim::plain), "a plain number");
    EXPECT_EQ(describe(dim::mass), "a weight");
    EXPECT_EQ(describe(dim::volume), "a volume");
    EXPECT_EQ(describe(dim::length), "a length");
    EXPECT_EQ(describe(dim::area), "an area");
    EXPECT_EQ(describe(dim::time), "a time");
    EXPECT_EQ(describe(dim::temperature), "a temperature");
    EXPECT_EQ(describe(dim::count), "a count of pieces");
    EXPECT_EQ(describe(dim::density), "a weight for each volume (a density)");
    EXPECT_EQ(describe(*divide(dim::volume, dim::mass)), "a volume for each weight");
    EXPECT_EQ(describe(*divide(dim::mass, dim::count)), "a weight for each piece");
    EXPECT_EQ(describe(*multiply(dim::mass, dim::mass)), "a weight squared");
    EXPECT_EQ(describe(*divide(dim::plain, dim::time)), "a number for each time");
    EXPECT_EQ(describe(*power(dim::length, 4)), "a length to the power 4");
}

} // namespace
} // namespace jarful::units
