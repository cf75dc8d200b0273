// SPDX-License-Identifier: MIT
#include "command/screen_results.hpp"

#include <gtest/gtest.h>

#include <sstream>

#include "command/called.hpp"
#include "support/project_folder.hpp"

namespace driftwarden::screen_results_test {
namespace {

struct Opened {
  explicit Opened(const BookText& text) : folder(text) {
    book = open_book({folder.path(), "2026-11-16", 1}, surroundings);
  }
  BookFolder folder;
  std::ostringstream out;
  std::ostringstream err;
  Surroundings surroundings{out, err, false, false, 0, project_folder(), "0.1.0"};
  std::unique_ptr<OpenedBook> book;
};

TEST(ScreenResults, AreWhatTheCommandPrints) {
  const Opened opened(judged_text());
  std::vector<Row> all(opened.book->book.samples.size());
  for (Row row = 0; row < all.size(); ++row) all[row] = row;
  for (const std::string format : {"table", "csv", "json", "sarif"}) {
    std::ostringstream written;
    const Totals totals = write_screen(*opened.book, all, {format, false, 2}, "0.1.0", written);
    EXPECT_EQ(totals.samples, all.size());
    EXPECT_EQ(written.str(), call({"screen", opened.folder.path(), "--as-of", "2026-11-16", "--format", format}).out);
  }
}

TEST(ScreenResults, TellHowFarTheyHaveCome) {
  const Opened opened(judged_text());
  std::ostringstream written;
  std::size_t last = 0;
  write_screen(*opened.book, {0}, {"csv", false, 1}, "0.1.0", written,
               [&last](std::string_view, std::size_t done, std::size_t of) { last = done == of ? done : 0; });
  EXPECT_EQ(last, 1U);
}

}  // namespace
}  // namespace driftwarden::screen_results_test
