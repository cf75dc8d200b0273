// SPDX-License-Identifier: MIT
#include "history/check_series.hpp"

#include <gtest/gtest.h>

#include "history/instrument_history.hpp"
#include "support/book_text.hpp"

namespace driftwarden::check_series_test {
namespace {

constexpr Day in_october = 20742;

// A book with checks of V1 against V2, of a thermometer against a better one, and of a barometer.
class CheckedBook {
 public:
  explicit CheckedBook(const std::string& flows) {
    BookText text;
    text.instruments += "T1,thermometer,\nT2,thermometer,\nB1,barometer,\nB2,barometer,\n";
    text.write(folder_.path());
    std::filesystem::create_directory(folder_.path() / "checks");
    write("flow", "L/min", flows);
    write("temperature", "°C", "2026-09-02T08:00,T1,T2,20.3,20.1\n");
    write("pressure", "kPa", "2026-09-02T08:00,B1,B2,84.4,84.5\n");
    book_.emplace(*read_book(folder_.path(), 1));
    screening_.emplace(*book_, rules_);
  }
  std::vector<Series> of(std::string_view name, Day as_of = in_october) const {
    for (Row row = 0; row < book_->instruments.size(); ++row) {
      if (book_->instruments[row].name == name) return check_series(*screening_, row, as_of);
    }
    return {};
  }
  const Screening& screening() const { return *screening_; }

 private:
  void write(const std::string& name, const std::string& unit, const std::string& rows) {
    std::ofstream(folder_.path() / "checks" / (name + ".csv"))
        << "checked,instrument,against,shown [" << unit << "],reference [" << unit << "]\n" + rows;
  }

  ScratchFolder folder_;
  RuleSet rules_ = RulesText().rule_set();
  std::optional<Book> book_;
  std::optional<Screening> screening_;
};

TEST(CheckSeries, TellInOrderOfTimeHowMuchMoreAnInstrumentShowed) {
  const CheckedBook book("2026-09-03T08:00,V1,V2,2.02,2.00\n2026-09-02T08:00,V1,V2,1.99,2.00\n");
  const std::vector<Series> all = book.of("V1");
  ASSERT_EQ(all.size(), 1U);
  EXPECT_EQ(all[0].name, "checked-against V2");
  EXPECT_EQ(all[0].unit, "%");
  ASSERT_EQ(all[0].points.size(), 2U);
  EXPECT_NEAR(all[0].points[0].value, -0.5, 1e-9);
  EXPECT_NEAR(all[0].points[1].value, 1, 1e-9);
  EXPECT_EQ(to_text(all[0].points[1].kind), "reference");
  EXPECT_TRUE(book.of("V2").empty());
}

TEST(CheckSeries, EndWithTheDayAskedFor) {
  const CheckedBook book("2026-09-03T08:00,V1,V2,2.02,2.00\n");
  EXPECT_EQ(book.of("V1", day_from({2026, 9, 3})).size(), 1U);
  EXPECT_TRUE(book.of("V1", day_from({2026, 9, 2})).empty());
}

TEST(CheckSeries, OfThermometersAndBarometersAreInTheirUnits) {
  const CheckedBook book("");
  ASSERT_EQ(book.of("T1").size(), 1U);
  EXPECT_EQ(book.of("T1")[0].unit, "K");
  EXPECT_NEAR(book.of("T1")[0].points.at(0).value, 0.2, 1e-9);
  ASSERT_EQ(book.of("B1").size(), 1U);
  EXPECT_EQ(book.of("B1")[0].unit, "kPa");
  EXPECT_NEAR(book.of("B1")[0].points.at(0).value, -0.1, 1e-9);
}

TEST(CheckSeries, AreAmongTheHistoriesOfAnInstrument) {
  const CheckedBook book("2026-09-03T08:00,V1,V2,2.02,2.00\n");
  const auto histories = histories_of(book.screening(), {2}, in_october, {});
  EXPECT_NE(histories.at(0).find("checked-against V2"), nullptr);
}

}  // namespace
}  // namespace driftwarden::check_series_test
