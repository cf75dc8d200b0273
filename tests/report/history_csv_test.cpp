// SPDX-License-Identifier: MIT
#include "report/history_csv.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/book_text.hpp"

namespace driftwarden::history_csv_test {
namespace {

constexpr Day in_october = 20742;

std::string written(const BookText& text) {
  const JudgedBook book(text);
  return history_csv(book.screening(), histories_of(book.screening(), {0}, in_october, {}));
}

TEST(HistoryCsv, HasALineAPoint) {
  const std::string text = written({});
  EXPECT_TRUE(text.starts_with("instrument,kind,series,at,value,unit,n,s,expanded_uncertainty,void,from,point,phase,"));
  EXPECT_NE(text.find("\nP1,pump,pre-flow,2026-09-21T07:30+00:00,2,L/min,1,,,no,S1,sample,1,,,,,,,,,,\n"),
            std::string::npos)
      << text;
  EXPECT_NE(text.find("\nP1,pump,running-hours,2026-09-21T16:00+00:00,8,h,1,,,no,S1,sample,1,"), std::string::npos)
      << text;
}

TEST(HistoryCsv, HasAsManyCellsInEveryLine) {
  const std::string text = written({});
  std::size_t commas = std::string::npos;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at);
    const auto here = static_cast<std::size_t>(std::count(text.begin() + static_cast<std::ptrdiff_t>(at),
                                                          text.begin() + static_cast<std::ptrdiff_t>(end), ','));
    if (commas != std::string::npos) {
      EXPECT_EQ(here, commas);
    }
    commas = here;
    at = end + 1;
  }
}

TEST(HistoryCsv, NamesChartAndRuleOfASignal) {
  BookText text;
  text.settings += "[history]\nbaseline = 8\n";
  text.samples = "sample,pump,started,stopped\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  const std::vector<std::string> flows{"2.00", "2.01", "2.00", "2.01", "2.00", "2.01", "2.00", "2.01", "2.50"};
  for (std::size_t i = 0; i < flows.size(); ++i) {
    const std::string day = "2026-09-2" + std::to_string(i + 1);
    const std::string name = "S" + std::to_string(i + 1);
    text.samples += name + ",P1," + day + "T08:00," + day + "T16:00\n";
    text.readings += day + "T07:30,pre," + name + ",V1," + flows[i] + "\n";
  }
  const JudgedBook book(text);
  const auto choices = chart_choices(book.book().settings.history);
  const std::string csv = history_csv(book.screening(), histories_of(book.screening(), {0}, in_october, *choices));
  EXPECT_NE(csv.find("individuals:beyond-limits;moving-range:beyond-limits;ewma:beyond-limits;cusum:upper-sum\n"),
            std::string::npos)
      << csv;
}

}  // namespace
}  // namespace driftwarden::history_csv_test
