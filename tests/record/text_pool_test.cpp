// SPDX-License-Identifier: MIT
#include "record/text_pool.hpp"

#include <gtest/gtest.h>

#include <string>
#include <utility>

namespace driftwarden::text_pool_test {
namespace {

std::string numbered(int i) { return "batch " + std::to_string(i); }

TEST(TextPool, HasTheEmptyTextAsNumberZero) {
  TextPool pool;
  EXPECT_EQ(pool.size(), 1U);
  EXPECT_EQ(pool.text(0), "");
  EXPECT_EQ(pool.id_of(""), 0U);
}

TEST(TextPool, KeepsEachTextOnce) {
  TextPool pool;
  const TextId first = pool.id_of("B-17");
  EXPECT_EQ(pool.id_of(std::string("B-17")), first);
  EXPECT_NE(pool.id_of("b-17"), first);
  EXPECT_EQ(pool.size(), 3U);
  EXPECT_EQ(pool.text(first), "B-17");
}

TEST(TextPool, FindsWithoutKeeping) {
  TextPool pool;
  const TextId kept = pool.id_of("B-17");
  EXPECT_EQ(pool.find("B-17"), kept);
  EXPECT_EQ(pool.find("B-18"), TextPool::unknown);
  EXPECT_EQ(pool.size(), 2U);
}

TEST(TextPool, StillFindsEveryTextAfterItHasGrown) {
  TextPool pool;
  for (int i = 0; i < 10'000; ++i) pool.id_of(numbered(i));
  for (int i = 0; i < 10'000; ++i) ASSERT_EQ(pool.text(pool.find(numbered(i))), numbered(i));
}

TEST(TextPool, StillFindsEveryTextAfterItHasMoved) {
  TextPool pool;
  for (int i = 0; i < 100; ++i) pool.id_of(numbered(i));
  TextPool built(std::move(pool));
  TextPool assigned;
  assigned = std::move(built);
  for (int i = 0; i < 100; ++i) ASSERT_EQ(assigned.text(assigned.find(numbered(i))), numbered(i));
}

}  // namespace
}  // namespace driftwarden::text_pool_test
