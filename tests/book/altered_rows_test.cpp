// SPDX-License-Identifier: MIT
#include "book/altered_rows.hpp"

#include <gtest/gtest.h>

#include "book/rows_received.hpp"
#include "book/written_book.hpp"

namespace driftwarden::altered_rows_test {
namespace {

constexpr const char* samples = "sample,pump,started,stopped,note\nS-9,PUMP-1,2026-05-01T08:00,2026-05-01T16:00,\n";

// What is told of a book whose samples came so, and stand so by now.
std::string told_of(const std::string& stands, const std::string& settings = "") {
  WrittenBook written;
  if (!settings.empty()) written.file("book.toml", settings);
  written.file("came.csv", samples);
  const auto rows = rows_received(written.folder() / "came.csv", *parse_settings("time_zone = \"UTC\"\n", "book.toml"));
  const std::string file = rows->name_on(20575);
  const Book book = written.file(file, stands)
                        .file("received.csv", "received,by,file,rows,form,from,sha256\n2026-05-02T09:00,the keeper," +
                                                  file + ",1,,came.csv,\n")
                        .read();
  const std::string problems = told(altered_rows(book));
  return problems.empty() ? "" : problems.substr(file.size());
}

TEST(AlteredRows, AreTold) {
  EXPECT_EQ(told_of("sample,pump,started,stopped,note\nS-9,PUMP-1,2026-05-01T08:00,2026-05-01T16:30,\n"),
            ": remark: its rows are no longer those that were received 2026-05-02T09:00+00:00 by the keeper from "
            "'came.csv'; hold it against that file; what was changed and why belongs under note [receive/altered]\n");
}

TEST(AlteredRows, AreNotWhatOnlyLooksOtherwise) {
  EXPECT_EQ(told_of(samples), "");
  EXPECT_EQ(told_of("sample;pump;started;stopped;note\r\n\"S-9\";PUMP-1;2026-05-01T08:00;2026-05-01T16:00;\r\n\r\n"),
            "");
}

// They would be missed in silence.
TEST(AlteredRows, AreThoseThatTheBookLeavesOutByNow) {
  EXPECT_EQ(told_of(samples,
                    "title = \"Quarry\"\ntime_zone = \"UTC\"\n[files.\"samples/received-*\"]\nignore_rows = [\"2\"]\n"),
            ": remark: of 1 rows that were received 0 are read; what book.toml says under [files] of such a file "
            "leaves rows out: say so of other files only [receive/altered]\n");
}

}  // namespace
}  // namespace driftwarden::altered_rows_test
