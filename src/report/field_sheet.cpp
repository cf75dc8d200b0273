// SPDX-License-Identifier: MIT
#include "report/field_sheet.hpp"

#include <algorithm>
#include <cmath>

#include "book/planned_name.hpp"
#include "book/stamp_text.hpp"
#include "quantity/number.hpp"
#include "quantity/rounding.hpp"
#include "report/printed_figures.hpp"
#include "report/window_words.hpp"
#include "verdict/against_use.hpp"
#include "verdict/readings_ahead.hpp"

namespace driftwarden {
namespace {

constexpr double celsius_step = 5;
constexpr double kpa_step = 1;

std::string flow_text(double l_min) { return with_decimals(l_min, 3); }

std::string range_text(const std::string& low, const std::string& high) {
  if (low.empty() && high.empty()) return {};
  if (low.empty()) return "at most " + high;
  return high.empty() ? "at least " + low : low + " to " + high;
}

std::string finite_text(double l_min) { return std::isfinite(l_min) ? flow_text(l_min) : std::string(); }

std::string lack_text(FactorLack lack) {
  switch (lack) {
    case FactorLack::temperature:
      return "No temperature is known beforehand: give one with --temperature.";
    case FactorLack::pressure:
      return "No pressure is known beforehand: give one with --pressure.";
    case FactorLack::humidity:
      return "No humidity is known beforehand: give one with --humidity.";
    case FactorLack::scale_conditions:
      return "The instruments' file does not say what its scale was drawn for.";
    case FactorLack::nothing:
      break;
  }
  return {};
}

// The table of one calibrator for one nominal flow.
class GuideMaker {
 public:
  GuideMaker(const Screening& screening, const AirExpected& air, Row calibrator, Day on, int temperatures_each_side)
      : book_(screening.book()),
        air_(air.air),
        calibrator_(book_.instruments[calibrator]),
        display_(screening, calibrator, on),
        temperatures_each_side_(temperatures_each_side) {}

  SheetGuide guide(double nominal_l_min, const RulesAhead& rules) {
    SheetGuide made;
    made.calibrator = calibrator_.name;
    made.serial = calibrator_.serial;
    made.principle = to_text(calibrator_.principle);
    made.asks_for_humidity = needs_humidity(calibrator_.principle);
    made.read_at = read_at_text(calibrator_);
    const FlowBand band = rules.pre_band();
    const std::string limits = range_text(finite_text(band.low_l_min), finite_text(band.high_l_min));
    made.flow = flow_text(nominal_l_min) + " L/min actual flow" + (limits.empty() ? "" : ", " + limits);
    fill_table(made, nominal_l_min, band);
    add_notes(made, nominal_l_min, band);
    for (const PreFlowRule& rule : rules.pre_flow) made.rules.push_back(pre_rule_text(*rule.rule));
    return made;
  }

 private:
  void fill_table(SheetGuide& made, double nominal_l_min, const FlowBand& band) {
    const bool has_air = !is_missing(air_.temperature_k) && !is_missing(air_.pressure_kpa);
    const std::vector<double> kelvins =
        has_air ? around(air_.temperature_k, celsius_step, temperatures_each_side_) : std::vector<double>{missing};
    const std::vector<double> kpas = has_air ? around(air_.pressure_kpa, kpa_step, 1) : std::vector<double>{missing};
    for (const double kelvin : kelvins) {
      SheetRow row{shortest_celsius(kelvin), {}};
      for (const double kpa : kpas) row.at.push_back(shown_at({kelvin, kpa, air_.humidity}, nominal_l_min, band));
      made.rows.push_back(std::move(row));
    }
    for (const double kpa : kpas) made.pressures.push_back(shortest_kpa(kpa));
    leave_out_what_is_alike(made);
  }

  SheetShown shown_at(const AirAhead& air, double nominal_l_min, const FlowBand& band) {
    const DisplayBand shown = display_.should_show(nominal_l_min, band, air);
    const std::string nominal = shown_text(display_, shown.nominal);
    return {nominal.empty() ? "–" : nominal, band_text(display_, shown)};
  }

  static bool are_alike(const SheetShown& a, const SheetShown& b) { return a.nominal == b.nominal && a.band == b.band; }

  // One column where the pressure does not matter, and one row where the temperature doesn't either.
  static void leave_out_what_is_alike(SheetGuide& made) {
    const bool columns_are = std::all_of(made.rows.begin(), made.rows.end(), [](const SheetRow& row) {
      return std::all_of(row.at.begin(), row.at.end(), [&](const SheetShown& it) { return are_alike(it, row.at[0]); });
    });
    if (columns_are) {
      for (SheetRow& row : made.rows) row.at.resize(1);
      made.pressures = {"any pressure"};
    }
    const bool rows_are = std::all_of(made.rows.begin(), made.rows.end(), [&](const SheetRow& row) {
      return std::equal(row.at.begin(), row.at.end(), made.rows[0].at.begin(), are_alike);
    });
    if (!rows_are) return;
    made.rows.resize(1);
    made.rows[0].temperature = "any temperature";
  }

  void add_notes(SheetGuide& made, double nominal_l_min, const FlowBand& band) {
    const DisplayBand shown = display_.should_show(nominal_l_min, band, air_);
    if (shown.lack != FactorLack::nothing) made.notes.push_back(lack_text(shown.lack));
    if (shown.is_outside_certificate)
      made.notes.emplace_back("Outside the points of its certificate: the nearest one's error is taken.");
    if (shown.has_no_step) made.notes.emplace_back("No step of its display keeps the rules.");
    if (const BeyondRange beyond = beyond_range(calibrator_, shown.nominal); beyond.l_min > 0)
      made.notes.emplace_back("Outside the range of the calibrator.");
    if (!display_.has_own_step())
      made.notes.emplace_back("Its smallest step is not on record; figures are to 0.001 L/min.");
  }

  static std::string shortest_celsius(double kelvin) {
    return is_missing(kelvin) ? "?" : shortest_to(kelvin - zero_celsius_in_kelvin, 1) + " °C";
  }
  static std::string shortest_kpa(double kpa) { return is_missing(kpa) ? "?" : shortest_to(kpa, 2) + " kPa"; }
  // With at most so many decimals.
  static std::string shortest_to(double figure, int decimals) {
    std::string text = with_decimals(figure, decimals);
    if (text.find('.') == std::string::npos) return text;
    text.erase(text.find_last_not_of('0') + 1);
    if (text.ends_with('.')) text.pop_back();
    return text;
  }

  const Book& book_;
  const AirAhead& air_;
  const Instrument& calibrator_;
  CalibratorDisplay display_;
  int temperatures_each_side_;
};

class SheetMaker {
 public:
  SheetMaker(const Screening& screening, const SheetAsked& asked)
      : screening_(screening), book_(screening.book()), asked_(asked), habit_(book_, asked.as_of) {}

  FieldSheets sheets() {
    sheets_.title = book_.settings.title;
    sheets_.batch = asked_.batch;
    sheets_.as_of = date_text(asked_.as_of);
    sheets_.zone = book_.settings.zone_name;
    sheets_.air = air_words();
    if (screening_.guard() > 0)
      sheets_.guard = "This book narrows its limits by " + shortest(screening_.guard()) +
                      " × U, which is not known before the readings: keep well inside the band.";
    for (const SampleAhead& sample : asked_.ahead.samples) add(sample);
    sheets_.left_out = left_out_texts(book_, asked_.ahead);
    return std::move(sheets_);
  }

 private:
  std::string air_words() const {
    const AirExpected& air = asked_.air;
    std::string words;
    const auto add = [&words](std::string_view what, const std::string& from) {
      if (!from.empty()) words += (words.empty() ? "" : "; ") + std::string(what) + " " + from;
    };
    add("Temperature", air.temperature_from);
    add("pressure", air.pressure_from);
    return words.empty() ? "" : words + ", and around it.";
  }

  void add(const SampleAhead& sample) {
    if (sample.kind == SampleKind::blank) {
      sheets_.blanks.push_back(on_sheet(sample));
    } else if (sample.pump == no_row) {
      sheets_.without_pump.push_back(sample.name);
    } else {
      add_to(side_of(sample), sample);
    }
  }

  static SheetSample on_sheet(const SampleAhead& sample) {
    const std::string nominal = is_missing(sample.nominal_l_min) ? "" : shortest(sample.nominal_l_min) + " L/min";
    return {sample.name, sample.sampler, sample.medium, nominal, sample.method, sample.analysis, {}};
  }

  PumpDay& side_of(const SampleAhead& sample) {
    const Instrument& pump = book_.instruments[sample.pump];
    const std::string day = date_text(sample.day);
    const auto found = std::find_if(sheets_.sides.begin(), sheets_.sides.end(),
                                    [&](const PumpDay& side) { return side.pump == pump.name && side.day == day; });
    if (found != sheets_.sides.end()) return *found;
    PumpDay side;
    side.pump = pump.name;
    side.serial = pump.serial;
    side.day = day;
    side.notes = against_use(screening_, sample.pump, day_of(sample), asked_.as_of);
    sheets_.sides.push_back(std::move(side));
    return sheets_.sides.back();
  }

  void add_to(PumpDay& side, const SampleAhead& sample) {
    side.samples.push_back(on_sheet(sample));
    for (const Row calibrator : calibrators_for(sample)) {
      const RulesAhead rules = rules_ahead(screening_, sample, calibrator);
      note_rules(side, rules, habit_.of(calibrator));
      if (side.samples.back().window.empty()) side.samples.back().window = window_of(sample, rules);
      if (calibrator == no_row) continue;
      is_missing(sample.nominal_l_min) ? add_notes(side, sample, calibrator)
                                       : add_guide(side, sample, calibrator, rules);
    }
  }

  std::string window_of(const SampleAhead& sample, const RulesAhead& rules) const {
    const VolumeAsked asked{sample, sample.target_mg_m3, sample.expected_mg_m3, asked_.air.air};
    return window_text(asked, volume_ahead(screening_, asked, rules));
  }

  // Of a calibrator that has no table to stand beside.
  void add_notes(PumpDay& side, const SampleAhead& sample, Row calibrator) const {
    for (const std::string& against : against_use(screening_, calibrator, day_of(sample), asked_.as_of)) {
      const std::string note = book_.instruments[calibrator].name + ": " + against;
      if (std::ranges::find(side.notes, note) == side.notes.end()) side.notes.push_back(note);
    }
  }

  // Where nobody knows one it is no_row: rules ask for their readings all the same.
  std::vector<Row> calibrators_for(const SampleAhead& sample) const {
    if (!asked_.calibrators.empty()) return asked_.calibrators;
    return {sample.calibrator != no_row ? sample.calibrator : calibrator_used_last(book_, asked_.as_of)};
  }

  Day day_of(const SampleAhead& sample) const { return sample.day == no_day ? asked_.as_of : sample.day; }

  void add_guide(PumpDay& side, const SampleAhead& sample, Row calibrator, const RulesAhead& rules) {
    const Day on = day_of(sample);
    SheetGuide guide = GuideMaker(screening_, asked_.air, calibrator, on, asked_.calibrators.size() > 1 ? 1 : 2)
                           .guide(sample.nominal_l_min, rules);
    const std::vector<std::string> against = against_use(screening_, calibrator, on, asked_.as_of);
    guide.notes.insert(guide.notes.begin(), against.begin(), against.end());
    const auto like = std::find_if(side.guides.begin(), side.guides.end(), [&](const SheetGuide& it) {
      return it.calibrator == guide.calibrator && it.flow == guide.flow && it.rules == guide.rules;
    });
    SheetGuide& kept = like != side.guides.end() ? *like : side.guides.emplace_back(std::move(guide));
    kept.samples.push_back(sample.name);
  }

  static void note_rules(PumpDay& side, const RulesAhead& rules, int usual) {
    side.pre_boxes = std::max(side.pre_boxes, readings_ahead(rules.pre_count, usual));
    side.post_boxes = std::max(side.post_boxes, readings_ahead(rules.post_count, usual));
    side.field_boxes = std::max({side.field_boxes, fewest_field_boxes, static_cast<std::size_t>(rules.field_count)});
    side.asks_for_field_readings |= rules.field_count > 0;
    side.asks_for_vacuum |= rules.asks_for_vacuum;
    side.asks_for_leak |= rules.asks_for_leak;
    side.asks_for_interruptions |= rules.asks_for_interruptions;
    side.asks_for_pressure_drop |= rules.asks_for_pressure_drop;
    side.asks_for_pulsation |= rules.asks_for_pulsation;
    side.warm_up_min = std::fmax(side.warm_up_min, rules.warm_up_min);
    side.pre_age_max_min = std::fmin(side.pre_age_max_min, rules.pre_age_max_min);
    side.post_age_max_min = std::fmin(side.post_age_max_min, rules.post_age_max_min);
  }

  const Screening& screening_;
  const Book& book_;
  const SheetAsked& asked_;
  const ReadingHabit habit_;
  FieldSheets sheets_;
};

}  // namespace

bool FieldSheets::has_guides() const {
  return std::any_of(sides.begin(), sides.end(), [](const PumpDay& side) { return !side.guides.empty(); });
}

FieldSheets field_sheets(const Screening& screening, const SheetAsked& asked) {
  return SheetMaker(screening, asked).sheets();
}

std::vector<std::string> left_out_texts(const Book& book, const SamplesAhead& ahead) {
  std::vector<std::string> texts;
  for (const PlannedSample* planned : ahead.left_out)
    texts.push_back(planned->name + ", whose name " + name_taken_text(book, *planned));
  return texts;
}

std::string shown_text(const CalibratorDisplay& display, double shown_l_min) {
  return with_decimals(shown_l_min, display.decimals());
}

std::string band_text(const CalibratorDisplay& display, const DisplayBand& band) {
  return range_text(shown_text(display, band.low), shown_text(display, band.high));
}

std::string duration_text(double minutes) {
  const bool is_in_hours = minutes >= 120 && std::fmod(minutes, 60) == 0;
  return is_in_hours ? shortest(minutes / 60) + " h" : shortest(minutes) + " min";
}

std::string pre_rule_text(const Rule& rule) {
  std::string text = rule.limit.text;
  if (is_from_nominal(rule)) text += " of the nominal flow";
  return text + ", else " + std::string(to_text(outcome_of(rule.otherwise))) + " (" + rule.full_name() + ")";
}

std::string read_at_text(const Instrument& calibrator) {
  if (calibrator.read_at == ReadAt::unknown) return {};
  return "read at the " + std::string(to_text(calibrator.read_at)) + " of the float";
}

}  // namespace driftwarden
