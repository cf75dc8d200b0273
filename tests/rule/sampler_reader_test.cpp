// SPDX-License-Identifier: MIT
#include "rule/sampler_reader.hpp"

#include <gtest/gtest.h>

#include "rule/pack_text.hpp"

namespace driftwarden::sampler_reader_test {
namespace {

const std::string heading = "pack = \"p\"\ntitle = \"T\"\nedition = \"1\"\n";

std::string faults_of(const std::string& samplers) {
  return lines_of(parse_pack(heading + samplers, "p.toml").faults());
}

TEST(SamplerReader, ReadsEveryKeyInTheOrderOfTheFile) {
  const Pack pack = pack_of(heading +
                            "[sampler.z]\ntitle = \"Z\"\nnominal = \"2000 mL/min\"\nfraction = \"respirable\"\n"
                            "cut_exponent = 0.5\ncut_source = \"C\"\nsource = \"S\"\n[sampler.a]\n");
  ASSERT_EQ(pack.samplers.size(), 2U);
  const Sampler& sampler = pack.samplers[0];
  EXPECT_EQ(sampler.name, "z");
  EXPECT_EQ(sampler.title, "Z");
  EXPECT_EQ(sampler.nominal_l_min, 2.0);
  EXPECT_EQ(sampler.fraction, "respirable");
  EXPECT_EQ(sampler.cut_exponent, 0.5);
  EXPECT_EQ(sampler.cut_source, "C");
  EXPECT_EQ(sampler.source, "S");
  EXPECT_EQ(sampler.pack, "p");
  EXPECT_EQ(to_text(sampler.place), "p.toml:4:10");
  EXPECT_EQ(pack.samplers[1].name, "a");
  EXPECT_FALSE(pack.samplers[1].nominal_l_min);
  EXPECT_FALSE(pack.samplers[1].cut_exponent);
}

TEST(SamplerReader, WantsTheSourceOfACutExponent) {
  EXPECT_EQ(faults_of("[sampler.a]\ncut_exponent = 0.5\n"),
            "p.toml:5:1: error: 'cut_exponent' of sampler 'a' has no 'cut_source'; name where the exponent was "
            "published, or leave it out [sampler/no-cut-source]\n");
}

TEST(SamplerReader, RefusesANominalFlowThatIsNone) {
  EXPECT_EQ(faults_of("[sampler.a]\nnominal = 2\n"),
            "p.toml:5:11: error: '2' lacks a unit; units read are L/min, mL/min, cm3/min, m3/h, m3/min, ft3/min "
            "[amount/no-unit]\n");
  EXPECT_EQ(faults_of("[sampler.a]\nnominal = \"0 L/min\"\n"),
            "p.toml:5:11: error: '0 L/min' is no flow to sample with; write a flow above 0 [sampler/no-flow]\n");
  EXPECT_EQ(faults_of("[sampler.a]\nnominal = []\n"),
            "p.toml:5:11: error: 'nominal' of sampler 'a' is a list; write a flow, as in \"2.0 L/min\" "
            "[toml/wrong-type]\n");
}

TEST(SamplerReader, MayHaveNoMoreThanATitleAndBlanksInItsName) {
  const Pack pack = pack_of(heading + "[sampler.\"open-face cassette\"]\ntitle = \"Cassette\"\n");
  ASSERT_EQ(pack.samplers.size(), 1U);
  EXPECT_EQ(pack.samplers[0].name, "open-face cassette");
  EXPECT_FALSE(pack.samplers[0].standing);
}

TEST(SamplerReader, TakesNoFlowFromMemory) {
  EXPECT_EQ(pack_of(heading + "[sampler.a]\nnominal = \"2 L/min\"\nstanding = \"read\"\n").samplers[0].standing,
            Standing::read);
  EXPECT_EQ(faults_of("[sampler.a]\nstanding = \"memory\"\n"), "");
  EXPECT_EQ(faults_of("[sampler.a]\nnominal = \"2 L/min\"\nstanding = \"memory\"\n"),
            "p.toml:6:1: error: the flow of sampler 'a' is from memory; leave the flow out, or name where it was read "
            "[sampler/flow-from-memory]\n");
}

TEST(SamplerReader, RefusesWhatIsNoSampler) {
  EXPECT_EQ(faults_of("[sampler]\na = 1\n"),
            "p.toml:5:5: error: sampler 'a' is a number; write it as [sampler.NAME] [toml/wrong-type]\n");
  EXPECT_EQ(faults_of("[sampler.\" a b\"]\n"),
            "p.toml:4:10: error: ' a b' can't be a cell's text; write it as samples.csv does, without blanks at its "
            "ends [toml/not-a-word]\n");
  EXPECT_EQ(faults_of("[sampler.\"a b\"]\nnominl = 1\n"),
            "p.toml:5:1: error: 'nominl' is no key of sampler 'a b'; did you mean 'nominal'? [toml/unknown-key]\n");
}

}  // namespace
}  // namespace driftwarden::sampler_reader_test
