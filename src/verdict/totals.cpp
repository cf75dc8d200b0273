// SPDX-License-Identifier: MIT
#include "verdict/totals.hpp"

namespace driftwarden {

void Totals::count(Verdict verdict, Verdict standing) {
  ++samples;
  ++(verdict == Verdict::valid       ? valid
     : verdict == Verdict::qualified ? qualified
     : verdict == Verdict::undecided ? undecided
                                     : void_);
  if (standing >= Verdict::undecided) ++open;
  if (standing == verdict) return;
  ++(standing == Verdict::valid       ? valid_by_decision
     : standing == Verdict::qualified ? qualified_by_decision
                                      : undecided_by_decision);
}

Totals& Totals::operator+=(const Totals& other) {
  samples += other.samples;
  valid += other.valid;
  qualified += other.qualified;
  undecided += other.undecided;
  void_ += other.void_;
  valid_by_decision += other.valid_by_decision;
  qualified_by_decision += other.qualified_by_decision;
  undecided_by_decision += other.undecided_by_decision;
  open += other.open;
  return *this;
}

}  // namespace driftwarden
