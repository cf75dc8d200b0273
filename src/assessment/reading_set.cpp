// SPDX-License-Identifier: MIT
#include "assessment/reading_set.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace driftwarden {
namespace {

// Whether a reading goes on with a set that ended with another reading. One that names its set belongs to that set
// whatever the time; a rejected one whose calibrator is lost belongs to the set in time.
bool belongs(const ReadingTable& readings, Row reading, const SetRows& set, Row of_set) {
  const Row calibrator = readings.calibrator[reading];
  if (calibrator != set.calibrator && calibrator != no_row && set.calibrator != no_row) return false;
  const TextId name = field(readings.set, reading, TextId{0});
  if (name != field(readings.set, of_set, TextId{0})) return false;
  return name != 0 || readings.taken[reading] - set.last <= longest_gap_in_a_set_s;
}

FollowsConditions mean_of(const FollowsConditions& sum, std::size_t n) {
  if (n == 0) return sum;
  const auto readings = static_cast<double>(n);
  return {sum.per_k / readings, sum.per_kpa_read / readings, sum.per_kpa_by_altitude / readings};
}

}  // namespace

BeyondRange beyond_range(const Instrument& calibrator, double indicated_l_min) {
  if (!calibrator.low_l_min && !calibrator.high_l_min) return {};
  const std::optional<double>& low = calibrator.low_l_min;
  const std::optional<double>& high = calibrator.high_l_min;
  if (low && indicated_l_min < *low) return {(*low - indicated_l_min) / *low, *low - indicated_l_min};
  if (high && indicated_l_min > *high) return {(indicated_l_min - *high) / *high, indicated_l_min - *high};
  return {0, 0};
}

void SetSplitter::split(const ReadingTable& readings, std::vector<Row>& rows, std::vector<SetRows>& sets) {
  sets.clear();
  if (!split_in_order(readings, rows, sets)) split_in_any_order(readings, rows, sets);
}

// Readings mostly stand in the order of stage and time, each set behind the other. False: they don't.
bool SetSplitter::split_in_order(const ReadingTable& readings, const std::vector<Row>& rows,
                                 std::vector<SetRows>& sets) {
  SetRows set;
  for (std::uint32_t i = 0; i < rows.size(); ++i) {
    const Row row = rows[i];
    const Moment taken = readings.taken[row];
    const Stage stage = readings.stage[row];
    const bool is_further = set.count > 0 && stage == set.stage;
    // A second set of the stage may be one that is taken up again.
    const bool is_in_order = is_further ? taken >= set.last && belongs(readings, row, set, rows[set.begin])
                                        : set.count == 0 || stage > set.stage;
    if (taken == no_moment || !is_in_order) return sets.clear(), false;
    if (is_further) {
      ++set.count;
      set.last = taken;
      if (set.calibrator == no_row) set.calibrator = readings.calibrator[row];
    } else {
      if (set.count > 0) sets.push_back(set);
      set = {stage, readings.calibrator[row], i, 1, taken, taken};
    }
  }
  if (set.count > 0) sets.push_back(set);
  return true;
}

void SetSplitter::split_in_any_order(const ReadingTable& readings, std::vector<Row>& rows, std::vector<SetRows>& sets) {
  keys_.clear();
  for (const Row row : rows) keys_.push_back({readings.stage[row], readings.taken[row], row, 0});
  const auto in_time = [](const Key& a, const Key& b) {
    // Readings without a time go last.
    return std::tuple(a.taken == no_moment, a.stage, a.taken, a.row) <
           std::tuple(b.taken == no_moment, b.stage, b.taken, b.row);
  };
  if (!std::is_sorted(keys_.begin(), keys_.end(), in_time)) std::sort(keys_.begin(), keys_.end(), in_time);
  append_sets(readings, sets);
  // Sets of two calibrators may be interleaved in time: bring each set's readings together.
  const auto by_set = [](const Key& a, const Key& b) { return a.set < b.set; };
  if (!std::is_sorted(keys_.begin(), keys_.end(), by_set)) std::stable_sort(keys_.begin(), keys_.end(), by_set);
  for (std::size_t i = 0; i < keys_.size(); ++i) rows[i] = keys_[i].row;
  std::uint32_t begin = 0;
  for (SetRows& set : sets) {
    set.begin = begin;
    begin += set.count;
  }
}

// The newest of the sets so far that a reading goes on with, or none. Readings come in order of time, so an unnamed set
// that has ended for one of them has ended for all: it isn't looked at again, or many sets would cost their square.
std::optional<std::uint32_t> SetSplitter::set_of(const ReadingTable& readings, const Key& key,
                                                 const std::vector<SetRows>& sets) {
  const TextId name = field(readings.set, key.row, TextId{0});
  std::vector<std::uint32_t>& candidates = name == 0 ? unnamed_ : named_[name];
  if (name == 0) {
    std::erase_if(candidates, [&](std::uint32_t s) { return key.taken - sets[s].last > longest_gap_in_a_set_s; });
  }
  for (auto s = candidates.rbegin(); s != candidates.rend(); ++s) {
    if (belongs(readings, key.row, sets[*s], sets[*s].begin)) return *s;
  }
  candidates.push_back(static_cast<std::uint32_t>(sets.size()));  // the set that this reading begins
  return std::nullopt;
}

void SetSplitter::append_sets(const ReadingTable& readings, std::vector<SetRows>& sets) {
  for (Key& key : keys_) {
    if (key.taken == no_moment) {
      key.set = static_cast<std::uint32_t>(-1);
      continue;
    }
    if (sets.empty() || sets.back().stage != key.stage) {
      unnamed_.clear();
      named_.clear();
    }
    if (const std::optional<std::uint32_t> known = set_of(readings, key, sets)) {
      SetRows& set = sets[*known];
      ++set.count;
      set.last = key.taken;
      if (set.calibrator == no_row) set.calibrator = readings.calibrator[key.row];
      key.set = *known;
    } else {
      // Until the sets are laid out, `begin` holds a reading of the set.
      key.set = static_cast<std::uint32_t>(sets.size());
      sets.push_back({key.stage, readings.calibrator[key.row], key.row, 1, key.taken, key.taken});
    }
  }
}

struct SetReader::FlowAlone {
  static constexpr bool are_figures = false;
  void keep(Row, const ToCorrect&, const CorrectedReading&) const {}
};

struct SetReader::Figures {
  static constexpr bool are_figures = true;
  void keep(Row, const ToCorrect&, const CorrectedReading&) const {}
};

struct SetReader::FiguresAndSteps {
  static constexpr bool are_figures = true;
  std::vector<ReadingStep>& steps;

  void keep(Row row, const ToCorrect& to, const CorrectedReading& corrected) const {
    steps.push_back({row, to.certificate, to.inputs, corrected});
  }
};

ReadingSet SetReader::read(std::span<const Row> rows, const SetRows& set) { return read_and(Figures{}, rows, set); }

ReadingSet SetReader::read(std::span<const Row> rows, const SetRows& set, std::vector<ReadingStep>& steps) {
  return read_and(FiguresAndSteps{steps}, rows, set);
}

ReadingSet SetReader::read_flow(std::span<const Row> rows, const SetRows& set) {
  return read_and(FlowAlone{}, rows, set);
}

[[gnu::always_inline]] inline void SetReader::note_range(ReadingSet& result, double indicated_l_min) const {
  const BeyondRange beyond = beyond_range(book_.instruments[result.rows.calibrator], indicated_l_min);
  if (is_missing(beyond.ratio)) return;
  result.beyond_range.ratio = std::fmax(beyond.ratio, result.beyond_range.ratio);
  result.beyond_range.l_min = std::fmax(beyond.l_min, result.beyond_range.l_min);
}

[[gnu::always_inline]] inline void SetReader::note_conditions(ReadingSet& result, const ToCorrect& to,
                                                              const CorrectedReading& corrected) {
  const bool is_by_altitude = to.has_altitude_pressure;
  temperature_.add(to.inputs.temperature_k);
  pressure_.add(to.inputs.pressure_kpa);
  by_altitude_.add(is_by_altitude ? 1 : 0);
  result.has_altitude_pressure |= is_by_altitude;
  result.follows.per_k += corrected.slopes.per_k * corrected.actual_l_min;
  (is_by_altitude ? result.follows.per_kpa_by_altitude : result.follows.per_kpa_read) +=
      corrected.slopes.per_kpa * corrected.actual_l_min;
  if (result.left_out == Correction::none) result.left_out = corrected.left_out;
}

[[gnu::always_inline]] inline void SetReader::note(ReadingSet& result, const ToCorrect& to,
                                                   const CorrectedReading& corrected) {
  indicated_.add(corrected.indicated_l_min);
  result.is_outside_certificate |= corrected.is_outside_certificate;
  if (result.lack == CorrectedReading::Lack::nothing) result.lack = corrected.lack;
  note_range(result, corrected.indicated_l_min);
  note_conditions(result, to, corrected);
}

template <class Notes>
ReadingSet SetReader::read_and(Notes notes, std::span<const Row> rows, const SetRows& set) {
  const ReadingTable& readings = book_.readings;
  ReadingSet result;
  result.rows = set;
  flows_.clear();
  if constexpr (Notes::are_figures) begin_figures();
  const Day first_day = days_.day_of(set.first);
  const Day last_day = days_.day_of(set.last);
  const bool is_of_one_day = first_day == last_day;
  if (set.calibrator != no_row) result.certificate = certificate_on(result, last_day);
  Day leaned_on = no_day;
  ToCorrect to;
  for (std::size_t done = 0; done < rows.size();) {
    std::span<const Row> alike = rows.subspan(done);
    const Row first = alike.front();
    if (readings.flags[first] != 0) {
      leave_out(result, first);
      ++done;
      continue;
    }
    alike = alike.first(is_of_one_day ? readings.count_alike(alike) : 1);
    const Day day = is_of_one_day ? last_day : days_.day_of(readings.taken[first]);
    if (day != leaned_on) {
      const std::int32_t certificate = day == last_day ? result.certificate : certificate_on(result, day);
      note_due(result, certificate, day);
      if (certificate != result.certificate) result.earlier_certificate = certificate;
      leaned_on = day;
      to = knowledge_.in_common(set.calibrator, certificate, practice_);
    }
    knowledge_.put_conditions(first, to);
    for (const Row row : alike) {
      const CorrectedReading corrected = correct_reading(readings.indicated_l_min[row], to.curve, to.factor);
      notes.keep(row, to, corrected);
      flows_.push_back(corrected.actual_l_min);
      if constexpr (Notes::are_figures) note(result, to, corrected);
    }
    done += alike.size();
  }
  result.flow = mean_and_spread(flows_);
  if (result.problem != no_problem) result.flow = {result.flow.n};  // a mean without what can't be understood is none
  if constexpr (Notes::are_figures) end_figures(result);
  return result;
}

void SetReader::leave_out(ReadingSet& result, Row reading) const {
  if (!book_.readings.is_rejected(reading)) {
    ++result.voided;
  } else if (result.problem == no_problem) {
    result.problem = book_.readings.problem.at(reading);
  }
}

void SetReader::begin_figures() {
  indicated_ = {};
  temperature_ = {};
  pressure_ = {};
  by_altitude_ = {};
}

void SetReader::end_figures(ReadingSet& result) const {
  result.indicated_l_min = indicated_.mean();
  result.temperature_k = temperature_.mean();
  result.pressure_kpa = pressure_.mean();
  if (by_altitude_.n > 0) result.altitude_share = by_altitude_.mean();
  result.follows = mean_of(result.follows, result.flow.n);
}

std::int32_t SetReader::certificate_on(ReadingSet& result, Day on) const {
  const std::int32_t certificate = knowledge_.certificate(result.rows.calibrator, on);
  if (result.problem == no_problem) result.problem = knowledge_.problem(result.rows.calibrator, certificate);
  return certificate;
}

void SetReader::note_due(ReadingSet& result, std::int32_t certificate, Day on) const {
  result.lacks_certificate |= certificate < 0;
  if (certificate < 0) return;
  const Day due = knowledge_.due(certificate);
  if (due != no_day) result.overdue_min = std::fmax(minutes_a_day * static_cast<double>(on - due), result.overdue_min);
}

}  // namespace driftwarden
