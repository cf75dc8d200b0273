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

const std::string curve =
    "[sampler.a]\nnominal = \"2.0 L/min\"\ncut = \"4.0 um\"\ncut_spread = 1.25\ncut_exponent = 0.75\n"
    "cut_flows = [\"1500 mL/min\", \"2.5 L/min\"]\ncut_source = \"C\"\n";

std::string without(std::string text, const std::string& line) {
  const std::size_t at = text.find(line);
  return text.erase(at, text.find('\n', at) + 1 - at);
}

TEST(SamplerReader, ReadsAPenetrationCurve) {
  const Sampler sampler = pack_of(heading + curve).samplers.at(0);
  EXPECT_EQ(sampler.cut_um, 4);
  EXPECT_EQ(sampler.cut_spread, 1.25);
  EXPECT_EQ(sampler.cut_exponent, 0.75);
  EXPECT_FALSE(sampler.cut_kind);
  EXPECT_EQ(sampler.cut_flows_l_min.lower, 1.5);
  EXPECT_EQ(sampler.cut_flows_l_min.upper, 2.5);
  const Sampler impactor =
      pack_of(heading + without(curve, "cut_exponent") + "cut_law = \"impactor\"\n").samplers.at(0);
  EXPECT_EQ(impactor.cut_kind, CutKind::impactor);
}

TEST(SamplerReader, WantsAPenetrationCurveAsAWhole) {
  EXPECT_EQ(faults_of(without(curve, "nominal")),
            "p.toml:4:1: error: the cut of sampler 'a' lacks 'nominal'; write the flow at which the cut was found, as "
            "nominal = \"2.0 L/min\" [sampler/incomplete-cut]\n");
  EXPECT_EQ(
      faults_of(without(curve, "cut_spread")),
      "p.toml:4:1: error: the cut of sampler 'a' lacks 'cut_spread'; write the geometric standard deviation of the "
      "curve, as cut_spread = 1.25 [sampler/incomplete-cut]\n");
  EXPECT_EQ(faults_of(without(curve, "cut_flows")),
            "p.toml:4:1: error: the cut of sampler 'a' lacks 'cut_flows'; write over which flows its law was found, as "
            "cut_flows = [\"1.5 L/min\", \"2.5 L/min\"] [sampler/incomplete-cut]\n");
  EXPECT_EQ(
      faults_of(without(curve, "cut_exponent")),
      "p.toml:4:1: error: the cut of sampler 'a' lacks 'cut_law'; write cut_law = \"impactor\", \"elutriator\" or "
      "\"cyclone\", or a cut_exponent of its own [sampler/incomplete-cut]\n");
  EXPECT_EQ(faults_of(without(curve, "cut = ")),
            "p.toml:4:1: error: the cut of sampler 'a' lacks 'cut'; write the aerodynamic diameter at 50 % and the "
            "nominal flow, as cut = \"4.0 µm\" [sampler/incomplete-cut]\n");
  EXPECT_EQ(
      faults_of(without(curve, "cut_source")),
      "p.toml:6:1: error: 'cut' of sampler 'a' has no 'cut_source'; name where the cut was published or measured, "
      "or leave it out [sampler/no-cut-source]\n");
}

TEST(SamplerReader, RefusesACutThatIsNone) {
  const auto with = [](std::string text, const std::string& line, const std::string& instead) {
    const std::size_t at = text.find(line);
    return text.replace(at, text.find('\n', at) - at, instead);
  };
  EXPECT_EQ(faults_of(with(curve, "cut = ", "cut = \"0 µm\"")),
            "p.toml:6:7: error: '0 µm' is no diameter of a cut; write the aerodynamic diameter at 50 %, above 0 "
            "[sampler/no-cut]\n");
  EXPECT_EQ(faults_of(with(curve, "cut = ", "cut = 4")),
            "p.toml:6:7: error: '4' lacks a unit; units read are µm [amount/no-unit]\n");
  EXPECT_EQ(faults_of(with(curve, "cut_spread", "cut_spread = nan")),
            "p.toml:7:14: error: 'cut_spread' of sampler 'a' is no figure; write a number, without quotes "
            "[toml/wrong-type]\n");
  EXPECT_EQ(
      faults_of(with(curve, "cut_spread", "cut_spread = 1")),
      "p.toml:7:1: error: 'cut_spread' of sampler 'a' is not above 1; write the geometric standard deviation of the "
      "curve, the root of d16 / d84, as 1.25 [sampler/no-spread]\n");
  EXPECT_EQ(
      faults_of(with(curve, "cut_flows", "cut_flows = [\"1.5 L/min\"]")),
      "p.toml:9:13: error: 'cut_flows' of sampler 'a' is not two flows; write the least and the greatest flow of its "
      "calibration, as [\"1.5 L/min\", \"2.5 L/min\"] [toml/wrong-type]\n");
  EXPECT_EQ(
      faults_of(with(curve, "cut_flows", "cut_flows = [\"2.1 L/min\", \"2.5 L/min\"]")),
      "p.toml:9:1: error: 'cut_flows' of sampler 'a' do not hold its nominal flow between them; write the least flow "
      "first, and a range that the nominal flow lies in [sampler/no-range]\n");
  EXPECT_EQ(
      faults_of(with(curve, "cut_flows", "cut_flows = [\"2.5 L/min\", \"1.5 L/min\"]")),
      "p.toml:9:1: error: 'cut_flows' of sampler 'a' do not hold its nominal flow between them; write the least flow "
      "first, and a range that the nominal flow lies in [sampler/no-range]\n");
  EXPECT_EQ(
      faults_of(curve + "cut_law = \"elutriator\"\n"),
      "p.toml:8:1: error: 'cut_exponent' of sampler 'a' stands beside the law of an elutriator, which has its own; "
      "leave one of the two out: an exponent of its own calibration needs no cut_law [sampler/two-laws]\n");
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
