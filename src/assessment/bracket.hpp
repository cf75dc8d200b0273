// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <vector>

#include "assessment/reading_set.hpp"

namespace driftwarden {

// The rows of readings that name a pump and no sample, by pump, in file order.
std::vector<std::vector<Row>> rows_by_pump(const ReadingTable& readings, std::size_t instruments);

// Which readings belong to which sample or pump: rows of the book's readings, in file order.
class ReadingIndex {
 public:
  explicit ReadingIndex(const Book& book);

  // Puts the rows that name the sample in place of what `rows` held, in file order.
  void of_sample(Row sample, std::vector<Row>& rows) const;

 private:
  const Column<Row>* samples_;    // of the readings
  Column<std::uint32_t> begins_;  // by sample, one more at the end; empty where no reading names one
  Column<Row> runs_;              // first rows of runs of readings of one sample, by sample
};

// The sets taken on pumps without naming a sample, by pump and time.
class PumpSets {
 public:
  explicit PumpSets(const Book& book);

  // The bracket around a sample that ran on a pump from one moment to another: the last pre set at or before its start,
  // unless the pump was checked again as "pre" before its post; the first post set at or after its stop; the field sets
  // between. A pre set of a sample of its own is such a check, too: neither pre nor post is taken across it. Each
  // nullptr or empty where there is none. A post set that is struck out as a whole gives way to
  // the next one; a pre set does not, for the pump may have been set anew with it.
  struct Bracket {
    const SetRows* pre = nullptr;
    const SetRows* post = nullptr;
    std::vector<const SetRows*> field;
    std::vector<const SetRows*> struck_out;  // post sets that gave way
    ProblemNumber problem = no_problem;      // a reading on the pump whose time or stage is lost
  };
  void bracket(Row pump, Moment started, Moment stopped, Bracket& result) const;
  std::span<const Row> rows() const { return rows_; }
  std::span<const SetRows> of_pump(Row pump) const;  // all of them; they lie in rows()
  bool empty() const { return rows_.empty(); }

 private:
  void note_set_anew(const Book& book);
  // Whether a pre reading that names a sample was taken on the pump from one moment on and before another.
  bool was_set_anew(Row pump, Moment from, Moment to) const;

  std::vector<Row> rows_;
  std::vector<SetRows> sets_;                  // by pump, then stage, then time
  std::vector<bool> is_void_;                  // by set
  std::vector<std::uint32_t> begin_;           // three stages a pump, one more at the end
  std::vector<ProblemNumber> lost_;            // by pump
  std::vector<std::vector<Moment>> set_anew_;  // by pump: its pre readings that name a sample, in order
};

// Of all sets that are about a sample, its own and those of its pump, the two that count: places among them, -1 where
// there is none. The last pre set at or before the start (else the last), the first post set at or after the stop (else
// the first). A set whose readings are all struck out gives way to one that is not, but only on that same side of the
// sample.
struct SetsThatCount {
  std::int32_t pre = -1;
  std::int32_t post = -1;
};
SetsThatCount sets_that_count(std::span<const ReadingSet> sets, Moment started, Moment stopped);

}  // namespace driftwarden
