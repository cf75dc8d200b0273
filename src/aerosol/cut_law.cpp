// SPDX-License-Identifier: MIT
#include "aerosol/cut_law.hpp"

#include <cmath>

#include "aerosol/slip.hpp"
#include "quantity/elementary.hpp"
#include "quantity/limit.hpp"

namespace driftwarden {
namespace {

bool is_outside(const Bounds& range, double figure) {
  return (!std::isnan(range.lower) && side_of_limit(figure, range.lower) == Side::below) ||
         (!std::isnan(range.upper) && side_of_limit(figure, range.upper) == Side::above);
}

}  // namespace

bool holds_at(const CutLaw& law, double flow_l_min) {
  return flow_l_min > 0 && !is_outside(law.flows_l_min, flow_l_min);
}

double cut_at_flow(const CutLaw& law, double flow_l_min) {
  if (!(law.nominal_l_min > 0) || !holds_at(law, flow_l_min)) return no_figure;
  if (std::isnan(law.exponent)) return no_figure;  // pow() would make 1 of some
  const double ratio = flow_l_min / law.nominal_l_min;
  const double slipping_um = law.nominal_um * std::sqrt(slip_correction(law.nominal_um, law.mean_free_path_um));
  return without_slip(slipping_um * elementary::pow(ratio, -law.exponent), law.mean_free_path_um);
}

double exponent_at(const CutLaw& law, double cut_um) {
  if (law.mean_free_path_um == 0) return law.exponent;
  return law.exponent / (1 + slip_slope(cut_um, law.mean_free_path_um) / 2);
}

}  // namespace driftwarden
