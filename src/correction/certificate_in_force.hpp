// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "record/instrument.hpp"

namespace driftwarden {

// The certificates of every instrument in the order of their dates. Looks at the certificates it was made from: they
// have to outlive it and stay where they are.
//
// In force on a day is the newest certificate calibrated on or before that day, of two of one day the later in file
// order; never a later one. A certificate without a date or an instrument is never in force.
class CertificateHistory {
 public:
  CertificateHistory() = default;
  CertificateHistory(std::span<const Certificate> certificates, std::size_t instruments);

  // Place in the certificates, or -1 where none is in force.
  std::int32_t index_in_force(Row instrument, Day on) const;
  // Places of all certificates of an instrument, in the order of their dates.
  std::span<const std::int32_t> of(Row instrument) const;
  // nullptr where none is in force.
  const Certificate* in_force(Row instrument, Day on) const;

 private:
  std::span<const Certificate> certificates_;
  std::vector<std::uint32_t> begin_;  // where an instrument's certificates begin in the two below; one more at the end
  std::vector<Day> calibrated_;
  std::vector<std::int32_t> index_;
};

}  // namespace driftwarden
