// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <vector>

#include "assessment/calibrator_knowledge.hpp"
#include "book/stamp_text.hpp"
#include "statistics/mean_and_spread.hpp"

namespace driftwarden {

// Readings taken together: one stage, one calibrator, each within this time of the one before, or under one set name.
inline constexpr Moment longest_gap_in_a_set_s = Moment{30} * 60;

// Which readings make up a set: a stretch of a list of reading rows, in order of time.
struct SetRows {
  Stage stage = Stage::pre;
  Row calibrator = no_row;
  std::uint32_t begin = 0;
  std::uint32_t count = 0;
  Moment first = no_moment;
  Moment last = no_moment;
};

// Puts the readings of one sample or pump in order of stage, set and time, and says where each set lies.
// `rows` is reordered; `sets` is refilled, in order of stage and first reading. Readings without a time are left out at
// the end of `rows`.
class SetSplitter {
 public:
  void split(const ReadingTable& readings, std::vector<Row>& rows, std::vector<SetRows>& sets);

 private:
  struct Key {
    Stage stage;
    Moment taken;
    Row row;
    std::uint32_t set;
  };
  static bool split_in_order(const ReadingTable& readings, const std::vector<Row>& rows, std::vector<SetRows>& sets);
  void split_in_any_order(const ReadingTable& readings, std::vector<Row>& rows, std::vector<SetRows>& sets);
  void append_sets(const ReadingTable& readings, std::vector<SetRows>& sets);
  std::optional<std::uint32_t> set_of(const ReadingTable& readings, const Key& key, const std::vector<SetRows>& sets);

  std::vector<Key> keys_;
  std::vector<std::uint32_t> unnamed_;  // sets of the stage that may be gone on with
  std::map<TextId, std::vector<std::uint32_t>> named_;
};

// How far an indication lies outside its calibrator's range, relative to the nearer end and as a difference; 0 inside
// it, missing where no range is known.
struct BeyondRange {
  double ratio = missing;
  double l_min = missing;
};
BeyondRange beyond_range(const Instrument& calibrator, double indicated_l_min);

// How a set's mean flow follows the conditions at its readings, L/min per K and per kPa: the mean of how each follows
// its own, for not all of them may be corrected. Pressures by altitude stand apart from those that were read.
struct FollowsConditions {
  double per_k = 0;
  double per_kpa_read = 0;
  double per_kpa_by_altitude = 0;
};

// The figures of a set. Void and rejected readings are counted apart and take no part in the means.
struct ReadingSet {
  SetRows rows;
  std::size_t voided = 0;
  MeanAndSpread flow;                // of the corrected readings, actual L/min
  double indicated_l_min = missing;  // mean of the same readings as indicated
  double temperature_k = missing;    // means over the readings that say
  double pressure_kpa = missing;
  bool has_altitude_pressure = false;                             // some pressure was reckoned from the site's altitude
  double altitude_share = 0;                                      // of the readings that have such a one
  bool is_outside_certificate = false;                            // some reading lay outside the certificate's points
  CorrectedReading::Lack lack = CorrectedReading::Lack::nothing;  // why the flow could not be worked out
  FollowsConditions follows;
  Correction left_out = Correction::none;           // for some reading
  std::int32_t certificate = -1;                    // in force at the last reading
  std::optional<std::int32_t> earlier_certificate;  // in force at an earlier one that counts, if another
  bool lacks_certificate = false;                   // for some reading that counts none was in force
  double overdue_min = missing;  // how long one was overdue at the worst for these, minutes (negative: not yet due)
  BeyondRange beyond_range;      // of the reading that lay farthest outside
  ProblemNumber problem = no_problem;

  // Whether all its readings are struck out.
  bool is_void() const { return flow.n == 0 && voided > 0 && problem == no_problem; }
};

// How one reading was corrected: what went in, and what came of it.
struct ReadingStep {
  Row reading = no_row;
  std::int32_t certificate = -1;
  FactorInputs inputs;
  CorrectedReading corrected;
};

// Works out sets of a book.
class SetReader {
 public:
  SetReader(const Book& book, const CalibratorKnowledge& knowledge, const CorrectionPractice& practice)
      : book_(book), knowledge_(knowledge), practice_(practice), days_(book.settings.zone) {}

  // `rows` holds the set's readings, `set` its place in them.
  ReadingSet read(std::span<const Row> rows, const SetRows& set);
  // The same, and appends each step of it.
  ReadingSet read(std::span<const Row> rows, const SetRows& set, std::vector<ReadingStep>& steps);
  // Its flow, what was struck out and what is amiss with it, and nothing else: all that a set tells of other samples.
  ReadingSet read_flow(std::span<const Row> rows, const SetRows& set);

 private:
  // What is noted of a set beside its flow. What one notes nothing of costs nothing.
  struct FlowAlone;
  struct Figures;
  struct FiguresAndSteps;
  template <class Notes>
  ReadingSet read_and(Notes notes, std::span<const Row> rows, const SetRows& set);
  // Counts a reading that is struck out, or notes the problem of a rejected one.
  void leave_out(ReadingSet& result, Row reading) const;
  // The certificate in force on a day: its place, or -1. Notes a problem with it.
  std::int32_t certificate_on(ReadingSet& result, Day on) const;
  void begin_figures();
  void end_figures(ReadingSet& result) const;
  void note(ReadingSet& result, const ToCorrect& to, const CorrectedReading& corrected);
  // Notes that a reading which counts had no certificate, or one that was overdue.
  void note_due(ReadingSet& result, std::int32_t certificate, Day on) const;
  void note_range(ReadingSet& result, double indicated_l_min) const;
  void note_conditions(ReadingSet& result, const ToCorrect& to, const CorrectedReading& corrected);

  const Book& book_;
  const CalibratorKnowledge& knowledge_;
  CorrectionPractice practice_;
  LocalDays days_;
  std::vector<double> flows_;
  struct Sum {
    double sum = 0;
    std::size_t n = 0;
    void add(double figure) {
      if (is_missing(figure)) return;
      sum += figure;
      ++n;
    }
    double mean() const { return n == 0 ? missing : sum / static_cast<double>(n); }
  };
  Sum indicated_;
  Sum temperature_;
  Sum pressure_;
  Sum by_altitude_;  // 1 for each pressure by altitude, 0 for each that was read
};

}  // namespace driftwarden
