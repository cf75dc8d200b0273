// SPDX-License-Identifier: MIT
#include "record/reading.hpp"

#include <algorithm>

namespace driftwarden {

std::string_view to_text(Stage stage) { return stage_words[static_cast<std::size_t>(stage)]; }

bool ReadingTable::are_scattered() const {
  constexpr Row far = 4096;  // nearer ones the processor has in its cache or foresees
  std::size_t count = 0;
  for (Row row = 1; row < sample.size(); ++row) {
    count += sample[row] - sample[row - 1] + far > 2 * far ? 1U : 0U;
  }
  return count > size() / 8;
}

void ReadingTable::sort_by_sample(std::size_t samples, std::size_t threads) {
  RowOrder order = order_by(sample, samples, threads);
  const auto reorder = [&order](auto&... column) { ((column = order.of(column)), ...); };
  reorder(stage, flags, sample, pump, calibrator, replicate, set, sampler, by, note);
  taken.reorder(order);
  for (DecimalColumn* column : {&indicated_l_min, &temperature_k, &pressure_kpa, &humidity}) {
    column->reorder(order);
  }
  std::map<Row, ProblemNumber> of_rows;
  for (const auto& [row, number] : problem) of_rows.emplace(order.place_of(row), number);
  problem = std::move(of_rows);
  place.reorder(std::move(order.rows));
}

}  // namespace driftwarden
