// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>
#include <cstdint>
#include <limits>
#include <memory>
#include <string_view>
#include <vector>

#include "record/column.hpp"
#include "record/decimal_column.hpp"
#include "record/instrument.hpp"
#include "record/moment.hpp"
#include "record/row_places.hpp"
#include "record/text_pool.hpp"

namespace driftwarden {

// A cell without a figure, in columns of numbers.
inline constexpr double missing = std::numeric_limits<double>::quiet_NaN();
inline bool is_missing(double figure) { return std::isnan(figure); }

enum class SampleKind : std::uint8_t { sample, blank };
inline constexpr std::string_view sample_kind_words[] = {"sample", "blank"};
enum class YesNo : std::uint8_t { unsaid, no, yes };

std::string_view to_text(SampleKind kind);

// samples.csv in columns: one array a field, all of one length. Text is interned in the book's pool. A figure that was
// not given is `missing`; a column nobody wrote is empty and reads as missing.
struct SampleTable {
  Column<std::string_view> name;  // the text is the table's own, in `name_text`
  Column<SampleKind> kind;
  Column<TextId> batch;
  Column<Row> pump;  // row in the instruments, or no_row
  Column<TextId> sampler;
  Column<double> nominal_l_min;
  Column<TextId> method;
  Column<TextId> analysis;
  Column<TextId> medium;  // what was sampled on: cassette, filter or tube, by its number
  Column<Moment> started;
  Column<Moment> stopped;
  Column<double> paused_min;
  Column<double> warm_up_min;
  Column<double> vacuum_kpa;  // behind the sampler, below the air's pressure
  Column<double> leak_l_min;  // found by its leak test
  Column<double> interruptions;
  Column<double> pressure_drop_kpa;  // over the sampler with its medium
  Column<double> pulsation;          // of the flow about its mean, ratio
  Column<double> temperature_k;
  Column<double> pressure_kpa;
  Column<YesNo> fault;
  Column<TextId> by;  // whoever took it
  Column<TextId> note;
  RowPlaces place;
  std::size_t rows = 0;
  Column<ProblemNumber> problem;  // the first problem that touches the sample, or no_problem

  std::vector<Column<char>> name_text;

  std::size_t size() const { return rows; }
};

// A field of a column that may be empty because nobody wrote it.
template <class T>
T field(const Column<T>& column, Row row, T otherwise) {
  return column.empty() ? otherwise : column[row];
}
inline double field(const Column<double>& column, Row row) { return field(column, row, missing); }
inline double field(const DecimalColumn& column, Row row) { return column.empty() ? missing : column[row]; }

}  // namespace driftwarden
