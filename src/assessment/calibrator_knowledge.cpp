// SPDX-License-Identifier: MIT
#include "assessment/calibrator_knowledge.hpp"

#include <algorithm>
#include <utility>

#include "book/stamp_text.hpp"
#include "correction/altitude.hpp"
#include "correction/due.hpp"

namespace driftwarden {

CalibratorKnowledge::CalibratorKnowledge(const Book& book, SupposedErrors supposed)
    : book_(book),
      supposed_(std::move(supposed)),
      history_(book.certificates, book.instruments.size()),
      drifts_(calibrator_drifts(book.certificates, history_, book.instruments.size())) {
  for (const Certificate& certificate : book.certificates) {
    curves_.push_back(error_curve(certificate));
    const bool is_known = certificate.instrument != no_row;
    due_.push_back(is_known ? due_day(certificate, book.instruments[certificate.instrument]) : no_day);
  }
  if (book.settings.altitude_m) site_pressure_kpa_ = pressure_at_altitude(*book.settings.altitude_m).value;
}

std::int32_t CalibratorKnowledge::certificate_of(Row reading) const {
  const Moment taken = book_.readings.taken[reading];
  if (taken == no_moment) return -1;
  return certificate(book_.readings.calibrator[reading], local_day(taken, book_.settings.zone));
}

std::vector<std::int32_t> CalibratorKnowledge::certificates_of(std::span<const Row> readings) const {
  std::vector<std::int32_t> used;
  for (const Row reading : readings) {
    if (book_.readings.calibrator[reading] == no_row) continue;
    const std::int32_t next = certificate_of(reading);
    if (std::find(used.begin(), used.end(), next) == used.end()) used.push_back(next);
  }
  return used;
}

std::span<const ErrorPoint> CalibratorKnowledge::curve(std::int32_t certificate) const {
  if (certificate < 0) return {};
  return curves_[static_cast<std::size_t>(certificate)];
}

std::span<const ErrorPoint> CalibratorKnowledge::curve_for(Row reading, std::int32_t certificate) const {
  const ErrorCurve* supposed = supposed_curve(reading, certificate);
  return supposed == nullptr ? curve(certificate) : std::span<const ErrorPoint>(*supposed);
}

CalibratorKnowledge::MovedSince CalibratorKnowledge::moved_since(std::int32_t certificate, Row calibrator,
                                                                 Day on) const {
  if (certificate < 0) return {};
  const bool is_itself_supposed =
      calibrator == supposed_.instrument && supposed_.curve(calibrator, certificate, on) != nullptr;
  if (is_itself_supposed) return {.u = 0};
  const auto place = static_cast<std::size_t>(certificate);
  const CalibratorDrift& drift = drifts_[place];
  const auto days = static_cast<double>(on - book_.certificates[place].calibrated);
  return {drift.after_days(days), static_cast<double>(drift.intervals)};
}

const ErrorCurve* CalibratorKnowledge::supposed_curve(Row reading, std::int32_t certificate) const {
  if (supposed_.instrument == no_row) return nullptr;
  const ReadingTable& readings = book_.readings;
  const Day day = local_day(readings.taken[reading], book_.settings.zone);
  return supposed_.curve(readings.calibrator[reading], certificate, day);
}

ProblemNumber CalibratorKnowledge::problem(Row calibrator, std::int32_t certificate) const {
  if (calibrator == no_row) return no_problem;
  const ProblemNumber of_instrument = book_.instruments[calibrator].problem;
  if (of_instrument != no_problem) return of_instrument;
  return certificate < 0 ? no_problem : book_.certificates[static_cast<std::size_t>(certificate)].problem;
}

double CalibratorKnowledge::pressure_kpa(Row reading, bool& is_from_altitude) const {
  const double own = field(book_.readings.pressure_kpa, reading);
  if (!is_missing(own) || !site_pressure_kpa_) return own;
  is_from_altitude = true;
  return *site_pressure_kpa_;
}

std::optional<Temperature> CalibratorKnowledge::scale_temperature(Row calibrator, std::int32_t certificate) const {
  const std::optional<Temperature>& own = book_.instruments[calibrator].scale_temperature;
  if (own || certificate < 0) return own;
  return book_.certificates[static_cast<std::size_t>(certificate)].temperature;
}

ToCorrect CalibratorKnowledge::in_common(Row calibrator, std::int32_t certificate,
                                         const CorrectionPractice& practice) const {
  const Instrument& instrument = book_.instruments[calibrator];
  ToCorrect to;
  to.certificate = certificate;
  to.principle = instrument.principle;
  to.curve = curve(certificate);
  to.inputs.scale_temperature = instrument.scale_temperature;
  to.inputs.scale_pressure = instrument.scale_pressure;
  to.inputs.calibrated_temperature = scale_temperature(calibrator, certificate);
  to.inputs.practice = practice;
  return to;
}

void CalibratorKnowledge::put_conditions(Row reading, ToCorrect& to) const {
  const ReadingTable& readings = book_.readings;
  to.inputs.temperature_k = field(readings.temperature_k, reading);
  to.inputs.humidity = field(readings.humidity, reading);
  to.has_altitude_pressure = false;
  to.inputs.pressure_kpa = pressure_kpa(reading, to.has_altitude_pressure);
  to.factor = reading_factor(to.principle, to.inputs);
  if (supposed_.instrument != no_row) to.curve = curve_for(reading, to.certificate);
}

CorrectedReading CalibratorKnowledge::correct(Row reading, std::int32_t certificate,
                                              const CorrectionPractice& practice) const {
  ToCorrect to = in_common(book_.readings.calibrator[reading], certificate, practice);
  put_conditions(reading, to);
  return correct_reading(book_.readings.indicated_l_min[reading], to.curve, to.factor);
}

}  // namespace driftwarden
