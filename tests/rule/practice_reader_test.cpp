// SPDX-License-Identifier: MIT
#include "rule/practice_reader.hpp"

#include <gtest/gtest.h>

#include "rule/pack_text.hpp"

namespace driftwarden::practice_reader_test {
namespace {

const std::string heading = "pack = \"p\"\ntitle = \"T\"\nedition = \"1\"\n";

std::string faults_of(const std::string& practice) {
  return lines_of(parse_pack(heading + practice, "p.toml").faults());
}

TEST(PracticeReader, ReadsAPacksChoicesWithTheirSource) {
  const Pack pack = pack_of(heading +
                            "[practice]\nrotameter_correction = \"beyond 5 %\"\nflow_for_volume = \"nominal\"\n"
                            "drift_base = \"mean\"\nbubble_humidity = \"dry\"\nsource = \"S\"\n");
  ASSERT_EQ(pack.practice.size(), 4U);
  EXPECT_EQ(pack.practice[0].key(), "rotameter_correction");
  EXPECT_EQ(pack.practice[0].word(), "beyond 5 %");
  EXPECT_EQ(pack.practice[0].source_or_reason, "S");
  EXPECT_EQ(pack.practice[0].pack, "p");
  EXPECT_EQ(to_text(pack.practice[0].place), "p.toml:5:1");
  EXPECT_EQ(pack.practice[1].word(), "nominal");
}

TEST(PracticeReader, WantsTheSourceOfAPack) {
  EXPECT_EQ(faults_of("[practice]\ndrift_base = \"pre\"\n"),
            "p.toml:4:1: error: [practice] has no 'source' [toml/missing-key]\n");
}

TEST(PracticeReader, RefusesValuesAndKeysItDoesNotKnow) {
  EXPECT_EQ(faults_of("[practice]\nsource = \"S\"\ndrift_base = \"before\"\n"),
            "p.toml:6:14: error: 'drift_base' can't be 'before'; known are pre, post, mean, nominal "
            "[toml/unknown-word]\n");
  EXPECT_EQ(faults_of("[practice]\nsource = \"S\"\nflow_for_volume = \"maen\"\n"),
            "p.toml:6:19: error: 'flow_for_volume' can't be 'maen'; did you mean 'mean'? [toml/unknown-word]\n");
  EXPECT_EQ(faults_of("[practice]\nsource = \"S\"\ndriftbase = \"pre\"\n"),
            "p.toml:6:1: error: 'driftbase' is no key of [practice]; did you mean 'drift_base'? [toml/unknown-key]\n");
}

}  // namespace
}  // namespace driftwarden::practice_reader_test
