// SPDX-License-Identifier: MIT
#include "aerosol/penetration.hpp"

#include "quantity/elementary.hpp"
#include "statistics/normal_distribution.hpp"

namespace driftwarden {

double penetration(const PenetrationCurve& curve, double d_um) {
  if (!(curve.spread > 1) || !(d_um >= 0)) return no_figure;
  return normal_cdf(-elementary::log(d_um / curve.cut_um) / elementary::log(curve.spread));
}

ShareByCut::ShareByCut(double spread, const LognormalAerosol& of) {
  if (!(spread >= 1) || !is_aerosol(of)) return;
  log_mmad_ = elementary::log(of.mmad_um);
  width_ = elementary::hypot(elementary::log(spread), elementary::log(of.gsd));
}

double ShareByCut::at(double log_cut_um) const { return normal_cdf((log_cut_um - log_mmad_) / width_); }

double sampled_share(const PenetrationCurve& curve, const LognormalAerosol& of) {
  return ShareByCut(curve.spread, of).at(elementary::log(curve.cut_um));
}

}  // namespace driftwarden
