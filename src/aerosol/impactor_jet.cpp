// SPDX-License-Identifier: MIT
#include "aerosol/impactor_jet.hpp"

#include <cmath>
#include <numbers>

namespace driftwarden {
namespace {

constexpr double mm_in_m = 1e-3;
constexpr double l_min_in_m3_s = 1e-3 / 60;
constexpr double um_of_a_m = 1e6;
constexpr double unit_density_kg_m3 = 1000;

bool is_round(const Jets& jets) { return jets.length_mm == 0; }

double stokes_50(const Jets& jets) {
  if (!std::isnan(jets.stokes_50)) return jets.stokes_50;
  return is_round(jets) ? 0.24 : 0.59;
}

bool are_figures(const Jets& jets, double flow_l_min) {
  return jets.count > 0 && jets.width_mm > 0 && jets.length_mm >= 0 && flow_l_min > 0;
}

double velocity_m_s(const Jets& jets, double flow_l_min) {
  const double area_mm2 = jets.width_mm * (is_round(jets) ? std::numbers::pi / 4 * jets.width_mm : jets.length_mm);
  return flow_l_min * l_min_in_m3_s / (jets.count * area_mm2 * mm_in_m * mm_in_m);
}

}  // namespace

double jet_cut_um(const Jets& jets, double flow_l_min, const AirInJets& air) {
  if (!are_figures(jets, flow_l_min)) return no_figure;
  const double square_m2 = 9 * air.viscosity_pa_s * jets.width_mm * mm_in_m * stokes_50(jets) /
                           (unit_density_kg_m3 * velocity_m_s(jets, flow_l_min));
  return without_slip(std::sqrt(square_m2) * um_of_a_m, air.mean_free_path_um);
}

double jet_reynolds(const Jets& jets, double flow_l_min, const AirInJets& air) {
  if (!are_figures(jets, flow_l_min)) return no_figure;
  const double hydraulic_m = jets.width_mm * mm_in_m * (is_round(jets) ? 1 : 2);
  return air.density_kg_m3 * velocity_m_s(jets, flow_l_min) * hydraulic_m / air.viscosity_pa_s;
}

}  // namespace driftwarden
