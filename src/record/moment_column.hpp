// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <limits>
#include <map>
#include <memory>
#include <mutex>
#include <utility>

#include "record/column.hpp"
#include "record/instrument.hpp"
#include "record/moment.hpp"
#include "record/row_order.hpp"

namespace driftwarden {

// Values of a column that its narrow form can't hold, by row. Threads may put at once, different rows.
template <class T>
class WideValues {
 public:
  // Beyond so many, values are dropped.
  void put(Row row, T value, std::size_t most = SIZE_MAX) {
    const std::scoped_lock lock(*mutex_);
    if (by_row_.size() < most) by_row_[row] = value;
  }
  T at(Row row) const { return by_row_.at(row); }
  // Each goes to where its row is put.
  void reorder(const RowOrder& order) {
    std::map<Row, T> moved;
    for (const auto& [row, value] : by_row_) moved.emplace(order.place_of(row), value);
    by_row_ = std::move(moved);
  }
  std::size_t size() const { return by_row_.size(); }

 private:
  std::unique_ptr<std::mutex> mutex_ = std::make_unique<std::mutex>();
  std::map<Row, T> by_row_;
};

// A column of moments in four bytes each: seconds from 2000-01-01, which reach from 1932 to 2068; the few beyond are
// kept apart. Why: in a book of ten million readings most time goes into the memory they fill.
class MomentColumn {
 public:
  void reserve(std::size_t rows) { seconds_.reserve(rows); }
  void set_size(std::size_t rows) { seconds_.set_size(rows); }
  std::size_t size() const { return seconds_.size(); }
  std::size_t capacity() const { return seconds_.capacity(); }
  bool empty() const { return seconds_.empty(); }

  void put(Row row, Moment moment) {
    if (moment > origin + kept_apart && moment <= origin + std::numeric_limits<std::int32_t>::max()) {
      seconds_[row] = static_cast<std::int32_t>(moment - origin);
    } else if (moment == no_moment) {
      seconds_[row] = none;
    } else {
      seconds_[row] = kept_apart;
      wide_.put(row, moment);
    }
  }
  void reorder(const RowOrder& order) {
    seconds_ = order.of(seconds_);
    wide_.reorder(order);
  }
  Moment operator[](Row row) const {
    const std::int32_t seconds = seconds_[row];
    if (seconds > kept_apart) return origin + seconds;
    return seconds == none ? no_moment : wide_.at(row);
  }

 private:
  static constexpr Moment origin = 946684800;  // 2000-01-01T00:00:00Z
  static constexpr std::int32_t none = std::numeric_limits<std::int32_t>::min();
  static constexpr std::int32_t kept_apart = none + 1;

  Column<std::int32_t> seconds_;
  WideValues<Moment> wide_;
};

}  // namespace driftwarden
