// SPDX-License-Identifier: MIT
#include "history/lookback_remarks.hpp"

#include <algorithm>

#include "book/stamp_text.hpp"
#include "quantity/rounding.hpp"

namespace driftwarden {
namespace {

class Remarks {
 public:
  Remarks(const Screening& screening, const Lookback& lookback)
      : screening_(screening), book_(screening.book()), lookback_(lookback), window_(lookback.window) {}

  std::vector<std::string> all() {
    window();
    day_of_the_finding();
    certificates_between();
    ring();
    silent_certificates();
    nominal_flow();
    return std::move(remarks_);
  }

 private:
  const std::string& name() const { return book_.instruments[window_.instrument].name; }
  const Certificate& found() const { return book_.certificates[static_cast<std::size_t>(window_.found)]; }
  void say(std::string text) { remarks_.push_back(std::move(text)); }

  void window() {
    if (!window_.tolerance.is_stated()) {
      say("nobody states a tolerance for " + name() + ": neither a certificate nor a rule; the certificate before " +
          found().name + " counts as the last good one");
    } else if (!window_.is_beyond_tolerance()) {
      say(found().name + " found " + name() + " within its tolerance; it is looked back from because it was named");
    }
    if (window_.last_good < 0) {
      say("the book has no earlier certificate that left " + name() +
          " within tolerance: the window is open to the past, and linear growth has nothing to begin from");
    }
  }

  void day_of_the_finding() {
    const ReadingTable& readings = book_.readings;
    std::size_t count = 0;
    for (Row row = 0; row < readings.size(); ++row) {
      const bool is_of_the_day = readings.calibrator[row] == window_.instrument && readings.taken[row] != no_moment &&
                                 local_day(readings.taken[row], book_.settings.zone) == window_.until;
      count += is_of_the_day ? 1U : 0U;
    }
    if (count == 0) return;
    say(counted(count, "reading was", "readings were") + " taken with " + name() +
        " on the very day it was found wrong: corrected by the new certificate and not looked back at. What was taken "
        "before it was adjusted belongs here");
  }

  void certificates_between() {
    for (const Certificate* certificate : certificates_of(book_, window_.instrument, window_.until)) {
      if (certificate->calibrated <= window_.from || certificate->calibrated == window_.until) continue;
      say("certificate " + certificate->name + " lies in the window; it did not leave " + name() + " within tolerance");
    }
  }

  // The standard that found it wrong leaned on it.
  void ring() {
    const Standard standard = screening_.basis().standards.of(found(), screening_.basis().calibrators);
    const bool leaned = standard.instrument == window_.instrument ||
                        std::any_of(lookback_.leaning.begin(), lookback_.leaning.end(),
                                    [&](const auto& each) { return each.certificate == standard.certificate; });
    if (standard.instrument != no_row && leaned) {
      say("the standard of " + found().name + " leaned on " + name() +
          " itself: the error it was found with needs another witness");
    }
  }

  void silent_certificates() {
    std::string names;
    std::size_t count = 0;
    for (const Certificate& certificate : book_.certificates) {
      const bool is_silent = certificate.standard.empty() && certificate.instrument != window_.instrument &&
                             certificate.calibrated != no_day && certificate.calibrated >= window_.from &&
                             certificate.calibrated < window_.until;
      if (!is_silent) continue;
      if (++count <= 5) names += (names.empty() ? "" : ", ") + certificate.name;
    }
    if (count == 0) return;
    say(counted(count, "certificate of the window names", "certificates of the window name") +
        " no standard, so whether " + (count == 1 ? "it" : "they") + " leaned on " + name() +
        " is not known: " + names + (count > 5 ? ", …" : ""));
  }

  void nominal_flow() {
    if (lookback_.samples.empty() || screening_.basis().practice.flow_for_volume != FlowForVolume::nominal) return;
    say("volumes are formed with the nominal flow (practice flow_for_volume), so they do not follow the readings; "
        "what was measured stands beside them");
  }

  const Screening& screening_;
  const Book& book_;
  const Lookback& lookback_;
  const LookbackWindow& window_;
  std::vector<std::string> remarks_;
};

}  // namespace

std::vector<std::string> lookback_remarks(const Screening& screening, const Lookback& lookback) {
  return Remarks(screening, lookback).all();
}

}  // namespace driftwarden
