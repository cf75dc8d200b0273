// SPDX-License-Identifier: MIT
#include "command/output_file.hpp"

#include <gtest/gtest.h>

#include "command/called.hpp"

namespace driftwarden::output_file_test {
namespace {

TEST(OutputFile, IsOfTheBookUnderAnyName) {
  const BookFolder folder;
  const Result<Book> book = read_book(folder.path(), 1);
  ASSERT_TRUE(book);
  EXPECT_TRUE(is_of_the_book(*book, folder.file("samples.csv")));
  EXPECT_TRUE(is_of_the_book(
      *book, folder.file("../") + std::filesystem::path(folder.path()).filename().string() + "/book.toml"));
  EXPECT_FALSE(is_of_the_book(*book, folder.file("review.html")));
  EXPECT_FALSE(is_of_the_book(*book, "/nowhere/samples.csv"));
}

TEST(OutputFile, IsNamedInWhatIsTold) {
  EXPECT_EQ(
      to_text(over_the_book("samples.csv")),
      "samples.csv: error: the results would replace a file of the book; name another file [output/over-the-book]");
}

}  // namespace
}  // namespace driftwarden::output_file_test
