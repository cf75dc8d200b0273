// SPDX-License-Identifier: MIT
#include "plot/label_places.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace driftwarden::label_places_test {
namespace {

// input: places in pixels, on a panel of 100 by 100.

using Box = LabelPlaces::Box;

LabelPlaces empty_panel() { return LabelPlaces({0, 100, 0, 100}); }

TEST(LabelPlaces, TakesTheFirstThatIsFree) {
  LabelPlaces places = empty_panel();
  EXPECT_EQ(places.take({{10, 30, 10, 20}, {50, 70, 50, 60}})->left, 10);
  EXPECT_EQ(places.take({{10, 30, 10, 20}, {50, 70, 50, 60}})->left, 50);  // the first one is taken
  EXPECT_FALSE(places.take({{10, 30, 10, 20}, {50, 70, 50, 60}}));
}

TEST(LabelPlaces, KeepsOffLinesThatCrossIt) {
  const Box box{40, 60, 40, 60};
  const auto is_free_beside = [&](LabelPlaces::Point from, LabelPlaces::Point to) {
    LabelPlaces places = empty_panel();
    places.keep_off_line(from, to);
    return places.take({box}).has_value();
  };
  EXPECT_FALSE(is_free_beside({0, 50}, {100, 50}));
  EXPECT_FALSE(is_free_beside({50, 0}, {50, 100}));
  EXPECT_FALSE(is_free_beside({0, 0}, {100, 100}));
  EXPECT_FALSE(is_free_beside({45, 45}, {46, 46}));  // all of it inside
  EXPECT_TRUE(is_free_beside({0, 70}, {100, 70}));
  EXPECT_TRUE(is_free_beside({0, 50}, {30, 50}));   // ends before it
  EXPECT_TRUE(is_free_beside({0, 60}, {30, 100}));  // passes by
}

TEST(LabelPlaces, KeepsAirAroundWords) {
  LabelPlaces places = empty_panel();
  places.keep_off_line({0, 61}, {100, 61});
  EXPECT_FALSE(places.take({{40, 60, 40, 60}}));
  EXPECT_TRUE(places.take({{40, 60, 38, 58}}));
}

TEST(LabelPlaces, KeepsInsideItsRoom) {
  LabelPlaces places = empty_panel();
  EXPECT_FALSE(places.take({{-1, 20, 10, 20}, {90, 101, 10, 20}, {10, 20, -1, 9}, {10, 20, 95, 101}}));
}

TEST(LabelPlaces, TakesAMissingPointForNoLine) {
  LabelPlaces places = empty_panel();
  places.keep_off_line({0, 50}, {100, std::numeric_limits<double>::quiet_NaN()});
  EXPECT_TRUE(places.take({{40, 60, 40, 60}}));
}

TEST(PlacesAround, ComeNearestFirstOnTheSideAskedFor) {
  const auto places = places_around({50, 50}, 20, 10, true, 2);
  ASSERT_EQ(places.size(), 18U);
  EXPECT_EQ(places.front().left, 40);
  EXPECT_GT(places.front().bottom, 50);
  EXPECT_LT(places[3].top, 50);
  EXPECT_GT(places[6].bottom, places[0].bottom);
  EXPECT_LT(places_around({50, 50}, 20, 10, false, 0).front().top, 50);
}

}  // namespace
}  // namespace driftwarden::label_places_test
