// SPDX-License-Identifier: MIT
#include "aerosol/sampled_mass.hpp"

#include "aerosol/penetration.hpp"
#include "quantity/elementary.hpp"

namespace driftwarden {

MassError mass_error(const Preselector& preselector, double flow_l_min, const LognormalAerosol& of,
                     double convention_share) {
  const auto share_at = [&](double cut_um) { return sampled_share({cut_um, preselector.spread}, of); };
  const double at_nominal = share_at(preselector.cut.nominal_um);
  const double at_flow = share_at(cut_at_flow(preselector.cut, flow_l_min));
  MassError error{.by_actual_volume = at_flow / at_nominal - 1,
                  .bias_at_nominal = at_nominal / convention_share - 1,
                  .bias_by_actual_volume = at_flow / convention_share - 1,
                  .share_at_nominal = at_nominal,
                  .share_at_flow = at_flow,
                  .share_of_convention = convention_share};
  const double nominal_l_min = preselector.cut.nominal_l_min;
  error.by_nominal_volume = error_by_volume(error.by_actual_volume, flow_l_min, nominal_l_min);
  error.bias_by_nominal_volume = error_by_volume(error.bias_by_actual_volume, flow_l_min, nominal_l_min);
  return error;
}

double error_of_cut(const Preselector& preselector, double cut_um, const LognormalAerosol& of) {
  return sampled_share({cut_um, preselector.spread}, of) /
             sampled_share({preselector.cut.nominal_um, preselector.spread}, of) -
         1;
}

double mmad_of_error(const Preselector& preselector, double cut_um, double error, double gsd, const Bounds& mmad_um) {
  const auto beyond = [&](double log_mmad) {
    return error_of_cut(preselector, cut_um, {elementary::exp(log_mmad), gsd}) - error;
  };
  double low = elementary::log(mmad_um.lower);
  double high = elementary::log(mmad_um.upper);
  if (!(beyond(low) * beyond(high) <= 0)) return no_figure;
  const bool is_below = beyond(low) < 0;
  constexpr int enough = 50;  // halvings
  for (int i = 0; i < enough; ++i) {
    const double middle = (low + high) / 2;
    ((beyond(middle) < 0) == is_below ? low : high) = middle;
  }
  return elementary::exp((low + high) / 2);
}

double error_by_volume(double by_actual_volume, double flow_l_min, double formed_with_l_min) {
  return (1 + by_actual_volume) * flow_l_min / formed_with_l_min - 1;
}

Bounds error_by_volume(const Bounds& by_actual_volume, double flow_l_min, double formed_with_l_min) {
  return {error_by_volume(by_actual_volume.lower, flow_l_min, formed_with_l_min),
          error_by_volume(by_actual_volume.upper, flow_l_min, formed_with_l_min)};
}

}  // namespace driftwarden
