// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <vector>

#include "assessment/told_by_sets.hpp"
#include "record/sample.hpp"

namespace driftwarden {

// How far a pump's flow moved over its uses.
//
//   s = √( Σ d_k² / n )      d_k = (q_post − q_pre) / ((q_pre + q_post) / 2)
//
//   q_pre, q_post  flows of the bracket of use k, L/min      n  uses, and degrees of freedom of s
//   Source   the second moment about 0, which is where a pump is meant to stay: a steady way of drifting counts, too
//   Valid    uses that are alike; what the readings' own scatter adds is left in it
//   Example  −1 %, 2 % and −2 %: s = √(0.0009 / 3) = 1.732 %
struct DriftSpread {
  std::uint32_t uses = 0;
  double s = missing;
};

// The drifts of every pump of a book, in order of time. A use is a bracket with a pre and a post flow, of a sample
// whose records can be understood and in which nobody saw a fault; two samples within one bracket are one use.
class PumpDrifts {
 public:
  PumpDrifts() = default;
  // Takes the uses out of what was told. The same with any number of threads.
  PumpDrifts(std::vector<ToldBySets>& told, std::size_t instruments, unsigned threads);

  // Over the uses whose post set was read before a moment: nothing that is read later changes it.
  DriftSpread before(Row pump, Moment moment) const;

 private:
  struct Use {
    Moment closed = no_moment;  // when its post set had been read
    double squares = 0;         // d² of this use and of the pump's uses before it
  };
  static const Use* first_from(std::span<const Use> uses, Moment moment);

  std::vector<std::uint32_t> begin_;  // by pump, one more at the end
  std::vector<Use> uses_;             // by pump and time
};

}  // namespace driftwarden
