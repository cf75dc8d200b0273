// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "book/book.hpp"
#include "correction/calibrator_drift.hpp"
#include "correction/certificate_error.hpp"
#include "correction/certificate_in_force.hpp"
#include "correction/corrected_reading.hpp"
#include "correction/supposed_errors.hpp"

namespace driftwarden {

// All that goes into a reading's correction but what it showed: the same for all readings of a calibrator under one
// certificate and one sky.
struct ToCorrect {
  std::int32_t certificate = -1;
  Principle principle = {};
  std::span<const ErrorPoint> curve;  // of the certificate, or supposed
  FactorInputs inputs;
  bool has_altitude_pressure = false;
  ReadingFactor factor;  // by the inputs
};

// What the book knows of its calibrators and its site, worked out once. The book has to outlive it.
class CalibratorKnowledge {
 public:
  explicit CalibratorKnowledge(const Book& book, SupposedErrors supposed = {});

  // The certificate in force: its place in the book's certificates, or -1.
  std::int32_t certificate(Row calibrator, Day on) const { return history_.index_in_force(calibrator, on); }
  // The one a reading leans on: that in force for its calibrator on the reading's own day; or -1.
  std::int32_t certificate_of(Row reading) const;
  // Those that some readings lean on, each once: more than one where a set runs over midnight into the first day of a
  // new one. Readings whose calibrator nobody knows are passed over.
  std::vector<std::int32_t> certificates_of(std::span<const Row> readings) const;
  std::span<const ErrorPoint> curve(std::int32_t certificate) const;
  // The errors that the reading is corrected by: supposed ones, or those of the certificate.
  std::span<const ErrorPoint> curve_for(Row reading, std::int32_t certificate) const;
  // How far the error may have moved by then since the certificate, ratio, with its degrees of freedom; missing where
  // no two certificates tell, 0 where the error itself is supposed.
  struct MovedSince {
    double u = missing;
    double dof = 0;
  };
  MovedSince moved_since(std::int32_t certificate, Row calibrator, Day on) const;
  // Whether the reading is corrected by a supposed error instead of its certificate's.
  const ErrorCurve* supposed_curve(Row reading, std::int32_t certificate) const;
  // no_day where neither the certificate nor the instrument's interval says.
  Day due(std::int32_t certificate) const { return due_[static_cast<std::size_t>(certificate)]; }
  // The first problem with a calibrator or its certificate, or no_problem.
  ProblemNumber problem(Row calibrator, std::int32_t certificate) const;
  // The site's pressure from its altitude, where the book gives one, kPa.
  std::optional<double> site_pressure_kpa() const { return site_pressure_kpa_; }

  // What readings of a calibrator under a certificate have in common, and the conditions of one beside it.
  ToCorrect in_common(Row calibrator, std::int32_t certificate, const CorrectionPractice& practice) const;
  void put_conditions(Row reading, ToCorrect& to) const;
  CorrectedReading correct(Row reading, std::int32_t certificate, const CorrectionPractice& practice) const;
  // By the certificate it leans on.
  CorrectedReading correct(Row reading, const CorrectionPractice& practice) const {
    return correct(reading, certificate_of(reading), practice);
  }
  // The temperature a calibrator's scale holds at: its own, else that of the certificate.
  std::optional<Temperature> scale_temperature(Row calibrator, std::int32_t certificate) const;
  // Station pressure of a reading, kPa: its own, or the site's by altitude (then `is_from_altitude`), or NaN.
  double pressure_kpa(Row reading, bool& is_from_altitude) const;

 private:
  const Book& book_;
  SupposedErrors supposed_;
  CertificateHistory history_;
  std::vector<std::vector<ErrorPoint>> curves_;
  std::vector<Day> due_;
  std::vector<CalibratorDrift> drifts_;
  std::optional<double> site_pressure_kpa_;
};

}  // namespace driftwarden
