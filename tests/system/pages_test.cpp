// SPDX-License-Identifier: MIT
#include "system/pages.hpp"

#include <gtest/gtest.h>

#include <cstdint>
#include <limits>
#include <new>

namespace driftwarden::pages_test {
namespace {

constexpr std::size_t bytes = 3 * Pages::huge_page;

char& last_byte(const Pages& pages) { return static_cast<char*>(pages.begin())[bytes - 1]; }

TEST(Pages, ReadAsZeroAndKeepWhatIsWritten) {
  const Pages pages(bytes);
  EXPECT_EQ(last_byte(pages), 0);
  last_byte(pages) = 'x';
  EXPECT_EQ(last_byte(pages), 'x');
}

TEST(Pages, BeginOnTheBorderOfAHugePage) {
  const Pages pages(bytes);
  EXPECT_EQ(reinterpret_cast<std::uintptr_t>(pages.begin()) % Pages::huge_page, 0U);
}

TEST(Pages, MoveWithWhatStandsInThem) {
  Pages from(bytes);
  last_byte(from) = 'x';
  Pages to;
  to = std::move(from);
  EXPECT_EQ(last_byte(to), 'x');
}

TEST(Pages, AreNoneUntilAskedFor) { EXPECT_EQ(Pages().begin(), nullptr); }

TEST(Pages, MoreThanThereCanBeIsRefused) {
  EXPECT_THROW(Pages(std::numeric_limits<std::size_t>::max()), std::bad_alloc);
  EXPECT_THROW(Pages(std::numeric_limits<std::size_t>::max() / 4), std::bad_alloc);
}

}  // namespace
}  // namespace driftwarden::pages_test
