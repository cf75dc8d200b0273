// SPDX-License-Identifier: MIT
#include "doubt/read_twice.hpp"

#include <algorithm>
#include <set>
#include <tuple>
#include <utility>

#include "assessment/reading_set.hpp"
#include "quantity/rounding.hpp"

namespace driftwarden {
namespace {

// What a reading was taken for and with: the set but for the time.
auto purpose_of(const ReadingTable& readings, Row row) {
  const Row sample = field(readings.sample, row, no_row);
  const Row pump = sample == no_row ? field(readings.pump, row, no_row) : no_row;
  return std::tuple(sample, pump, readings.stage[row], readings.calibrator[row], field(readings.set, row, TextId{0}));
}

// Cells that nobody filled in are alike.
double cell_of(const DecimalColumn& column, Row row) {
  const double figure = field(column, row);
  return is_missing(figure) ? -1 : figure;
}

auto cells_of(const ReadingTable& readings, Row row) {
  return std::tuple(cell_of(readings.indicated_l_min, row), cell_of(readings.temperature_k, row),
                    cell_of(readings.pressure_kpa, row), cell_of(readings.humidity, row),
                    field(readings.replicate, row, TextId{0}), field(readings.sampler, row, TextId{0}));
}

struct Written {
  decltype(purpose_of(ReadingTable(), 0)) purpose;
  Moment taken = no_moment;
  Row row = no_row;
  std::uint32_t run = 0;  // a number that neighbours in a file share, where they are of one minute
};

std::vector<Written> all_written(const Book& book) {
  std::vector<Written> all;
  all.reserve(book.readings.size());
  std::uint32_t file = 0;
  for (Row row = 0; row < book.readings.size(); ++row) {
    Written written{purpose_of(book.readings, row), book.readings.taken[row], row, 0};
    const std::uint32_t own_file = book.readings.place[row].file;
    if (!all.empty()) {
      const Written& last = all.back();
      const bool goes_on = own_file == file && last.taken == written.taken;
      written.run = goes_on ? last.run : last.run + 1;
    }
    file = own_file;
    all.push_back(written);
  }
  return all;
}

// No calibrator shows two readings within a second.
bool names_a_second(Moment taken) { return taken % 60 != 0; }

bool are_of_one_set(const ReadingTable& readings, Row earlier, Row later) {
  if (purpose_of(readings, earlier) != purpose_of(readings, later)) return false;
  const bool is_named = field(readings.set, earlier, TextId{0}) != 0;
  return is_named || readings.taken[later] - readings.taken[earlier] <= longest_gap_in_a_set_s;
}

Diagnostic told_of_set(const Book& book, const ReadTwice& first, std::size_t count) {
  const ReadingTable& readings = book.readings;
  const Row sample = field(readings.sample, first.copy, no_row);
  const std::string of =
      sample != no_row ? std::string(book.samples.name[sample]) : book.instruments[readings.pump[first.copy]].name;
  return remark("doubt/read-twice", place_of(book, first.copy),
                counted(count, "reading", "readings") + " of the " + std::string(to_text(readings.stage[first.copy])) +
                    " set of " + of + (count == 1 ? " stands" : " stand") + " twice, alike in every cell, " +
                    (count == 1 ? "here and in " : "the first here and in ") + to_text(place_of(book, first.original)) +
                    "; written down twice, a reading counts twice",
                "ask whether it was read again; if not, leave the copy out, or strike it out with a note");
}

}  // namespace

std::vector<ReadTwice> read_twice(const Book& book, const ComeBy& come) {
  const ReadingTable& readings = book.readings;
  std::vector<Written> all = all_written(book);
  std::erase_if(
      all, [&](const Written& written) { return readings.flags[written.row] != 0 || !come.has_reading(written.row); });
  const auto cells_in_order = [&](const Written& a, const Written& b) {
    return std::tuple(cells_of(readings, a.row), a.row) < std::tuple(cells_of(readings, b.row), b.row);
  };
  const auto in_order = [&](const Written& a, const Written& b) {
    const auto of_a = std::tie(a.purpose, a.taken);
    const auto of_b = std::tie(b.purpose, b.taken);
    return of_a < of_b || (of_a == of_b && cells_in_order(a, b));
  };
  if (!std::ranges::is_sorted(all, in_order)) std::ranges::sort(all, in_order);  // mostly they stand so
  std::vector<ReadTwice> copies;
  const Written* first = nullptr;
  for (const Written& written : all) {
    const bool is_alike = first != nullptr && first->purpose == written.purpose && first->taken == written.taken &&
                          cells_of(readings, first->row) == cells_of(readings, written.row);
    if (!is_alike) {
      first = &written;
    } else if (first->run != written.run || field(readings.replicate, written.row, TextId{0}) != 0 ||
               names_a_second(written.taken)) {
      copies.push_back({written.row, first->row});
    }
  }
  return copies;
}

void note_read_twice(const Book& book, const std::vector<ReadTwice>& copies, Diagnostics& doubts) {
  for (auto begin = copies.begin(); begin != copies.end();) {
    auto end = begin + 1;
    while (end != copies.end() && are_of_one_set(book.readings, (end - 1)->copy, end->copy)) ++end;
    doubts.push_back(told_of_set(book, *begin, static_cast<std::size_t>(end - begin)));
    begin = end;
  }
}

void leave_out_copies(const std::vector<ReadTwice>& copies, std::vector<Replicates>& all) {
  std::set<Row> rows;
  for (const ReadTwice& twice : copies) rows.insert(twice.copy);
  if (rows.empty()) return;
  for (Replicates& set : all) {
    const std::vector<Row> read = std::exchange(set.rows, {});
    const std::vector<double> indicated = std::exchange(set.indicated_l_min, {});
    for (std::size_t i = 0; i < read.size(); ++i) {
      if (rows.contains(read[i])) continue;
      set.rows.push_back(read[i]);
      set.indicated_l_min.push_back(indicated[i]);
    }
  }
}

}  // namespace driftwarden
