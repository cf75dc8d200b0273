// SPDX-License-Identifier: MIT
#include "assessment/bracket.hpp"

#include <algorithm>
#include <span>
#include <utility>

namespace driftwarden {
namespace {

constexpr std::size_t stages = 3;

std::size_t slot(Row pump, Stage stage) { return pump * stages + static_cast<std::size_t>(stage); }

}  // namespace

std::vector<std::vector<Row>> rows_by_pump(const ReadingTable& readings, std::size_t instruments) {
  std::vector<std::vector<Row>> by_pump(instruments);
  if (readings.pump.empty()) return by_pump;
  for (Row row = 0; row < readings.size(); ++row) {
    const bool names_a_sample = field(readings.sample, row, no_row) != no_row;
    if (!names_a_sample && readings.pump[row] != no_row) by_pump[readings.pump[row]].push_back(row);
  }
  return by_pump;
}

// Readings of a sample mostly stand behind each other, or in a run for each stage.
ReadingIndex::ReadingIndex(const Book& book) : samples_(&book.readings.sample) {
  const Column<Row>& samples = *samples_;
  if (samples.empty()) return;
  const auto for_each_run = [&samples](auto look) {
    Row above = no_row;
    for (Row row = 0; row < samples.size(); ++row) {
      const Row sample = samples[row];
      if (std::exchange(above, sample) != sample && sample != no_row) look(row, sample);
    }
  };
  begins_.reserve(book.samples.size() + 2);  // one more, while the begins are moved on
  begins_.set_size(book.samples.size() + 2);
  for_each_run([this](Row, Row sample) { ++begins_[sample + 2]; });
  for (std::size_t i = 1; i < begins_.size(); ++i) begins_[i] += begins_[i - 1];
  runs_.reserve(begins_[book.samples.size() + 1]);
  runs_.set_size(begins_[book.samples.size() + 1]);
  for_each_run([this](Row row, Row sample) { runs_[begins_[sample + 1]++] = row; });
}

void ReadingIndex::of_sample(Row sample, std::vector<Row>& rows) const {
  rows.clear();
  if (begins_.empty()) return;
  for (std::uint32_t run = begins_[sample]; run < begins_[sample + 1]; ++run) {
    for (Row row = runs_[run]; row < samples_->size() && (*samples_)[row] == sample; ++row) rows.push_back(row);
  }
}

PumpSets::PumpSets(const Book& book) {
  const std::vector<std::vector<Row>> by_pump = rows_by_pump(book.readings, book.instruments.size());
  SetSplitter splitter;
  std::vector<SetRows> sets;
  lost_.resize(by_pump.size(), no_problem);
  begin_.assign(by_pump.size() * stages + 1, 0);
  for (Row pump = 0; pump < by_pump.size(); ++pump) {
    std::vector<Row> rows = by_pump[pump];
    for (const Row row : rows) {
      if (book.readings.taken[row] == no_moment) lost_[pump] = book.readings.problem.at(row);
    }
    splitter.split(book.readings, rows, sets);
    for (SetRows set : sets) {
      is_void_.push_back(std::all_of(rows.begin() + set.begin, rows.begin() + set.begin + set.count, [&](Row row) {
        return book.readings.is_void(row) && !book.readings.is_rejected(row);
      }));
      set.begin += static_cast<std::uint32_t>(rows_.size());
      sets_.push_back(set);
      ++begin_[slot(pump, set.stage) + 1];
    }
    rows_.insert(rows_.end(), rows.begin(), rows.end());
  }
  for (std::size_t i = 1; i < begin_.size(); ++i) begin_[i] += begin_[i - 1];
  if (!rows_.empty()) note_set_anew(book);
}

// By the first pre reading that names a sample, whatever becomes of it: a set begins there.
void PumpSets::note_set_anew(const Book& book) {
  set_anew_.resize(book.instruments.size());
  for (Row row = 0; row < book.readings.size(); ++row) {
    const Row sample = field(book.readings.sample, row, no_row);
    if (sample == no_row || book.readings.stage[row] != Stage::pre || book.readings.taken[row] == no_moment) continue;
    if (const Row pump = book.samples.pump[sample]; pump != no_row) set_anew_[pump].push_back(book.readings.taken[row]);
  }
  for (std::vector<Moment>& moments : set_anew_) std::ranges::sort(moments);
}

bool PumpSets::was_set_anew(Row pump, Moment from, Moment to) const {
  if (set_anew_.empty()) return false;
  const auto next = std::ranges::lower_bound(set_anew_[pump], from);
  return next != set_anew_[pump].end() && *next < to;
}

std::span<const SetRows> PumpSets::of_pump(Row pump) const {
  return std::span(sets_.data() + begin_[slot(pump, Stage::pre)], sets_.data() + begin_[slot(pump + 1, Stage::pre)]);
}

void PumpSets::bracket(Row pump, Moment started, Moment stopped, Bracket& result) const {
  result = {nullptr, nullptr, std::move(result.field), std::move(result.struck_out), no_problem};
  result.field.clear();
  result.struck_out.clear();
  if (pump == no_row) return;
  result.problem = lost_[pump];
  const auto of = [&](Stage stage) {
    return std::span(sets_.data() + begin_[slot(pump, stage)], sets_.data() + begin_[slot(pump, stage) + 1]);
  };
  const auto starts_before = [](const SetRows& set, Moment moment) { return set.first < moment; };
  const auto is_void = [this](const SetRows& set) { return is_void_[static_cast<std::size_t>(&set - sets_.data())]; };
  // Whether a set of a stage begins from one moment on and before another.
  const auto is_between = [&](std::span<const SetRows> sets, Moment from, Moment to) {
    const auto set = std::lower_bound(sets.begin(), sets.end(), from, starts_before);
    return set != sets.end() && set->first < to;
  };
  const std::span<const SetRows> pres = of(Stage::pre);
  const std::span<const SetRows> posts = of(Stage::post);
  // Also one that is struck out: whoever read it may have set the pump anew.
  for (const SetRows& set : pres) {
    if (set.last <= started) result.pre = &set;
  }
  if (result.pre != nullptr && was_set_anew(pump, result.pre->last, started)) result.pre = nullptr;
  // One that is struck out gives way to the next, unless the pump was set again in between.
  for (auto set = std::lower_bound(posts.begin(), posts.end(), stopped, starts_before); set != posts.end(); ++set) {
    if (is_between(pres, stopped, set->first) || was_set_anew(pump, stopped, set->first)) break;
    if (result.post != nullptr) result.struck_out.push_back(result.post);
    result.post = &*set;
    if (!is_void(*set)) break;
  }
  const std::span<const SetRows> fields = of(Stage::field);
  for (auto set = std::lower_bound(fields.begin(), fields.end(), started, starts_before);
       set != fields.end() && set->first <= stopped; ++set) {
    result.field.push_back(&*set);
  }
}

SetsThatCount sets_that_count(std::span<const ReadingSet> sets, Moment started, Moment stopped) {
  SetsThatCount result;
  for (std::int32_t i = 0; i < static_cast<std::int32_t>(sets.size()); ++i) {
    const ReadingSet& set = sets[static_cast<std::size_t>(i)];
    if (set.rows.stage == Stage::field) continue;
    const bool is_pre = set.rows.stage == Stage::pre;
    std::int32_t& chosen = is_pre ? result.pre : result.post;
    const auto is_timely = [&](const ReadingSet& of) {
      return is_pre ? of.rows.last <= started : of.rows.first >= stopped;
    };
    // In order of time: the last timely one before the start, the first timely one after the stop.
    const auto is_better = [&](const ReadingSet& than) {
      if (set.is_void() && !than.is_void()) return is_timely(set) && !is_timely(than);
      if (!set.is_void() && than.is_void()) return is_timely(set) || !is_timely(than);
      return is_pre ? is_timely(set) || !is_timely(than) : is_timely(set) && !is_timely(than);
    };
    if (chosen < 0 || is_better(sets[static_cast<std::size_t>(chosen)])) chosen = i;
  }
  return result;
}

}  // namespace driftwarden
