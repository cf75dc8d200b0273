// SPDX-License-Identifier: MIT
#include "record/decimal_column.hpp"

#include <algorithm>
#include <cmath>
#include <ranges>

namespace driftwarden {

void DecimalColumn::set_form(const DecimalForm& form, double least, double most) {
  form_ = form;
  is_narrow_ = true;
  most_decimals_ = static_cast<std::size_t>(form.decimals);
  const auto codes = std::views::iota(std::uint64_t{0}, std::uint64_t{kept_apart});
  const auto figure = [this](std::uint64_t code) { return figure_of(code); };
  const auto first = std::ranges::lower_bound(codes, least, {}, figure);
  const auto last = std::ranges::upper_bound(codes, most, {}, figure);
  first_between_ = static_cast<std::uint64_t>(first - codes.begin());
  between_ = static_cast<std::uint64_t>(last - first);
}

void DecimalColumn::put_apart(Row row, double inside) {
  if (std::isnan(inside)) {
    codes_[row] = none;
    return;
  }
  codes_[row] = kept_apart;
  wide_.put(row, inside, most_apart() + 1);
}

}  // namespace driftwarden
