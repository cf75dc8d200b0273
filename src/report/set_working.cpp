// SPDX-License-Identifier: MIT
#include "report/set_working.hpp"

#include <algorithm>

#include "book/stamp_text.hpp"
#include "correction/principle.hpp"
#include "diagnostic/joined.hpp"
#include "quantity/rounding.hpp"
#include "report/paint.hpp"
#include "report/terminal_text.hpp"

namespace driftwarden {
namespace {

std::string celsius_text(double kelvin) {
  return is_missing(kelvin) ? "no temperature" : with_decimals(in_celsius(Temperature(kelvin)), 2) + " °C";
}
std::string kpa_text(double kpa) { return is_missing(kpa) ? "no pressure" : with_decimals(kpa, 3) + " kPa"; }

class SetWorking {
 public:
  SetWorking(const Screening& screening, const SampleResult& result, const ReadingSet& set, std::size_t& next_step)
      : screening_(screening),
        basis_(screening.basis()),
        book_(screening.book()),
        result_(result),
        set_(set),
        next_step_(next_step) {}

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
      text += kind_of(i.principle).scale;
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
    const std::string errors = joined(basis_.calibrators.curve(number), ", ", [](const ErrorPoint& point) {
      return signed_percent(point.error, 3) + " at " + flow_text(point.indication_l_min);
    });
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
    if (readings.is_void(row)) {
      return line("    void, left out of the mean: " + book_.texts.text(field(readings.note, row, TextId{0})));
    }
    if (readings.is_rejected(row)) return line("    rejected, left out: see the faults of the book");
    steps(row);
  }

  // Steps and sets are in one order: where a set of many is told, none is looked for from the beginning.
  const ReadingStep& step_of(Row row) {
    const std::vector<ReadingStep>& steps = result_.figures->steps;
    const auto first = steps.begin() + static_cast<std::ptrdiff_t>(next_step_);
    auto step = std::ranges::find(first, steps.end(), row, &ReadingStep::reading);
    if (step == steps.end()) step = std::ranges::find(steps.begin(), first, row, &ReadingStep::reading);
    next_step_ = static_cast<std::size_t>(step - steps.begin()) + 1;
    return *step;
  }

  void steps(Row row) {
    const ReadingStep& step = step_of(row);
    const CorrectedReading& c = step.corrected;
    if (step.certificate >= 0) {
      line("    certificate  " + flow_text(c.indicated_l_min) + " / (1 + " + with_decimals(c.certificate_error, 6) +
           ") = " + flow_text(c.after_certificate_l_min) + (c.is_outside_certificate ? "   (outside the points)" : ""));
    }
    principle_step(c, step.inputs);
  }

  void principle_step(const CorrectedReading& c, const FactorInputs& inputs) {
    const PrincipleKind& kind = kind_of(instrument().principle);
    const std::string name = "    " + left(to_text(kind.principle), 11) + "  ";
    const std::string result = " = " + flow_text(c.actual_l_min) + " L/min actual";
    if (is_missing(c.actual_l_min)) return line(name + "can't be corrected: conditions are missing");
    if (c.is_left_alone) {
      line(name + "x 1" + why_left_alone(kind) + result);
    } else {
      line(name + flow_text(c.after_certificate_l_min) + " x " + kind.formula(inputs) + " = x " +
           with_decimals(c.principle_factor, 6) + result);
    }
    const bool is_left_out = c.is_left_alone && !is_missing(c.humidity_effect);
    if (is_left_out) {
      line("    humidity     a correction to " +
           std::string(is_missing(inputs.humidity) ? "dry air" : "the ambient humidity") + " would change it by " +
           signed_percent(c.humidity_effect, 3) + "; not practised");
    }
  }

  std::string why_left_alone(const PrincipleKind& kind) const {
    if (kind.practice.empty()) return "";
    const PracticeChoice& chosen = screening_.rules().practice.at(std::string(kind.practice));
    return " (" + chosen.key() + " is '" + chosen.word() + "')";
  }

  void figures() {
    const MeanAndSpread& flow = set_.flow;
    if (set_.problem != no_problem) return line("No mean: a record that the set leans on can't be understood.");
    line("n = " + std::to_string(flow.n) + ", mean = " + flow_text(flow.mean) + " L/min, s (n - 1) = " +
         (is_missing(flow.s) ? "none"
                             : flow_text(flow.s) + " L/min = " + with_decimals(100 * flow.relative_s(), 3) + " %") +
         (flow.n == 0 ? "" : ", range = " + flow_text(flow.range()) + " L/min"));
  }

  const Screening& screening_;
  const AssessmentBasis& basis_;
  const Book& book_;
  const SampleResult& result_;
  const ReadingSet& set_;
  std::size_t& next_step_;
  std::string out_;
};

}  // namespace

std::string flow_text(double l_min) { return is_missing(l_min) ? "missing" : with_decimals(l_min, 5); }

std::string set_working(const Screening& screening, const SampleResult& result, const ReadingSet& set,
                        std::size_t& next_step) {
  return SetWorking(screening, result, set, next_step).text();
}

std::string practice_text(const Screening& screening, std::string_view key) {
  const auto found = screening.rules().practice.find(std::string(key));
  if (found == screening.rules().practice.end() || found->second.place.file.empty()) return "";
  const PracticeChoice& choice = found->second;
  return "Practice " + found->first + " = " + choice.word() + ", by " +
         (choice.pack.empty() ? "the book" : choice.pack) + ": " + choice.source_or_reason + " [" +
         to_text(choice.place) + "]";
}

}  // namespace driftwarden
