// SPDX-License-Identifier: MIT
#include "record/decimal_column.hpp"

#include <cmath>

namespace driftwarden {

void DecimalColumn::put_apart(Row row, double inside) {
  if (std::isnan(inside)) {
    codes_[row] = none;
    return;
  }
  codes_[row] = kept_apart;
  wide_.put(row, inside, most_apart() + 1);
}

}  // namespace driftwarden
