// SPDX-License-Identifier: MIT
#include "rule/measure.hpp"

#include <gtest/gtest.h>

#include <set>

namespace driftwarden::measure_test {
namespace {

template <class E>
std::string_view name_of(Subject subject, E measure) {
  return measures(subject)[static_cast<std::size_t>(measure)].name;
}

const Measure& sample_measure(SampleMeasure measure) {
  return measures(Subject::sample)[static_cast<std::size_t>(measure)];
}

constexpr Subject all_subjects[] = {Subject::sample, Subject::set,   Subject::reading, Subject::calibrator,
                                    Subject::pump,   Subject::batch, Subject::result};
static_assert(std::size(all_subjects) == subject_count);

TEST(MeasureCatalogue, HasTheSampleMeasuresUnderTheirNumbers) {
  using enum SampleMeasure;
  const std::pair<SampleMeasure, std::string_view> expected[] = {
      {drift, "drift"},
      {flow, "flow"},
      {flow_deviation, "flow.deviation"},
      {pre_flow, "pre.flow"},
      {post_flow, "post.flow"},
      {pre_deviation, "pre.deviation"},
      {post_deviation, "post.deviation"},
      {pre_count, "pre.count"},
      {post_count, "post.count"},
      {pre_rsd, "pre.rsd"},
      {post_rsd, "post.rsd"},
      {field_count, "field.count"},
      {field_deviation, "field.deviation"},
      {minutes, "minutes"},
      {paused, "paused"},
      {volume, "volume"},
      {volume_reference, "volume.reference"},
      {volume_uncertainty, "volume.uncertainty"},
      {warm_up, "warm-up"},
      {vacuum, "vacuum"},
      {leak, "leak"},
      {interruptions, "interruptions"},
      {pressure_drop, "pressure-drop"},
      {pulsation, "pulsation"},
      {pre_age, "pre.age"},
      {post_age, "post.age"},
      {temperature_change, "temperature.change"},
      {pressure_change, "pressure.change"},
      {overlap, "overlap"},
      {fault, "fault"},
      {calibrator_overdue, "calibrator.overdue"},
      {calibrator_range, "calibrator.range"},
      {calibrator_uncertainty, "calibrator.uncertainty"},
      {calibrator_same, "calibrator.same"},
      {calibrator_read_at, "calibrator.read-at"},
      {certificate_missing, "certificate.missing"},
      {cut_shift, "cut.shift"},
      {cut_size, "cut.size"},
      {mass_shift_actual, "mass.shift.actual"},
      {mass_shift_nominal, "mass.shift.nominal"},
      {mass_bias, "mass.bias"},
      {record_pump_serial, "record.pump-serial"},
      {record_by, "record.by"},
      {record_conditions, "record.conditions"},
      {record_sampling_conditions, "record.sampling-conditions"},
      {record_calibrator_serial, "record.calibrator-serial"},
      {record_certificate_uncertainty, "record.certificate-uncertainty"},
      {record_certificate_issuer, "record.certificate-issuer"},
      {record_certificate_standard, "record.certificate-standard"},
      {record_chain, "record.chain"},
      {record_void_reasons, "record.void-reasons"},
      {record_method, "record.method"},
      {record_fault, "record.fault"},
      {record_uncertainty, "record.uncertainty"},
      {field_nominal_deviation, "field.nominal-deviation"},
      {sampler_known, "sampler.known"},
      {method_known, "method.known"},
      {analysis_known, "analysis.known"},
  };
  ASSERT_EQ(measures(Subject::sample).size(), std::size(expected));
  for (const auto& [measure, name] : expected) EXPECT_EQ(name_of(Subject::sample, measure), name);
}

TEST(MeasureCatalogue, HasTheMeasuresOfInstrumentsAndBatchesUnderTheirNumbers) {
  EXPECT_EQ(name_of(Subject::set, SetMeasure::count), "count");
  EXPECT_EQ(name_of(Subject::set, SetMeasure::rsd), "rsd");
  EXPECT_EQ(name_of(Subject::set, SetMeasure::range), "range");
  EXPECT_EQ(name_of(Subject::set, SetMeasure::flow), "flow");
  EXPECT_EQ(name_of(Subject::set, SetMeasure::flow_deviation), "flow.deviation");
  EXPECT_EQ(name_of(Subject::set, SetMeasure::duration), "duration");
  EXPECT_EQ(name_of(Subject::set, SetMeasure::age), "age");
  EXPECT_EQ(name_of(Subject::reading, ReadingMeasure::indicated), "indicated");
  EXPECT_EQ(name_of(Subject::reading, ReadingMeasure::actual), "actual");
  EXPECT_EQ(name_of(Subject::reading, ReadingMeasure::correction), "correction");
  EXPECT_EQ(name_of(Subject::reading, ReadingMeasure::range), "range");
  EXPECT_EQ(name_of(Subject::reading, ReadingMeasure::temperature), "temperature");
  EXPECT_EQ(name_of(Subject::reading, ReadingMeasure::pressure), "pressure");
  EXPECT_EQ(name_of(Subject::reading, ReadingMeasure::humidity), "humidity");
  EXPECT_EQ(name_of(Subject::calibrator, CalibratorMeasure::due), "due");
  EXPECT_EQ(name_of(Subject::calibrator, CalibratorMeasure::as_found_error), "as-found.error");
  EXPECT_EQ(name_of(Subject::calibrator, CalibratorMeasure::age), "age");
  EXPECT_EQ(name_of(Subject::calibrator, CalibratorMeasure::read_at), "read-at");
  EXPECT_EQ(name_of(Subject::pump, PumpMeasure::drift_mean), "drift.mean");
  EXPECT_EQ(name_of(Subject::pump, PumpMeasure::drift_sd), "drift.sd");
  EXPECT_EQ(name_of(Subject::pump, PumpMeasure::trend), "trend");
  EXPECT_EQ(name_of(Subject::pump, PumpMeasure::void_share), "void.share");
  EXPECT_EQ(name_of(Subject::batch, BatchMeasure::blanks), "blanks");
  EXPECT_EQ(name_of(Subject::batch, BatchMeasure::blank_share), "blank.share");
  EXPECT_EQ(name_of(Subject::batch, BatchMeasure::void_share), "void.share");
  EXPECT_EQ(name_of(Subject::result, ResultMeasure::mass), "mass");
  EXPECT_EQ(name_of(Subject::result, ResultMeasure::mass_net), "mass.net");
  EXPECT_EQ(name_of(Subject::result, ResultMeasure::detected), "detected");
  EXPECT_EQ(name_of(Subject::result, ResultMeasure::blank_count), "blank.count");
  EXPECT_EQ(name_of(Subject::result, ResultMeasure::blank_share), "blank.share");
  EXPECT_EQ(name_of(Subject::result, ResultMeasure::blank_mean), "blank.mean");
  EXPECT_EQ(name_of(Subject::result, ResultMeasure::blank_above_limit), "blank.above-limit");
  EXPECT_EQ(name_of(Subject::result, ResultMeasure::concentration), "concentration");
  EXPECT_EQ(name_of(Subject::result, ResultMeasure::concentration_uncertainty), "concentration.uncertainty");
  EXPECT_EQ(name_of(Subject::result, ResultMeasure::balance_certificate_missing), "balance.certificate.missing");
  EXPECT_EQ(name_of(Subject::result, ResultMeasure::balance_overdue), "balance.overdue");
  EXPECT_EQ(name_of(Subject::result, ResultMeasure::control_count), "control.count");
  EXPECT_EQ(name_of(Subject::result, ResultMeasure::control_mean), "control.mean");
  EXPECT_EQ(name_of(Subject::result, ResultMeasure::control_change), "control.change");
}

TEST(MeasureCatalogue, FindsEachMeasureByItsNameAndNoOther) {
  for (const Subject subject : all_subjects) {
    std::set<std::string_view> names;
    for (std::size_t i = 0; i < measures(subject).size(); ++i) {
      const Measure& measure = measures(subject)[i];
      EXPECT_EQ(measure_named(subject, measure.name), i) << measure.name;
      EXPECT_TRUE(names.insert(measure.name).second) << measure.name << " twice";
    }
    EXPECT_FALSE(measure_named(subject, "no such measure"));
  }
  EXPECT_FALSE(measure_named(Subject::pump, "drift"));
}

TEST(MeasureCatalogue, DefinesEachMeasureAndPrintsItInAUnitOfItsDimension) {
  for (const Subject subject : all_subjects) {
    for (const Measure& measure : measures(subject)) {
      EXPECT_EQ(measure.of, subject) << measure.name;
      EXPECT_FALSE(measure.definition.empty()) << measure.name;
      if (measure.kind != MeasureKind::number) continue;
      EXPECT_TRUE(unit_named(measure.unit, measure.dimension)) << measure.name;
    }
  }
}

TEST(MeasureCatalogue, LetsDifferencesOfFlowNameABaseOrBeAbsolute) {
  using enum SampleMeasure;
  for (const SampleMeasure measure : {drift, flow_deviation, pre_deviation, post_deviation, field_deviation}) {
    EXPECT_TRUE(sample_measure(measure).has_base) << sample_measure(measure).name;
    EXPECT_EQ(sample_measure(measure).absolute, Dimension::flow) << sample_measure(measure).name;
  }
  EXPECT_FALSE(sample_measure(flow).has_base);
  EXPECT_FALSE(sample_measure(pre_rsd).has_base);
  EXPECT_EQ(sample_measure(pressure_change).dimension, Dimension::ratio);
  EXPECT_EQ(sample_measure(pressure_change).absolute, Dimension::pressure);
  EXPECT_EQ(sample_measure(volume_uncertainty).absolute, Dimension::volume);
  EXPECT_FALSE(sample_measure(cut_shift).absolute);
}

TEST(MeasureCatalogue, SaysWhichMeasuresAreNoNumbers) {
  using enum SampleMeasure;
  for (const SampleMeasure measure : {fault, calibrator_same, certificate_missing}) {
    EXPECT_EQ(sample_measure(measure).kind, MeasureKind::yes_no) << sample_measure(measure).name;
  }
  EXPECT_EQ(sample_measure(calibrator_read_at).kind, MeasureKind::word);
  ASSERT_EQ(sample_measure(calibrator_read_at).words.size(), 2U);
  EXPECT_EQ(sample_measure(calibrator_read_at).words[0], "centre");
  EXPECT_EQ(sample_measure(calibrator_read_at).words[1], "top");
}

// A limit without a word on how well the figure is known is a promise that nobody can check.
TEST(MeasureCatalogue, SaysOfEveryMeasureHowWellItIsKnown) {
  using enum SampleMeasure;
  EXPECT_EQ(sample_measure(drift).knowledge_text(), "u by the sample's budget");
  EXPECT_EQ(sample_measure(pre_count).knowledge_text(), "exact: counted");
  EXPECT_EQ(sample_measure(volume_uncertainty).knowledge_text(), "u not stated: it is an uncertainty itself");
  EXPECT_EQ(sample_measure(fault).knowledge_text(), "exact: as recorded");
  for (const Measure& measure : measures(Subject::pump)) EXPECT_FALSE(measure.known_by.empty()) << measure.name;
}

}  // namespace
}  // namespace driftwarden::measure_test
