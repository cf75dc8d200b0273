// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/quantity.hpp"
#include "quantity/units.hpp"
#include "record/moment.hpp"

namespace driftwarden {

using Row = std::uint32_t;  // a record's place in its table
inline constexpr Row no_row = UINT32_MAX;

// A fault of the input that spoils a record: its number among the book's problems, counted from 1.
using ProblemNumber = std::uint32_t;
inline constexpr ProblemNumber no_problem = 0;

// The place of a record: which of the table's files, and the line.
struct RowPlace {
  std::uint32_t file = 0;
  std::uint32_t line = 0;
};

enum class InstrumentKind : std::uint8_t { pump, calibrator, thermometer, barometer, balance };
inline constexpr std::string_view instrument_kind_words[] = {"pump", "calibrator", "thermometer", "barometer",
                                                             "balance"};
// How a calibrator measures flow; what there is to say of each: correction/principle.
enum class Principle : std::uint8_t { none, volumetric, bubble, rotameter, mass, orifice };
inline constexpr std::string_view principle_words[] = {"volumetric", "bubble", "rotameter", "mass", "orifice"};
// Whether a humidity beside its readings can change what is made of them.
constexpr bool needs_humidity(Principle principle) { return principle == Principle::bubble; }
enum class ReadAt : std::uint8_t { unknown, centre, top };  // of a rotameter's float
inline constexpr std::string_view read_at_words[] = {"centre", "top"};

// What it shows, and what the points of its certificates are: flows, temperatures, pressures or masses.
Dimension dimension_of_points(InstrumentKind kind);

std::string_view to_text(InstrumentKind kind);
std::string_view to_text(Principle principle);
std::string_view to_text(ReadAt read_at);

// One row of instruments.csv.
struct Instrument {
  std::string name;
  InstrumentKind kind = InstrumentKind::pump;
  Principle principle = Principle::none;
  std::string serial;
  std::optional<double> low_l_min;
  std::optional<double> high_l_min;
  std::optional<Temperature> scale_temperature;
  std::optional<Pressure> scale_pressure;
  ReadAt read_at = ReadAt::unknown;
  std::optional<bool> compensates;         // of a pump: whether it holds its flow at any temperature and pressure
  std::optional<double> resolution_l_min;  // smallest step of the display or scale
  std::optional<double> interval_d;
  std::optional<double> permitted_use_h;  // between calibrations
  Day in_service = no_day;
  Day out_of_service = no_day;
  std::string note;
  RowPlace place;
  ProblemNumber problem = no_problem;
};

// One row of certificates.csv: a point of a certificate, flows in L/min on the instrument's own basis.
struct CertificatePoint {
  double nominal_l_min = 0;
  double reference_l_min = 0;                        // the true flow
  std::optional<double> as_found_l_min;              // what the instrument showed before adjustment
  std::optional<double> as_left_l_min;               // and after
  std::optional<double> expanded_uncertainty_l_min;  // a percentage is of the reference flow
  RowPlace place;
  std::optional<double> reference_as_found_l_min = {};  // the true flow before adjustment, where it was another
  bool is_before_adjustment = false;                    // read as found only, and the instrument was adjusted at others

  // How it stands since: as it was left, or as it was found where nothing was adjusted.
  std::optional<double> in_use_l_min() const {
    return as_left_l_min || is_before_adjustment ? as_left_l_min : as_found_l_min;
  }
  double found_reference_l_min() const { return reference_as_found_l_min.value_or(reference_l_min); }
  double reference_in_use_l_min() const { return as_left_l_min ? reference_l_min : found_reference_l_min(); }
};

// A point of a certificate of a thermometer, in K, of a barometer, in kPa, or of a balance, in mg.
struct ConditionPoint {
  double nominal = 0;
  double reference = 0;  // the true figure
  std::optional<double> as_found;
  std::optional<double> as_left;
  std::optional<double> expanded_uncertainty;
  RowPlace place = {};
  std::optional<double> reference_as_found = {};
  bool is_before_adjustment = false;

  std::optional<double> in_use() const { return as_left || is_before_adjustment ? as_left : as_found; }
  double found_reference() const { return reference_as_found.value_or(reference); }
  double reference_in_use() const { return as_left ? reference : found_reference(); }
};

// What is taken where a certificate states no coverage factor (common practice).
inline constexpr double usual_coverage_factor = 2;

// The result of calibrating an instrument: all rows of one certificate name.
struct Certificate {
  std::string name;
  Row instrument = no_row;
  Day calibrated = no_day;
  Day due = no_day;
  std::string issuer;
  std::string standard;
  std::optional<Temperature> temperature;
  std::optional<Pressure> pressure;
  std::optional<double> coverage_factor;
  std::optional<double> tolerance;            // ratio
  std::optional<double> condition_tolerance;  // of a thermometer, barometer or balance: K, kPa or mg
  std::vector<CertificatePoint> points;       // of flow
  std::vector<ConditionPoint> condition_points;
  RowPlace place;
  ProblemNumber problem = no_problem;

  // By which its expanded uncertainties are to be divided.
  double k() const { return coverage_factor.value_or(usual_coverage_factor); }
};

}  // namespace driftwarden
