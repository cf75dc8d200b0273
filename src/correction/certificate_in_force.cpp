// SPDX-License-Identifier: MIT
#include "correction/certificate_in_force.hpp"

#include <algorithm>
#include <utility>

namespace driftwarden {

namespace {

// Places of the dated certificates of known instruments, by instrument, then date, then file order.
std::vector<std::int32_t> places_by_date(std::span<const Certificate> certificates, std::size_t instruments) {
  std::vector<std::int32_t> places;
  places.reserve(certificates.size());
  for (std::size_t i = 0; i < certificates.size(); ++i) {
    const bool can_be_in_force = certificates[i].instrument < instruments && certificates[i].calibrated != no_day;
    if (can_be_in_force) places.push_back(static_cast<std::int32_t>(i));
  }
  const auto key = [&](std::int32_t place) {
    const Certificate& certificate = certificates[static_cast<std::size_t>(place)];
    return std::pair(certificate.instrument, certificate.calibrated);
  };
  std::stable_sort(places.begin(), places.end(), [&](std::int32_t a, std::int32_t b) { return key(a) < key(b); });
  return places;
}

// The first date later than `on`. By halves without a branch: readings of a book ask in no order a processor could
// guess, and they are many.
const Day* first_later(const Day* first, const Day* last, Day on) {
  auto left = static_cast<std::size_t>(last - first);
  while (left > 0) {
    const std::size_t half = (left + 1) / 2;
    first += half * static_cast<std::size_t>(first[half - 1] <= on);
    left -= half;
  }
  return first;
}

}  // namespace

CertificateHistory::CertificateHistory(std::span<const Certificate> certificates, std::size_t instruments)
    : certificates_(certificates), begin_(instruments + 1, 0), index_(places_by_date(certificates, instruments)) {
  calibrated_.reserve(index_.size());
  for (const std::int32_t place : index_) {
    const Certificate& certificate = certificates[static_cast<std::size_t>(place)];
    calibrated_.push_back(certificate.calibrated);
    ++begin_[certificate.instrument + std::size_t{1}];
  }
  for (std::size_t i = 1; i < begin_.size(); ++i) begin_[i] += begin_[i - 1];
}

std::int32_t CertificateHistory::index_in_force(Row instrument, Day on) const {
  if (std::size_t{instrument} + 1 >= begin_.size()) return -1;
  const Day* const first = calibrated_.data() + begin_[instrument];
  const Day* const last = calibrated_.data() + begin_[instrument + 1];
  const Day* const later = first_later(first, last, on);
  if (later == first) return -1;
  return index_[static_cast<std::size_t>(later - calibrated_.data()) - 1];
}

std::span<const std::int32_t> CertificateHistory::of(Row instrument) const {
  if (std::size_t{instrument} + 1 >= begin_.size()) return {};
  return std::span(index_).subspan(begin_[instrument], begin_[instrument + 1] - begin_[instrument]);
}

const Certificate* CertificateHistory::in_force(Row instrument, Day on) const {
  const std::int32_t index = index_in_force(instrument, on);
  return index < 0 ? nullptr : &certificates_[static_cast<std::size_t>(index)];
}

}  // namespace driftwarden
