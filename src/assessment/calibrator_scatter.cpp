// SPDX-License-Identifier: MIT
#include "assessment/calibrator_scatter.hpp"

#include <algorithm>
#include <cmath>
#include <mutex>
#include <utility>
#include <vector>

#include "assessment/sample_assessment.hpp"

namespace driftwarden {

// What one set tells: when it ended, its degrees of freedom, and (n − 1) (s / q)².
struct SetScatter {
  Moment last = no_moment;
  double dof = 0;
  double squares = 0;
};

namespace {

// What a reading is of: its sample, else its pump.
std::pair<Row, Row> subject_of(const ReadingTable& readings, Row row) {
  const Row sample = field(readings.sample, row, no_row);
  return {sample, sample == no_row ? field(readings.pump, row, no_row) : no_row};
}

// Those that name no sample, those of one pump together.
std::vector<Row> readings_of_pumps(const ReadingTable& readings) {
  std::vector<Row> rows;
  for (Row row = 0; row < readings.size(); ++row) {
    if (field(readings.sample, row, no_row) == no_row) rows.push_back(row);
  }
  std::ranges::stable_sort(rows, {}, [&](Row row) { return subject_of(readings, row); });
  return rows;
}

// Each calibrator's readings that can be understood, those of one sample or pump together.
std::vector<std::vector<Row>> readings_by_calibrator(const AssessmentBasis& basis) {
  const ReadingTable& readings = basis.book.readings;
  std::vector<std::vector<Row>> by_calibrator(basis.book.instruments.size());
  const auto add = [&](const std::vector<Row>& rows) {
    for (const Row row : rows) {
      const bool is_usable = (readings.flags[row] & reading_is_rejected) == 0;
      if (is_usable) by_calibrator[readings.calibrator[row]].push_back(row);
    }
  };
  std::vector<Row> of_sample;
  for (Row sample = 0; sample < basis.book.samples.size(); ++sample) {
    basis.readings.of_sample(sample, of_sample);
    add(of_sample);
  }
  add(readings_of_pumps(readings));
  return by_calibrator;
}

void add_sets(const AssessmentBasis& basis, std::vector<Row>& rows, std::vector<SetScatter>& scatters) {
  SetSplitter splitter;
  SetReader reader(basis.book, basis.calibrators, basis.practice.correction);
  std::vector<SetRows> sets;
  splitter.split(basis.book.readings, rows, sets);
  for (const SetRows& set : sets) {
    if (set.count < 2) continue;
    const MeanAndSpread flow = reader.read_flow(std::span<const Row>(rows).subspan(set.begin, set.count), set).flow;
    if (is_missing(flow.s) || !(flow.mean > 0)) continue;
    const auto dof = static_cast<double>(flow.n - 1);
    const double relative = flow.s / flow.mean;
    scatters.push_back({set.last, dof, dof * relative * relative});
  }
}

// `rows`: the calibrator's, those of one sample or pump together.
std::vector<SetScatter> scatters_of(const AssessmentBasis& basis, const std::vector<Row>& rows) {
  const ReadingTable& readings = basis.book.readings;
  std::vector<SetScatter> scatters;
  std::vector<Row> of_subject;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    of_subject.push_back(rows[i]);
    if (i + 1 < rows.size() && subject_of(readings, rows[i]) == subject_of(readings, rows[i + 1])) continue;
    add_sets(basis, of_subject, scatters);
    of_subject.clear();
  }
  std::ranges::stable_sort(scatters, {}, &SetScatter::last);
  return scatters;
}

}  // namespace

struct CalibratorScatter::OfCalibrator {
  std::once_flag once;
  std::vector<SetScatter> up_to;  // in order of time, each with all before it
};

struct CalibratorScatter::Readings {
  std::once_flag once;
  std::vector<std::vector<Row>> by_calibrator;
};

CalibratorScatter::CalibratorScatter(const Book& book)
    : readings_(std::make_unique<Readings>()), of_(std::make_unique<OfCalibrator[]>(book.instruments.size())) {
  for (const HandedScatter& handed : book.handed_scatter) {
    handed_[{handed.calibrator, handed.before}] = {handed.s, handed.dof};
  }
}
CalibratorScatter::~CalibratorScatter() = default;
CalibratorScatter::CalibratorScatter(CalibratorScatter&&) noexcept = default;

PooledSpread CalibratorScatter::of_single(const AssessmentBasis& basis, const SetRows& set) const {
  if (basis.book.files.pooled.empty()) return before(basis, set.calibrator, set.first);
  const auto handed = handed_.find({set.calibrator, set.first});
  return handed == handed_.end() ? PooledSpread{} : handed->second;
}

std::vector<HandedScatter> scatter_leaned_on(const AssessmentBasis& basis, const SampleAssessment& figures) {
  std::vector<HandedScatter> leaned_on;
  for (const ReadingSet& set : figures.sets) {
    if (set.flow.n != 1) continue;
    const PooledSpread pooled = basis.scatter.of_single(basis, set.rows);
    if (pooled.dof > 0) leaned_on.push_back({set.rows.calibrator, set.rows.first, pooled.s, pooled.dof});
  }
  return leaned_on;
}

PooledSpread CalibratorScatter::before(const AssessmentBasis& basis, Row calibrator, Moment moment) const {
  OfCalibrator& of = of_[calibrator];
  std::call_once(readings_->once, [&] { readings_->by_calibrator = readings_by_calibrator(basis); });
  std::call_once(of.once, [&] {
    of.up_to = scatters_of(basis, std::exchange(readings_->by_calibrator[calibrator], {}));
    for (std::size_t i = 1; i < of.up_to.size(); ++i) {
      of.up_to[i].dof += of.up_to[i - 1].dof;
      of.up_to[i].squares += of.up_to[i - 1].squares;
    }
  });
  const auto later = std::lower_bound(of.up_to.begin(), of.up_to.end(), moment,
                                      [](const SetScatter& set, Moment at) { return set.last < at; });
  if (later == of.up_to.begin()) return {};
  const SetScatter& all = *(later - 1);
  return {std::sqrt(all.squares / all.dof), all.dof};
}

}  // namespace driftwarden
