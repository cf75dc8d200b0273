// SPDX-License-Identifier: MIT
#include "aerosol/size_distribution.hpp"

#include <cmath>
#include <numbers>

#include "quantity/elementary.hpp"

namespace driftwarden {

std::vector<SizeShare> size_shares(const LognormalAerosol& of) {
  if (!is_aerosol(of)) return {};
  constexpr int a_unit = 8;  // 1/h
  constexpr int end = 68;    // beyond are 2e-17 of the mass
  const double middle = std::numbers::inv_sqrtpi / std::numbers::sqrt2 / a_unit;
  const double log_gsd = elementary::log(of.gsd);
  std::vector<SizeShare> sizes;
  for (int i = -end; i <= end; ++i) {
    const double z = static_cast<double>(i) / a_unit;
    sizes.push_back({of.mmad_um * elementary::exp(z * log_gsd), middle * elementary::exp(-z * z / 2)});
  }
  return sizes;
}

}  // namespace driftwarden
