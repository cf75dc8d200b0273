// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>

#include "record/instrument.hpp"
#include "record/moment.hpp"
#include "record/sample.hpp"

namespace driftwarden {

// One row of plan.csv: a sample, or a blank, that is to be taken. Nothing is judged by it.
struct PlannedSample {
  std::string name;
  std::string batch;
  SampleKind kind = SampleKind::sample;
  Row pump = no_row;
  Row calibrator = no_row;  // its flow is to be read with
  std::string sampler;
  double nominal_l_min = missing;  // its own; else its sampler's counts
  std::string method;
  std::string analysis;
  std::string medium;
  double target_mg_m3 = missing;    // that has to be found
  double expected_mg_m3 = missing;  // of all dust that the medium collects
  Day day = no_day;
  std::string note;
  Row recorded = no_row;  // of this name in samples.csv
  RowPlace place;
};

}  // namespace driftwarden
