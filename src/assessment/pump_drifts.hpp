// SPDX-License-Identifier: MIT
#pragma once

#include <atomic>
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

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

// The use of a pump: a bracket with a pre and a post flow, of a sample whose records can be understood and in which
// nobody saw a fault.
struct UseDrift {
  Moment closed = no_moment;  // when its post set had been read
  double square = 0;          // of its drift, ratio²
};

// The uses of every pump while they are told, each once by its sample and in no order.
class PumpUses {
 public:
  PumpUses(const SampleTable& samples, std::size_t instruments);

  // Any thread's.
  void add(Row pump, const UseDrift& use) { uses_[ends_[pump].fetch_add(1, std::memory_order_relaxed)] = use; }

 private:
  friend class PumpDrifts;
  std::size_t instruments_;
  std::vector<std::uint32_t> begins_;                   // by pump: there is room for as many as it has samples
  std::unique_ptr<std::atomic<std::uint32_t>[]> ends_;  // behind those that were told
  Column<UseDrift> uses_;
};

// The drifts of every pump of a book, in order of time. Two samples within one bracket are one use.
class PumpDrifts {
 public:
  PumpDrifts() = default;
  // The same with any number of threads.
  PumpDrifts(PumpUses told, unsigned threads);

  // Over the uses whose post set was read before a moment: nothing that is read later changes it.
  DriftSpread before(Row pump, Moment moment) const;

 private:
  static const UseDrift* first_from(std::span<const UseDrift> uses, Moment moment);

  std::vector<std::uint32_t> begins_;  // by pump
  std::vector<std::uint32_t> ends_;    // the same
  Column<UseDrift> uses_;               // by pump and time, each with the squares of those before it
};

}  // namespace driftwarden
