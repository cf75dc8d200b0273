// SPDX-License-Identifier: MIT
#include "book/name_index.hpp"

#include <gtest/gtest.h>

#include <string>

namespace driftwarden::name_index_test {
namespace {

// Counts how many names are looked at.
struct CountedNames {
  const std::vector<std::string>* names;
  std::size_t* looks;
  std::string_view operator()(Row row) const {
    ++*looks;
    return (*names)[row];
  }
};

class NameIndexTest : public testing::Test {
 protected:
  NameIndex<CountedNames> index() {
    NameIndex<CountedNames> index(names_.size(), CountedNames{&names_, &looks_});
    for (Row row = 0; row < names_.size(); ++row) index.enter(row);
    return index;
  }

  std::vector<std::string> names_;
  std::size_t looks_ = 0;
};

TEST_F(NameIndexTest, FindsTheRowOfAName) {
  names_ = {"P-1", "P-2", "a name longer than eight bytes", "12345678", ""};
  const auto index = this->index();
  for (Row row = 0; row < names_.size(); ++row) EXPECT_EQ(index.find(names_[row]), row);
}

TEST_F(NameIndexTest, FindsNothingThatWasNotEntered) {
  names_ = {"P-1", "12345678"};
  const auto index = this->index();
  for (const std::string name : {"P-2", "p-1", "P-1 ", "1234567", "123456789", ""})
    EXPECT_EQ(index.find(name), no_row) << name;
}

TEST_F(NameIndexTest, FindsNoTextThatIsNowhere) {
  names_ = {"P-1"};
  EXPECT_EQ(index().find(std::string_view()), no_row);
}

TEST_F(NameIndexTest, IsEmptyWithoutRows) { EXPECT_EQ(index().find("P-1"), no_row); }

TEST_F(NameIndexTest, KeepsTheFirstRowOfANameThatStandsTwiceAndSaysSo) {
  names_ = {"P-1", "P-2", "P-1"};
  NameIndex<CountedNames> index(names_.size(), CountedNames{&names_, &looks_});
  EXPECT_EQ(index.enter(0), no_row);
  EXPECT_EQ(index.enter(1), no_row);
  EXPECT_EQ(index.enter(2), 0U);
  EXPECT_EQ(index.find("P-1"), 0U);
}

TEST_F(NameIndexTest, TellsNamesWithNulBytesApart) {
  names_ = {std::string("a\0", 2), "a", std::string("a\0\0", 3)};
  const auto index = this->index();
  for (Row row = 0; row < names_.size(); ++row) EXPECT_EQ(index.find(names_[row]), row);
}

// Names of samples are mostly a running number, and differ in their last letters only.
TEST_F(NameIndexTest, LooksAtFewNamesToFindOneAmongRunningNumbers) {
  for (const std::string prefix : {"S", "S-", "2026-W40-", "site 12/sample "}) {
    for (const int digits : {4, 5, 6}) {
      names_.clear();
      for (int i = 0; i < 9000; ++i) {
        const std::string number = std::to_string(i);
        names_.push_back(prefix + std::string(static_cast<std::size_t>(digits) - number.size(), '0') + number);
      }
      const auto index = this->index();
      looks_ = 0;
      for (const std::string& name : names_) index.find(name);
      // A fair hash at a load of at most one half looks at 1.5 names on average (Knuth, The Art of Computer
      // Programming, vol. 3, 6.4, linear probing, from memory); twice that is still quick.
      EXPECT_LT(looks_, 3 * names_.size()) << names_.back();
    }
  }
}

struct ExpectedNames : CountedNames {
  void expect(Row row) const { *expected = row; }
  Row* expected;
};

TEST(NameIndex, SeeksTheRowThatWillBeFoundAndNothingElse) {
  const std::vector<std::string> names = {"P-1", "P-2"};
  std::size_t looks = 0;
  Row expected = no_row;
  NameIndex<ExpectedNames> index(names.size(), ExpectedNames{{&names, &looks}, &expected});
  NameIndex<ExpectedNames>::Sought nothing;
  index.seek_row(nothing);
  EXPECT_EQ(nothing.row, no_row);
  auto sought = index.seek("P-2");
  index.seek_row(sought);  // nothing was entered
  EXPECT_EQ(sought.row, no_row);
  index.enter(1);
  index.seek_row(sought);
  EXPECT_EQ(sought.row, 1U);
  EXPECT_EQ(expected, 1U);
  looks = 0;
  index.seek_name(sought);
  EXPECT_EQ(looks, 1U);
  index.seek_name(nothing);
  EXPECT_EQ(looks, 1U);
}

}  // namespace
}  // namespace driftwarden::name_index_test
