// SPDX-License-Identifier: MIT
#include "aerosol/aerosol_family.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "quantity/elementary.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t mmads = 13;
constexpr std::size_t gsds = 5;

double on_the_way(const Bounds& range, std::size_t i, std::size_t count) {
  const double part = static_cast<double>(i) / static_cast<double>(count - 1);
  return range.lower * elementary::pow(range.upper / range.lower, part);
}

// Of a smooth function that is known at equal distances.
template <std::size_t count>
double greatest(const std::array<double, count>& f) {
  const auto is_none = [](double figure) { return !std::isfinite(figure); };  // where nothing comes through: 0 / 0
  if (std::any_of(f.begin(), f.end(), is_none)) return no_figure;
  const auto top = std::max_element(f.begin(), f.end());
  const auto middle = std::clamp(top, f.begin() + 1, f.end() - 2);
  const double slope = (middle[1] - middle[-1]) / 2;
  const double bend = middle[1] - 2 * middle[0] + middle[-1];
  const bool has_a_top = std::fabs(slope) < -bend;
  return has_a_top ? std::max(*top, middle[0] - slope * slope / (2 * bend)) : *top;
}

template <std::size_t count>
double least(std::array<double, count> f) {
  for (double& figure : f) figure = -figure;
  return -greatest(f);
}

// Bounds of a function of the members by their places.
template <class Figure>
Bounds extremes(Figure figure_of) {
  std::array<double, gsds> lower{};
  std::array<double, gsds> upper{};
  for (std::size_t line = 0; line < gsds; ++line) {
    std::array<double, mmads> f{};
    for (std::size_t i = 0; i < mmads; ++i) f[i] = figure_of(line * mmads + i);
    lower[line] = least(f);
    upper[line] = greatest(f);
  }
  return {least(lower), greatest(upper)};
}

Bounds around(const Bounds& a, const Bounds& b) {
  if (std::isnan(a.lower) || std::isnan(b.lower)) return {};
  return {std::min(a.lower, b.lower), std::max(a.upper, b.upper)};
}

}  // namespace

FamilyBand::FamilyBand(const Preselector& preselector, const AerosolFamily& family,
                       std::optional<Convention> convention)
    : preselector_(preselector) {
  for (std::size_t line = 0; line < gsds; ++line)
    for (std::size_t i = 0; i < mmads; ++i) {
      const LognormalAerosol aerosol{on_the_way(family.mmad_um, i, mmads), on_the_way(family.gsd, line, gsds)};
      const ShareByCut share(preselector.spread, aerosol);
      members_.push_back({share, share.at(elementary::log(preselector.cut.nominal_um)),
                          convention ? convention_share(*convention, aerosol) : no_figure});
    }
  at_nominal_.bias_at_nominal =
      extremes([&](std::size_t i) { return members_[i].at_nominal / members_[i].convention - 1; });
  at_nominal_.share_at_nominal = extremes([&](std::size_t i) { return members_[i].at_nominal; });
  at_nominal_.share_of_convention = extremes([&](std::size_t i) { return members_[i].convention; });
}

MassErrorBand FamilyBand::of_cut(double cut_um, double flow_l_min) const {
  const double log_cut = elementary::log(cut_um);
  std::array<double, mmads * gsds> share{};
  for (std::size_t i = 0; i < share.size(); ++i) share[i] = members_[i].share.at(log_cut);
  const double nominal_l_min = preselector_.cut.nominal_l_min;
  MassErrorBand band = at_nominal_;
  band.by_actual_volume = extremes([&](std::size_t i) { return share[i] / members_[i].at_nominal - 1; });
  band.by_nominal_volume = error_by_volume(band.by_actual_volume, flow_l_min, nominal_l_min);
  band.bias_by_actual_volume = extremes([&](std::size_t i) { return share[i] / members_[i].convention - 1; });
  band.bias_by_nominal_volume = error_by_volume(band.bias_by_actual_volume, flow_l_min, nominal_l_min);
  band.share_at_flow = extremes([&](std::size_t i) { return share[i]; });
  return band;
}

MassErrorBand FamilyBand::at(double flow_l_min) const {
  return of_cut(cut_at_flow(preselector_.cut, flow_l_min), flow_l_min);
}

MassErrorBand FamilyBand::at(double flow_l_min, const Bounds& exponents) const {
  CutLaw law = preselector_.cut;
  const auto with = [&](double exponent) {
    law.exponent = exponent;
    return of_cut(cut_at_flow(law, flow_l_min), flow_l_min);
  };
  const MassErrorBand a = with(exponents.lower);
  const MassErrorBand b = with(exponents.upper);
  MassErrorBand band = at_nominal_;
  for (Bounds MassErrorBand::*figure :
       {&MassErrorBand::by_actual_volume, &MassErrorBand::by_nominal_volume, &MassErrorBand::bias_by_actual_volume,
        &MassErrorBand::bias_by_nominal_volume, &MassErrorBand::share_at_flow}) {
    band.*figure = around(a.*figure, b.*figure);
  }
  return band;
}

}  // namespace driftwarden
