// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "history/supposition.hpp"

namespace driftwarden {

// A finding in words, for it outlives the judge that made it.
struct ToldFinding {
  std::string rule;
  Outcome outcome = Outcome::met;
  std::string message;
};

// A sample's figures and verdict: as the certificates in force say, or under a supposition.
struct JudgedSample {
  double flow_l_min = missing;
  double drift = missing;        // ratio
  double drift_limit = missing;  // of a finding about the drift: rounding may not hide on which side it lies
  double volume_l = missing;
  double volume_reference_l = missing;
  double volume_expanded_l = missing;  // U of the volume at 95 %
  Verdict verdict = Verdict::valid;
  std::vector<ToldFinding> findings;
  std::vector<std::string> volume_remarks;  // that belong beside the volume
  double measured_volume_l = missing;       // another than the volume where that is a convention
  double measured_expanded_l = missing;     // its U
};

// Whether a sample has this finding, with the same outcome.
bool holds(const JudgedSample& judged, const ToldFinding& finding);

// A set with a reading that leans on the instrument, itself or through the certificate of another calibrator.
struct LeaningSet {
  Stage stage = Stage::pre;
  Row calibrator = no_row;
  std::int32_t certificate = -1;  // in force at its last reading that leans
  bool counts = false;            // is the pre or post set that the flow is formed of
  Moment last = no_moment;        // of its readings
};

// What an error of the instrument does to a sample.
enum class Bearing : std::uint8_t {
  on_the_volume,   // one calibrator before and after: the drift stands, the volume does not
  on_drift_too,    // only one of the two sets leans on it, or each through another certificate
  on_checks_only,  // neither: flow, drift and volume stand
  incomplete,      // a set before or after is lacking: there is no drift that could move
};

// What a supposition changes of a sample, by what asks for somebody first.
enum class Change : std::uint8_t {
  verdict,
  figures,  // or findings; the verdict stays
  nothing,
  open_before,  // undecided for want of something else, whatever the calibrator showed
};
inline constexpr std::array<Change, 4> all_changes{Change::verdict, Change::figures, Change::nothing,
                                                   Change::open_before};
inline constexpr std::array<Bearing, 4> all_bearings{Bearing::on_the_volume, Bearing::on_drift_too,
                                                     Bearing::on_checks_only, Bearing::incomplete};

struct LookedBackSample {
  Row sample = no_row;
  std::vector<LeaningSet> sets;
  Bearing bearing = Bearing::on_checks_only;
  JudgedSample before;
  JudgedSample sudden;
  std::optional<JudgedSample> linear;  // nothing where the window is open
  std::vector<std::string> had_by;     // whoever had the calibrators of its sets, as far as issues.csv says; each once

  bool verdict_changes() const;
  Change change() const;
};

struct Lookback {
  LookbackWindow window;
  std::vector<LeaningCertificate> leaning;
  std::vector<LookedBackSample> samples;  // in the book's order
  std::vector<std::string> remarks;       // what the reader should know beside the figures
  std::vector<std::string> holders;  // who had the instrument in the window, "north crew (kit K-1), from 2026-10-05"
};

// Every sample, of those started up to a day, that leaned on an instrument in the window, judged three times.
Lookback look_back(const Screening& screening, const LookbackWindow& window, Day as_of);

}  // namespace driftwarden
