// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "rule/flow_band.hpp"
#include "verdict/screening.hpp"

namespace driftwarden {

// What is known of a sample before it is taken: as it is planned, or as it stands in samples.csv.
struct SampleAhead : PlannedSample {
  bool is_recorded = false;  // in samples.csv
};

struct SamplesAhead {
  std::vector<SampleAhead> samples;
  std::vector<const PlannedSample*> left_out;  // planned, and the name has gone to a sample of another batch
};

// The flow a sample is meant to run at, L/min, before it is one of the book's that nominal_flow knows: its own, else
// its sampler's; missing where neither says.
double nominal_flow(const RuleSet& rules, double own_l_min, const std::string& sampler);

// The samples and blanks of a batch: those in samples.csv in its order, then those that are only planned.
// The nominal flow is the sample's own or its sampler's, the calibrator the one planned or that it was read with first.
SamplesAhead samples_ahead(const Screening& screening, std::string_view batch);

// The samples that are planned with one of these pumps, and are not in samples.csv yet.
SamplesAhead samples_planned_with(const Screening& screening, const std::vector<Row>& pumps);

// The names of all batches of the book, planned or recorded, each once, sorted.
std::vector<std::string> batch_names(const Book& book);

// A rule on the flow before sampling, and the flows that keep it.
struct PreFlowRule {
  const Rule* rule = nullptr;
  FlowBand band;
};

// What the rules in force will ask of a sample that is still to be taken. Where nobody can say yet whether a rule
// applies, it is among them.
struct RulesAhead {
  std::vector<PreFlowRule> pre_flow;  // in the order of the rules
  std::vector<const Rule*> volume;    // rules on the volume, on the minutes and on the drift, likewise
  std::vector<const Rule*> minutes;
  std::vector<const Rule*> drift;
  std::vector<const Rule*> volume_reference;  // likewise on the volume at reference conditions
  std::vector<const Rule*> not_foretold;      // on volume or time, by a figure that nobody can say beforehand
  double warm_up_min = missing;               // the longest that is asked for
  double post_age_max_min = missing;          // the shortest time within which the flow has to be read after the stop
  double pre_age_max_min = missing;           // the same before the start
  int pre_count = 0;                          // readings that are asked for
  int post_count = 0;
  int field_count = 0;
  bool asks_for_vacuum = false;  // behind the sampler
  bool asks_for_leak = false;    // what a leak test showed
  bool asks_for_interruptions = false;
  bool asks_for_pressure_drop = false;  // over the sampler; this and the next where the book has the column
  bool asks_for_pulsation = false;

  // The flows that keep all rules on the flow before sampling.
  FlowBand pre_band() const;
};
RulesAhead rules_ahead(const Screening& screening, const SampleAhead& sample, Row calibrator);

}  // namespace driftwarden
