// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "verdict/blanks_ahead.hpp"
#include "verdict/drift_ahead.hpp"
#include "verdict/sample_judge.hpp"
#include "verdict/volume_ahead.hpp"

namespace driftwarden {

// What there is to know of one sample before it is taken.
struct SampleOutlook {
  VolumeAsked asked;
  double minutes = missing;  // it is meant to run; else the least that is enough, in whole minutes
  bool minutes_were_said = false;
  VolumeAhead volume;
  WindowHelp help;
  DriftAhead drift;
  std::vector<std::string> against;  // using its pump or its calibrator, each in a sentence
  // Its figures as they would come out, and why they can't be worked out.
  const SampleResult* rehearsed = nullptr;
  std::string why_not;
  double spare_minutes = missing;  // the fewest that draw the least volume even if it is smaller by all of U

  // Whether the minutes that were said leave the window; false where nobody knows.
  bool is_outside() const;
  bool is_amiss() const { return volume.is_impossible() || is_outside(); }
};

// What there is to know of some samples, and of the blanks that go with them.
struct Outlook {
  std::string batch;          // "" where a single sample is asked for
  bool is_of_blanks = false;  // the batch has nothing else
  std::vector<SampleOutlook> samples;
  BlanksAhead blanks;

  bool is_amiss() const;
};

// Of one sample, without a rehearsal.
SampleOutlook sample_outlook(const Screening& screening, const VolumeAsked& asked, double minutes_said, Moment started,
                             Day as_of);

}  // namespace driftwarden
