// SPDX-License-Identifier: MIT
#include "history/lookback_window.hpp"

#include <algorithm>

namespace driftwarden {
namespace {

std::int32_t place_of(const Book& book, const Certificate& certificate) {
  return static_cast<std::int32_t>(&certificate - book.certificates.data());
}

// Left with an error that is known and within tolerance.
bool is_good(const Certificate& certificate, const Tolerance& tolerance) {
  const std::optional<CalibratedPoint> worst = worst_point(certificate, Found::as_left);
  return worst && !is_beyond(worst->error(Found::as_left), tolerance);
}

}  // namespace

std::optional<LookbackWindow> window_of(const Screening& screening, std::int32_t found) {
  const Book& book = screening.book();
  const Certificate& certificate = book.certificates[static_cast<std::size_t>(found)];
  const std::optional<CalibratedPoint> worst = worst_point(certificate, Found::as_found);
  if (!worst || !worst->is_flow) return std::nullopt;
  if (certificate.calibrated == no_day || certificate.instrument == no_row) return std::nullopt;
  std::vector<const Certificate*> certificates = certificates_of(book, certificate.instrument, certificate.calibrated);
  certificates.erase(std::find(certificates.begin(), certificates.end(), &certificate) + 1, certificates.end());
  LookbackWindow window;
  window.instrument = certificate.instrument;
  window.found = found;
  window.until = certificate.calibrated;
  window.worst = *worst;
  window.as_found_percent = worst->error(Found::as_found);
  if (worst->expanded_uncertainty) {
    window.as_found_expanded_percent = 100 * 2 * *worst->expanded_uncertainty / certificate.k() / worst->reference;
  }
  window.tolerance = tolerance_of(screening, certificates);
  for (const Certificate* before : certificates) {
    if (before->calibrated == certificate.calibrated || !is_good(*before, window.tolerance)) continue;
    window.last_good = place_of(book, *before);
    window.from = before->calibrated;
  }
  return window;
}

std::optional<LookbackWindow> newest_window(const Screening& screening, Row instrument, Day as_of) {
  const std::vector<const Certificate*> certificates = certificates_of(screening.book(), instrument, as_of);
  for (auto newest = certificates.rbegin(); newest != certificates.rend(); ++newest) {
    const std::optional<LookbackWindow> window = window_of(screening, place_of(screening.book(), **newest));
    if (window && window->is_beyond_tolerance()) return window;
  }
  return std::nullopt;
}

}  // namespace driftwarden
