// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <bit>
#include <cstdint>
#include <span>

#include "quantity/units.hpp"
#include "record/moment_column.hpp"

namespace driftwarden {

// How a column's numbers are written: all in one unit, with at most so many decimals, near one another.
struct DecimalForm {
  Unit unit;
  int decimals = 0;         // 0 to 9
  std::int64_t lowest = 0;  // in units of the last decimal; the highest is 65533 more
};

// A column of figures in two bytes each where they are decimals near one another, as readings of one kind are: the
// number as written, from which the figure comes by the same steps as when it was read, to the last bit. The few that
// don't fit are kept apart. Without a form, figures are kept as doubles.
class DecimalColumn {
 public:
  // Before room is reserved. What is put by its digits alone lies between two figures, in the inside unit.
  void set_form(const DecimalForm& form, double least, double most);
  void reserve(std::size_t rows) { is_narrow_ ? codes_.reserve(rows) : figures_.reserve(rows); }
  void set_size(std::size_t rows) { is_narrow_ ? codes_.set_size(rows) : figures_.set_size(rows); }
  std::size_t size() const { return is_narrow_ ? codes_.size() : figures_.size(); }
  std::size_t capacity() const { return is_narrow_ ? codes_.capacity() : figures_.capacity(); }
  bool empty() const { return size() == 0; }
  // So many rows didn't fit the form that doubles would be better.
  bool is_misfit() const { return is_narrow_ && wide_.size() > most_apart(); }

  // A figure in the inside unit, and the number as it was written. NaN: missing.
  void put(Row row, double inside, double written) {
    if (!is_narrow_) {
      figures_[row] = inside;
      return;
    }
    const std::int64_t digits = nearest(written * scale());
    const auto code = static_cast<std::uint64_t>(digits - form_.lowest);
    if (code < kept_apart && static_cast<double>(digits) / scale() == written) {
      codes_[row] = static_cast<std::uint16_t>(code);
    } else {
      put_apart(row, inside);
    }
  }
  // The same of digits / 10^decimals. False, and to be put otherwise, where the form doesn't hold it, or it lies beyond
  // the two figures that the form was set with.
  bool put_digits(Row row, std::uint64_t digits, std::size_t decimals) {
    if (decimals > most_decimals_) return false;
    const std::uint64_t code =
        digits * whole_power_of_ten[most_decimals_ - decimals] - static_cast<std::uint64_t>(form_.lowest);
    if (code - first_between_ >= between_) return false;
    codes_[row] = static_cast<std::uint16_t>(code);
    return true;
  }
  // Writes the figure of another row again. False, and to be put anew, where that one is kept apart.
  bool put_again(Row row, Row as) {
    if (!is_narrow_) return figures_[row] = figures_[as], true;
    codes_[row] = codes_[as];
    return codes_[as] != kept_apart;
  }
  void reorder(const RowOrder& order) {
    codes_ = order.of(codes_);
    figures_ = order.of(figures_);
    wide_.reorder(order);
  }
  // How many of these rows, from the first on, surely hold one figure, or none of them any. Figures that are kept apart
  // are not looked up.
  std::size_t count_alike(std::span<const Row> rows) const {
    if (!is_narrow_) return count_alike(rows, [this](Row row) { return std::bit_cast<std::uint64_t>(figures_[row]); });
    if (codes_[rows.front()] == kept_apart) return 1;
    return count_alike(rows, [this](Row row) { return codes_[row]; });
  }
  double operator[](Row row) const {
    if (!is_narrow_) return figures_[row];
    const std::uint16_t code = codes_[row];
    if (code >= kept_apart) return code == none ? missing_figure : wide_.at(row);
    return figure_of(code);
  }

 private:
  static constexpr std::uint16_t none = UINT16_MAX;
  static constexpr std::uint16_t kept_apart = none - 1;
  static constexpr double missing_figure = std::numeric_limits<double>::quiet_NaN();
  static constexpr std::array<double, 10> powers_of_ten = {1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9};

  template <class BitsOf>
  static std::size_t count_alike(std::span<const Row> rows, BitsOf bits_of) {
    const auto bits = bits_of(rows.front());
    std::size_t count = 1;
    while (count < rows.size() && bits_of(rows[count]) == bits) ++count;
    return count;
  }
  static constexpr std::array<std::uint64_t, 10> whole_power_of_ten = {
      1, 10, 100, 1000, 10000, 100000, 1000000, 10000000, 100000000, 1000000000};

  double figure_of(std::uint64_t code) const {
    return form_.unit.to_inside(static_cast<double>(form_.lowest + static_cast<std::int64_t>(code)) / scale());
  }
  double scale() const { return powers_of_ten[static_cast<std::size_t>(form_.decimals)]; }
  // Numbers too large for it, and NaN, give a code that fits nothing.
  static std::int64_t nearest(double number) {
    if (!(number > -1e15 && number < 1e15)) return INT64_MIN / 2;
    return static_cast<std::int64_t>(number + (number < 0 ? -0.5 : 0.5));
  }
  // Room is reserved for several times the rows that come.
  std::size_t most_apart() const { return 1000 + codes_.capacity() / 512; }
  void put_apart(Row row, double inside);

  bool is_narrow_ = false;
  DecimalForm form_;
  std::size_t most_decimals_ = 0;
  std::uint64_t first_between_ = 0;  // the codes that may be put by their digits: so many from this one on
  std::uint64_t between_ = 0;
  Column<std::uint16_t> codes_;
  Column<double> figures_;
  WideValues<double> wide_;
};

}  // namespace driftwarden
