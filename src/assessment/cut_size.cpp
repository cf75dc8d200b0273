// SPDX-License-Identifier: MIT
#include "assessment/cut_size.hpp"

#include <cmath>

namespace driftwarden {
namespace {

bool is_an_exponent_alone(const CutLaw& law) {
  return std::isnan(law.nominal_um) && std::isnan(law.flows_l_min.lower) && law.mean_free_path_um == 0;
}

}  // namespace

double cut_shift(const CutLaw& law, double flow_l_min) {
  CutLaw relative = law;
  if (is_an_exponent_alone(law)) relative.nominal_um = 1;
  return cut_at_flow(relative, flow_l_min) / relative.nominal_um - 1;
}

CutLaw with_nominal(const CutLaw& law, double nominal_l_min) {
  if (law.nominal_l_min == nominal_l_min) return law;
  CutLaw moved = law;
  moved.nominal_um = cut_at_flow(law, nominal_l_min);
  moved.nominal_l_min = nominal_l_min;
  return moved;
}

}  // namespace driftwarden
