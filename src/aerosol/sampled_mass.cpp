// SPDX-License-Identifier: MIT
#include "aerosol/sampled_mass.hpp"

#include "aerosol/penetration.hpp"

namespace driftwarden {

MassError mass_error(const Preselector& preselector, double flow_l_min, const LognormalAerosol& of,
                     double convention_share) {
  const auto share_at = [&](double cut_um) { return sampled_share({cut_um, preselector.spread}, of); };
  const double at_nominal = share_at(preselector.cut.nominal_um);
  const double at_flow = share_at(cut_at_flow(preselector.cut, flow_l_min));
  const double more_air = flow_l_min / preselector.cut.nominal_l_min;
  return {.by_actual_volume = at_flow / at_nominal - 1,
          .by_nominal_volume = more_air * at_flow / at_nominal - 1,
          .bias_at_nominal = at_nominal / convention_share - 1,
          .bias_by_actual_volume = at_flow / convention_share - 1,
          .bias_by_nominal_volume = more_air * at_flow / convention_share - 1,
          .share_at_nominal = at_nominal,
          .share_at_flow = at_flow,
          .share_of_convention = convention_share};
}

}  // namespace driftwarden
