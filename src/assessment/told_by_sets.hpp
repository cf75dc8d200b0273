// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <span>
#include <utility>
#include <vector>

#include "record/instrument.hpp"
#include "record/moment.hpp"

namespace driftwarden {

struct AssessmentBasis;

// The use of a pump; what counts as one: assessment/pump_drifts.
struct UseDrift {
  Row pump = no_row;
  Moment closed = no_moment;  // when its post set had been read
  double square = 0;          // of its drift, ratio²
};

// What one set tells of its calibrator's scatter; the formula: assessment/calibrator_scatter.
struct SetScatter {
  Row calibrator = no_row;
  std::uint32_t dof = 0;    // n − 1
  Moment last = no_moment;  // when it ended
  double squares = 0;       // (n − 1) (s / q)², ratio²
};

// What the sets of a stretch of a book tell of other samples, in the order of samples, then of pumps.
struct ToldBySets {
  std::vector<UseDrift> uses;
  std::vector<SetScatter> scatters;
};

// All that is told, in one pass over the book before anything is judged; stretch by stretch, the same with any number
// of threads. Leans on all of the basis but on what is made of it. A part of a split book is handed the scatters.
std::vector<ToldBySets> told_by_sets(const AssessmentBasis& basis, unsigned threads);

// Things by the instrument that they are of, those of one in the order in which they were told.
template <class T>
struct ByInstrument {
  std::vector<std::uint32_t> begin;  // by instrument, one more at the end
  std::vector<T> all;

  std::span<T> of(Row instrument) { return std::span(all).subspan(begin[instrument], size(instrument)); }
  std::span<const T> of(Row instrument) const { return std::span(all).subspan(begin[instrument], size(instrument)); }
  std::uint32_t size(Row instrument) const { return begin[instrument + 1] - begin[instrument]; }
};

// Takes the things of one member out of each stretch.
template <class T>
ByInstrument<T> by_instrument(std::vector<ToldBySets>& told, std::vector<T> ToldBySets::*things, Row T::*instrument,
                              std::size_t instruments) {
  ByInstrument<T> by;
  by.begin.assign(instruments + 2, 0);  // one more, while the begins are moved on
  for (const ToldBySets& stretch : told) {
    for (const T& thing : stretch.*things) ++by.begin[thing.*instrument + 2];
  }
  for (std::size_t i = 1; i < by.begin.size(); ++i) by.begin[i] += by.begin[i - 1];
  by.all.resize(by.begin.back());
  for (ToldBySets& stretch : told) {
    for (const T& thing : std::exchange(stretch.*things, {})) by.all[by.begin[thing.*instrument + 1]++] = thing;
  }
  by.begin.pop_back();
  return by;
}

}  // namespace driftwarden
