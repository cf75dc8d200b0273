// SPDX-License-Identifier: MIT
#include "record/decimal_column.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <span>
#include <vector>

namespace driftwarden::decimal_column_test {
namespace {

// echo: figures put in and read back.

Unit unit(std::string_view name, Dimension dimension) { return *unit_named(name, dimension); }

DecimalColumn narrow(const Unit& unit, int decimals, std::int64_t lowest) {
  DecimalColumn column;
  column.set_form({unit, decimals, lowest}, -1e9, 1e9);
  column.reserve(16);
  column.set_size(16);
  return column;
}

TEST(DecimalColumn, GivesBackTheSameDoubleThatTheUnitMade) {
  for (const auto& [name, dimension] : {std::pair("mL/min", Dimension::flow), std::pair("ft3/min", Dimension::flow)}) {
    const Unit written_in = unit(name, dimension);
    DecimalColumn column = narrow(written_in, 1, 0);
    for (const double written : {0.0, 0.1, 1998.4, 6553.3}) {
      column.put(3, written_in.to_inside(written), written);
      EXPECT_EQ(column[3], written_in.to_inside(written)) << written << ' ' << name;
    }
  }
  const Unit celsius = unit("°C", Dimension::temperature);
  DecimalColumn column = narrow(celsius, 1, -32767);
  for (const double written : {-40.0, -0.1, 0.0, 21.5, 3276.6}) {
    column.put(0, celsius.to_inside(written), written);
    EXPECT_EQ(column[0], celsius.to_inside(written)) << written;
  }
}

TEST(DecimalColumn, WritesAFigureAgainUnlessItIsKeptApart) {
  const Unit flow = unit("L/min", Dimension::flow);
  DecimalColumn column = narrow(flow, 3, 1000);
  column.put(0, flow.to_inside(2.004), 2.004);
  column.put(1, flow.to_inside(900.0), 900.0);
  EXPECT_TRUE(column.put_again(2, 0));
  EXPECT_EQ(column[2], flow.to_inside(2.004));
  EXPECT_FALSE(column.put_again(3, 1));
  DecimalColumn wide;
  wide.reserve(2);
  wide.set_size(2);
  wide.put(0, 900.0, 900.0);
  EXPECT_TRUE(wide.put_again(1, 0));
  EXPECT_EQ(wide[1], 900.0);
}

TEST(DecimalColumn, KeepsWhatDoesNotFitApartAndWhole) {
  const Unit flow = unit("L/min", Dimension::flow);
  DecimalColumn column = narrow(flow, 3, 1000);
  Row row = 0;
  // Below and above the room, more decimals, a third: none is a decimal of the form.
  const double figures[] = {0.999, 66.534, 2.0005, 1.0 / 3, 1e300, 65535.0};
  for (const double figure : figures) column.put(row++, figure, figure);
  row = 0;
  for (const double figure : figures) EXPECT_EQ(column[row++], figure);
  column.put(7, 66.533, 66.533);  // the highest that fits
  EXPECT_EQ(column[7], 66.533);
}

TEST(DecimalColumn, KnowsAMissingFigure) {
  DecimalColumn column = narrow(unit("kPa", Dimension::pressure), 2, 0);
  const double none = std::numeric_limits<double>::quiet_NaN();
  column.put(0, none, none);
  EXPECT_TRUE(std::isnan(column[0]));
  column.put(1, none, 20000);  // a number that can't be
  EXPECT_TRUE(std::isnan(column[1]));
}

TEST(DecimalColumn, IsAMisfitWhereManyNumbersDoNotFit) {
  DecimalColumn column;
  column.set_form({unit("L/min", Dimension::flow), 1, 0}, 0, 1e5);
  column.reserve(5000);
  column.set_size(5000);
  for (Row row = 0; row < 900; ++row) column.put(row, 1.25, 1.25);
  EXPECT_FALSE(column.is_misfit());
  for (Row row = 900; row < 2000; ++row) column.put(row, 1.25, 1.25);
  EXPECT_TRUE(column.is_misfit());
}

TEST(DecimalColumn, KeepsDoublesWithoutAForm) {
  DecimalColumn column;
  column.reserve(2);
  column.put(0, 1.0 / 3, 1.0 / 3);
  column.set_size(2);
  EXPECT_EQ(column[0], 1.0 / 3);
  EXPECT_FALSE(column.is_misfit());
}

TEST(DecimalColumn, CountsRowsThatSurelyHoldTheSame) {
  const Unit flow = unit("L/min", Dimension::flow);
  const double none = std::numeric_limits<double>::quiet_NaN();
  DecimalColumn column = narrow(flow, 3, 1000);
  DecimalColumn wide;
  wide.reserve(16);
  wide.set_size(16);
  const std::vector<Row> rows{0, 1, 2, 3, 4, 5, 6};
  const auto count_from = [&rows](const DecimalColumn& of, std::size_t first) {
    return of.count_alike(std::span(rows).subspan(first));
  };
  for (DecimalColumn* of : {&column, &wide}) {
    Row row = 0;
    for (const double figure : {2.004, 2.004, 2.005, none, none, 900.0, 900.0}) of->put(row++, figure, figure);
    EXPECT_EQ(count_from(*of, 0), 2U);
    EXPECT_EQ(count_from(*of, 1), 1U);
    EXPECT_EQ(count_from(*of, 2), 1U);
    EXPECT_EQ(count_from(*of, 3), 2U);
    EXPECT_EQ(count_from(*of, 4), 1U);
  }
  EXPECT_EQ(count_from(column, 5), 1U);  // kept apart, and not looked up
  EXPECT_EQ(count_from(wide, 5), 2U);
}

TEST(DecimalColumn, PutsDigitsAsTheNumberTheyAre) {
  const Unit millilitres = unit("mL/min", Dimension::flow);
  DecimalColumn column;
  column.set_form({millilitres, 2, 100000}, 0.9, 1.6);  // 1000.00 to 1655.33 mL/min, of which 1600 are plausible
  column.reserve(4);
  column.set_size(4);
  const auto reads = [&](std::uint64_t digits, std::size_t decimals, double written) {
    return column.put_digits(1, digits, decimals) && column[1] == millilitres.to_inside(written);
  };
  EXPECT_TRUE(reads(123456, 2, 1234.56));
  EXPECT_TRUE(reads(12345, 1, 1234.5));
  EXPECT_TRUE(reads(1234, 0, 1234));
  EXPECT_TRUE(reads(100000, 2, 1000));
  EXPECT_TRUE(reads(1600, 0, 1600));
  // Beyond what can be, below what the form holds, with more decimals: to be put otherwise.
  EXPECT_FALSE(column.put_digits(1, 160001, 2));
  EXPECT_FALSE(column.put_digits(1, 99999, 2));
  EXPECT_FALSE(column.put_digits(1, 1234567, 3));
  EXPECT_FALSE(column.put_digits(1, 99999999, 0));
  EXPECT_FALSE(DecimalColumn().put_digits(0, 1, 0));  // without a form
}

TEST(DecimalColumn, BringsFiguresThatAreKeptApartIntoAnotherOrder) {
  const Unit flow = unit("L/min", Dimension::flow);
  DecimalColumn column;
  column.set_form({flow, 3, 1000}, 0, 1e5);
  column.reserve(3);
  column.set_size(3);
  Row row = 0;
  for (const double figure : {900.0, 2.004, 1.0 / 3}) column.put(row++, figure, figure);
  RowOrder order;
  for (const Row place : {2U, 0U, 1U}) order.rows.push_back(place);
  column.reorder(order);
  EXPECT_EQ(column[0], 1.0 / 3);
  EXPECT_EQ(column[1], 900.0);
  EXPECT_EQ(column[2], 2.004);
}

}  // namespace
}  // namespace driftwarden::decimal_column_test
