// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <map>
#include <span>
#include <string_view>

#include "record/column.hpp"
#include "record/decimal_column.hpp"
#include "record/instrument.hpp"
#include "record/moment_column.hpp"
#include "record/row_places.hpp"
#include "record/sample.hpp"
#include "record/text_pool.hpp"

namespace driftwarden {

enum class Stage : std::uint8_t { pre, field, post };
inline constexpr std::string_view stage_words[] = {"pre", "field", "post"};

std::string_view to_text(Stage stage);

// What else there is to say of a reading, in bits.
enum ReadingFlag : std::uint8_t {
  reading_is_void = 1,      // marked void: kept on the page, out of the mean
  reading_is_rejected = 2,  // a cell could not be understood: what leans on it is not judged
};

// readings.csv in columns, in file order. A column nobody wrote is empty.
struct ReadingTable {
  MomentColumn taken;
  Column<Stage> stage;
  Column<std::uint8_t> flags;  // ReadingFlag
  Column<Row> sample;          // row in the samples, or no_row: then it belongs to the pump
  Column<Row> pump;            // row in the instruments, or no_row; empty where every reading names its sample
  Column<Row> calibrator;      // row in the instruments
  DecimalColumn indicated_l_min;
  DecimalColumn temperature_k;
  DecimalColumn pressure_kpa;
  DecimalColumn humidity;  // ratio
  Column<TextId> replicate;
  Column<TextId> set;
  Column<TextId> sampler;
  Column<TextId> by;
  Column<TextId> note;
  RowPlaces place;
  std::size_t rows = 0;
  std::map<Row, ProblemNumber> problem;  // of the rejected rows

  std::size_t size() const { return rows; }
  bool is_void(Row row) const { return (flags[row] & reading_is_void) != 0; }
  bool is_rejected(Row row) const { return (flags[row] & reading_is_rejected) != 0; }
  // Whether rows mostly name a sample far from that of the row before.
  bool are_scattered() const;
  // Brings the rows into the order of so many samples that they name; those that name none come last. Where each was
  // written is remembered.
  void sort_by_sample(std::size_t samples, std::size_t threads);
  // How many of these readings, from the first on, count and surely were taken under the same conditions; at least 1.
  std::size_t count_alike(std::span<const Row> listed) const {
    std::size_t count = 1;
    while (count < listed.size() && flags[listed[count]] == 0) ++count;
    for (const DecimalColumn* column : {&temperature_k, &pressure_kpa, &humidity}) {
      if (!column->empty()) count = column->count_alike(listed.first(count));
    }
    return count;
  }
};

}  // namespace driftwarden
