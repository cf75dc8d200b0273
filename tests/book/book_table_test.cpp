// SPDX-License-Identifier: MIT
#include "book/book_table.hpp"

#include <gtest/gtest.h>

#include <set>

#include "book/padded_text.hpp"
#include "book/written_book.hpp"

namespace driftwarden::book_table_test {
namespace {

TEST(BookTable, EachHasFilesOfItsOwn) {
  BookFiles files;
  std::set<std::string> names;
  for (const BookTable& table : book_tables()) {
    EXPECT_TRUE((files.*table.files).empty()) << table.name();
    (files.*table.files).emplace_back(table.file());
    EXPECT_TRUE(names.insert(table.name()).second) << table.name();
    ASSERT_NE(table.read, nullptr);
  }
}

TEST(BookTable, AreAllThatABooksFilesCanHold) {
  EXPECT_EQ(sizeof(BookFiles), book_tables().size() * sizeof(std::vector<std::string>));
}

TEST(BookTable, CountsTheRecordsOfEach) {
  const Book book = WrittenBook().file("actions.csv", "written,by,action,about,name\n").read();
  std::set<std::string_view> words;
  for (const BookTable& table : book_tables()) {
    EXPECT_EQ(table.size(Book()), 0U) << table.name();
    EXPECT_TRUE(words.insert(table.one).second && words.insert(table.many).second) << table.name();
  }
  EXPECT_EQ(book_tables()[0].size(book), book.instruments.size());
  EXPECT_GT(book.instruments.size(), 0U);
}

TEST(BookTable, HasAHeadingLineThatItReads) {
  for (const BookTable& table : book_tables()) {
    const PaddedText line(heading_line(*table.spec));
    Diagnostics problems;
    const auto layout = read_layout({line, table.file()}, *table.spec, {}, problems);
    ASSERT_TRUE(layout) << table.name() << '\n' << told(problems);
    EXPECT_TRUE(problems.empty()) << told(problems);
    EXPECT_EQ(layout->columns, table.spec->fields.size());
  }
}

TEST(BookTable, HasEveryFileOfABookNamed) {
  WrittenBook book;
  std::vector<std::string> expected{"book.toml"};
  for (const BookTable& table : book_tables()) {
    book.without(table.file()).file(table.name() + "/a.csv", heading_line(*table.spec));
    expected.push_back(table.name() + "/a.csv");
  }
  EXPECT_EQ(files_of(book.read()), std::vector<std::string>(expected));
}

}  // namespace
}  // namespace driftwarden::book_table_test
