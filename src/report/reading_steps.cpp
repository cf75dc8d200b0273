// SPDX-License-Identifier: MIT
#include "report/reading_steps.hpp"

#include "driftwarden/correction/vapour_pressure.hpp"
#include "driftwarden/quantity/rounding.hpp"
#include "driftwarden/report/paint.hpp"
#include "driftwarden/report/terminal_text.hpp"

namespace driftwarden {
namespace {

std::string celsius_text(double kelvin) {
  return is_missing(kelvin) ? "no temperature" : with_decimals(in_celsius(Temperature(kelvin)), 2) + " °C";
}
std::string kpa_text(double kpa) { return is_missing(kpa) ? "no pressure" : with_decimals(kpa, 3) + " kPa"; }

class SetWorking {
 public:
  SetWorking(const Screening& screening, const SampleResult& result, const ReadingSet& set)
      : basis_(screening.basis()), book_(screening.book()), result_(result), set_(set) {}

  std::string text() {
    const std::span<const Row> rows = result_.figures->rows_of(set_);
    if (set_.rows.calibrator != no_row) {
      calibrator();
      for (const std::int32_t used : basis_.calibrators.certificates_of(rows)) certificate(used);
    }
    for (const Row row : rows) reading(row);
    figures();
    return std::move(out_);
  }

 private:
  void line(const std::string& text) { out_ += "  " + for_terminal(text) + "\n"; }
  const Instrument& instrument() const { return book_.instruments[set_.rows.calibrator]; }

  void calibrator() {
    const Instrument& i = instrument();
    std::string text = "Calibrator " + i.name + ", " + std::string(to_text(i.principle));
    if (!i.serial.empty()) text += ", serial " + i.serial;
    if (i.scale_temperature || i.scale_pressure) {
      text += i.principle == Principle::mass ? ", standard conditions" : ", scale drawn for";
      if (i.scale_temperature) text += " " + celsius_text(i.scale_temperature->kelvin);
      if (i.scale_pressure) text += ", " + kpa_text(i.scale_pressure->value);
    }
    if (i.read_at != ReadAt::unknown) text += ", read at the " + std::string(to_text(i.read_at)) + " of the float";
    line(text + "   [" + book_.place_text(book_.files.instruments, i.place) + "]");
  }

  void certificate(std::int32_t number) {
    if (number < 0) return line("No certificate in force: readings are taken as shown.");
    const Certificate& c = book_.certificates[static_cast<std::size_t>(number)];
    std::string text = "Certificate " + c.name + ", calibrated " + date_text(c.calibrated);
    const Day due = basis_.calibrators.due(number);
    if (due != no_day) text += ", due " + date_text(due);
    if (!c.standard.empty()) text += ", against " + c.standard;
    line(text + "   [" + book_.place_text(book_.files.certificates, c.place) + "]");
    std::string errors;
    for (const ErrorPoint& point : basis_.calibrators.curve(number)) {
      errors += (errors.empty() ? "" : ", ") + signed_percent(point.error) + " at " + flow_text(point.indication_l_min);
    }
    line("  error e = (indicated - reference) / reference: " + (errors.empty() ? "no points" : errors));
  }

  void reading(Row row) {
    const ReadingTable& readings = book_.readings;
    bool is_from_altitude = false;
    const double pressure = basis_.calibrators.pressure_kpa(row, is_from_altitude);
    const double indicated = readings.indicated_l_min[row];
    line(local_text(readings.taken[row], book_.settings.zone) + "  indicated " +
         (is_missing(indicated) ? "nothing readable" : flow_text(indicated) + " L/min") + " at " +
         celsius_text(field(readings.temperature_k, row)) + ", " + kpa_text(pressure) +
         (is_from_altitude ? " (by altitude)" : "") + "   [" +
         book_.place_text(book_.files.readings, readings.place[row]) + "]");
    const std::uint8_t flags = readings.flags[row];
    if ((flags & reading_is_void) != 0) {
      return line("    void, left out of the mean: " + book_.texts.text(field(readings.note, row, TextId{0})));
    }
    if ((flags & reading_is_rejected) != 0) return line("    rejected, left out: see the faults of the book");
    steps(row, pressure);
  }

  void steps(Row row, double pressure_kpa) {
    const std::int32_t certificate = basis_.calibrators.certificate_of(row);
    const CorrectedReading c = basis_.calibrators.correct(row, certificate, basis_.practice.correction);
    if (certificate >= 0) {
      line("    certificate  " + flow_text(c.indicated_l_min) + " / (1 + " + with_decimals(c.certificate_error, 6) +
           ") = " + flow_text(c.after_certificate_l_min) + (c.is_outside_certificate ? "   (outside the points)" : ""));
    }
    const double humidity = field(book_.readings.humidity, row);
    principle_step(c, {field(book_.readings.temperature_k, row), pressure_kpa, humidity,
                       basis_.calibrators.scale_temperature(set_.rows.calibrator, certificate)});
  }

  // What a principle's factor is made of.
  struct Inputs {
    double kelvin;
    double kpa;
    double humidity;
    std::optional<Temperature> scale_temperature;
  };

  void principle_step(const CorrectedReading& c, const Inputs& inputs) {
    const Instrument& i = instrument();
    const std::string name = "    " + left(to_text(i.principle), 11) + "  ";
    const std::string result = " = " + flow_text(c.actual_l_min) + " L/min actual";
    if (is_missing(c.actual_l_min)) return line(name + "can't be corrected: conditions are missing");
    if (is_left_alone(i, c)) {
      line(name + "x 1" + why_left_alone(i) + result);
    } else {
      line(name + flow_text(c.after_certificate_l_min) + " x " + factor_formula(i, inputs) + " = x " +
           with_decimals(c.principle_factor, 6) + result);
    }
    const bool is_left_out = basis_.practice.correction.bubble_humidity == BubbleHumidity::none;
    if (is_left_out && !is_missing(c.humidity_effect)) {
      line("    humidity     a correction to " +
           std::string(is_missing(inputs.humidity) ? "dry air" : "the ambient humidity") + " would change it by " +
           signed_percent(c.humidity_effect) + "; not practised");
    }
  }

  // Whether the factor is 1 by principle or practice, and not by a formula.
  bool is_left_alone(const Instrument& i, const CorrectedReading& c) const {
    const CorrectionPractice& practice = basis_.practice.correction;
    if (i.principle == Principle::bubble) return practice.bubble_humidity == BubbleHumidity::none;
    if (i.principle != Principle::rotameter) return i.principle == Principle::volumetric;
    return practice.rotameter != RotameterCorrection::always && c.principle_factor == 1;
  }

  std::string why_left_alone(const Instrument& i) const {
    if (i.principle == Principle::bubble) return " (bubble_humidity is 'none')";
    if (i.principle != Principle::rotameter) return "";
    const bool is_never = basis_.practice.correction.rotameter == RotameterCorrection::never;
    return std::string(" (rotameter_correction is '") + (is_never ? "never" : "beyond 5 %") + "')";
  }

  std::string factor_formula(const Instrument& i, const Inputs& inputs) const {
    const std::string t = with_decimals(inputs.kelvin, 2);
    const std::string p = with_decimals(inputs.kpa, 3);
    const std::string ts = inputs.scale_temperature ? with_decimals(inputs.scale_temperature->kelvin, 2) : "T_scale";
    const std::string ps = i.scale_pressure ? with_decimals(i.scale_pressure->value, 3) : "P_scale";
    switch (i.principle) {
      case Principle::rotameter:
        return "√((" + ps + " / " + p + ") x (" + t + " / " + ts + "))";
      case Principle::mass:
        return "(" + ps + " / " + p + ") x (" + t + " / " + ts + ")";
      case Principle::orifice:
        return "√(" + t + " / " + ts + ")";
      case Principle::bubble:
        return vapour_formula(p, inputs);
      case Principle::volumetric:
      case Principle::none:
        break;
    }
    return "1";
  }

  // (P - p_w) / (P - φ p_w), or of dry air (P - p_w) / P.
  std::string vapour_formula(const std::string& p, const Inputs& inputs) const {
    const std::string p_w = with_decimals(saturation_vapour_pressure(Temperature(inputs.kelvin)).value, 4);
    const std::string dry_part = "(" + p + " - " + p_w + ") / ";
    if (basis_.practice.correction.bubble_humidity == BubbleHumidity::dry) return dry_part + p;
    return dry_part + "(" + p + " - " + with_decimals(inputs.humidity, 3) + " x " + p_w + ")";
  }

  void figures() {
    const MeanAndSpread& flow = set_.flow;
    if (set_.problem != no_problem) return line("No mean: a record that the set leans on can't be understood.");
    line("n = " + std::to_string(flow.n) + ", mean = " + flow_text(flow.mean) + " L/min, s (n - 1) = " +
         (is_missing(flow.s) ? "none"
                             : flow_text(flow.s) + " L/min = " + with_decimals(100 * flow.relative_s(), 3) + " %") +
         (flow.n == 0 ? "" : ", range = " + flow_text(flow.range()) + " L/min"));
  }

  const AssessmentBasis& basis_;
  const Book& book_;
  const SampleResult& result_;
  const ReadingSet& set_;
  std::string out_;
};

}  // namespace

std::string flow_text(double l_min) { return is_missing(l_min) ? "missing" : with_decimals(l_min, 5); }

std::string signed_percent(double ratio) { return (ratio >= 0 ? "+" : "") + with_decimals(100 * ratio, 3) + " %"; }

std::string set_working(const Screening& screening, const SampleResult& result, const ReadingSet& set) {
  return SetWorking(screening, result, set).text();
}

}  // namespace driftwarden
