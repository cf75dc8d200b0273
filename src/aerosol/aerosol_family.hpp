// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "aerosol/convention.hpp"
#include "aerosol/penetration.hpp"
#include "aerosol/sampled_mass.hpp"
#include "statistics/bounds.hpp"

namespace driftwarden {

// All lognormal aerosols between these, for where nobody knows the aerosol. The ends are this project's own choice, of
// no document. From 1 µm, for of a finer aerosol nearly all comes through whatever the flow, as of one of 1 µm; to
// 15 µm and from a spread of 2, for of every one of them the respirable convention takes 5 % or more: beyond, next to
// nothing is on the filter, and a small part of next to nothing moves fast. A spread of 2 to 3 is what workplace dusts
// mostly have, from memory.
struct AerosolFamily {
  Bounds mmad_um{1, 15};
  Bounds gsd{2, 3};
};

inline bool is_one(const AerosolFamily& family) { return is_one(family.mmad_um) && is_one(family.gsd); }

using MassErrorBand = MassErrors<Bounds>;

// What a preselector at its nominal flow, and a convention, take of each of a family: worked out once for many flows.
class FamilyBand {
 public:
  FamilyBand(const Preselector& preselector, const AerosolFamily& family, std::optional<Convention> convention);

  // The least and the greatest of mass_error() over a family of aerosols.
  //
  //   min and max of e(M_i, G_j), with the parabola through the three points about each extreme: along the line of each
  //   G_j, then across the lines
  //
  //   e     an error of mass_error(), as a ratio
  //   M, G  13 mass median diameters, µm, and 5 geometric standard deviations, equally spaced in their logarithms
  //   Source   our own; a search by a finer grid is the check (tests/aerosol)
  //   Valid    each end to 0.0005 for the family above and a spread of 1.1 or more. NaN where mass_error() has no
  //            figure; so are biases without a convention
  //   Example  4 µm at 2.0 L/min, spread 1.25, n 0.75, at 1.9 L/min: by the actual volume +0.3 % to +12.3 %
  MassErrorBand at(double flow_l_min) const;

  // The same where the exponent is only known to lie between two. The cut goes one way with it, and every share with
  // the cut: the ends are those of the two exponents.
  MassErrorBand at(double flow_l_min, const Bounds& exponents) const;

 private:
  struct Member {
    ShareByCut share;
    double at_nominal;
    double convention;
  };
  MassErrorBand of_cut(double cut_um, double flow_l_min) const;

  Preselector preselector_;
  std::vector<Member> members_;  // line by line of one GSD
  MassErrorBand at_nominal_;
};

}  // namespace driftwarden
