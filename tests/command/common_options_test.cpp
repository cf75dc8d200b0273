// SPDX-License-Identifier: MIT
#include "command/common_options.hpp"

#include <gtest/gtest.h>

namespace driftwarden::common_options_test {
namespace {

TEST(CommonOptions, AreTakenFromTheLine) {
  CLI::App app{"", "driftwarden"};
  BookOptions book;
  std::string paper = "A4";
  add_book(&app, book);
  add_as_of(&app, book);
  add_paper(&app, paper);
  app.parse("folder --threads 3 --as-of 2026-10-05 --paper letter", false);
  EXPECT_EQ(book.book, "folder");
  EXPECT_EQ(book.threads, 3U);
  EXPECT_EQ(book.as_of, "2026-10-05");
  EXPECT_EQ(paper, "letter");
}

TEST(CommonOptions, RefuseWhatThereIsNot) {
  CLI::App app{"", "driftwarden"};
  BookOptions book;
  std::string paper;
  add_book(&app, book);
  add_paper(&app, paper);
  EXPECT_THROW(app.parse("--threads 0", false), CLI::ParseError);
  EXPECT_THROW(app.parse("--paper A5", false), CLI::ParseError);
}

}  // namespace
}  // namespace driftwarden::common_options_test
