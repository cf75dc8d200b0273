// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "book/book.hpp"
#include "statistics/outliers.hpp"

namespace driftwarden {

// Fewer readings tell nothing of how a set scatters.
inline constexpr std::size_t fewest_in_a_set = 3;

// A set of readings of a sample, or of a pump where they name none, as they were written down, in order of time; void
// and rejected ones left out.
struct Replicates {
  Row sample = no_row;
  Row pump = no_row;  // the sample's, or their own
  Stage stage = Stage::pre;
  Row calibrator = no_row;
  Moment first = no_moment;
  Moment last = no_moment;
  std::vector<Row> rows;
  std::vector<double> indicated_l_min;

  bool are_all_equal() const;
};

// Where a reading was written.
Place place_of(const Book& book, Row reading);

// The sample or pump that a set is of.
std::string_view owner_name(const Book& book, const Replicates& set);

// What had come by the end of a day, in the book's zone; all, where none is given. What has no time had come. The book
// has to outlive it.
class ComeBy {
 public:
  ComeBy(const Book& book, std::optional<Day> last) : book_(book), last_(last) {}
  bool has(Moment moment) const;
  bool has_reading(Row reading) const { return has(book_.readings.taken[reading]); }

 private:
  const Book& book_;
  std::optional<Day> last_;
};

// All sets of a book's samples, sample after sample, then those of its pumps, each in order of stage and time.
std::vector<Replicates> replicates_of(const Book& book, const ComeBy& come);

// They stand first.
std::span<const Replicates> those_of_samples(const std::vector<Replicates>& all);

// How often chance may raise each kind of doubt in an honest book. They are about people.
inline constexpr double false_doubts_a_book = 0.01;

// As remarks say it: "8500" or "a million or more", and "once in 120 honest books", of what comes so often in a book.
std::string one_in(double chance);
std::string how_often_in_books(double times_a_book);

// The smallest difference among readings that is more than rounding of a double; 0 if there is none.
double smallest_step(std::vector<double> readings);

// How finely one calibrator shows, and how many sets it has.
struct Scatter {
  double step = 0;         // the stated resolution; else the smallest difference within a set, 0 if there is none
  std::size_t sets = 0;    // of three or more readings
  double equal_pairs = 1;  // how often two readings of one set are the same, ratio
};
using ScatterMap = std::map<Row, Scatter>;
ScatterMap scatter_by_calibrator(const Book& book, const std::vector<Replicates>& all);

// How rare by chance a set has to be that is told: as said, and rarer than one in all the sets there are, for in a
// large book even rare sets turn up.
double rarest_told(double rarest, std::size_t sets);

// The reading that lies far from the others of its set, if one does: Dixon's ratio for 3 to 6 readings, Grubbs' test
// from 7 on, at 1 % for either end. The gap is taken one display step shorter than it reads, so that rounding alone
// makes no outlier. A step of 0 is not known: the smallest difference among the readings takes its place.
std::optional<OutlierCheck> far_out(std::span<const double> readings, double step);

}  // namespace driftwarden
