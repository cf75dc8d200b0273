// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "book/book.hpp"
#include "history/series.hpp"
#include "plot/theme.hpp"

namespace driftwarden {

// Which calibrator has which mark, in a picture or on a page. The first of a theme's marks are those of the
// calibrators, in the book's order; of more than there are marks those with the fewest points share the last one.
class CalibratorMarks {
 public:
  CalibratorMarks() = default;
  explicit CalibratorMarks(const std::vector<const Series*>& shown);

  // How a point is marked: by its calibrator where it is of a pump, else by its kind.
  MarkStyle mark_of(const SeriesPoint& point, const Theme& theme) const;
  // The mark around it, of the calibrator that read after sampling; shape 0: none, it is the same.
  MarkStyle mark_around(const SeriesPoint& point, const Theme& theme) const;

  struct Entry {
    std::size_t mark = 0;  // of a theme's
    std::vector<Row> calibrators;
  };
  const std::vector<Entry>& entries() const { return entries_; }
  bool has_two_on_a_point() const { return has_two_on_a_point_; }
  bool has_bench() const { return has_bench_; }

 private:
  std::size_t place_of(Row calibrator) const;

  std::vector<Entry> entries_;
  bool has_two_on_a_point_ = false;
  bool has_bench_ = false;
};

// "VOL-1", or several: "VOL-6, VOL-7"
std::string names_of(const CalibratorMarks::Entry& entry, const Book& book);

// What stands beside the names in a key: of marks in marks, and of open ones.
std::vector<std::string> words_of(const CalibratorMarks& marks);

// The key as a line of text: "● VOL-1, ▲ MASS-1; an open mark around one: read with that calibrator after sampling".
// "" where no point was read with a calibrator.
std::string key_text(const CalibratorMarks& marks, const Book& book, const Theme& theme);

}  // namespace driftwarden
