// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "verdict/air_ahead.hpp"
#include "verdict/calibrator_display.hpp"
#include "verdict/rules_ahead.hpp"

namespace driftwarden {

// A sample as it stands on a field sheet.
struct SheetSample {
  std::string name;
  std::string sampler;
  std::string medium;
  std::string nominal;  // "2.0 L/min"; "" where nobody says
  std::string method;
  std::string analysis;
  std::string window = {};  // how long it has to run, where a target is planned
};

// What a calibrator should show at one temperature: at each pressure the nominal flow and the band around it.
struct SheetShown {
  std::string nominal;  // "1.84"; "–" where it can't be worked out
  std::string band;     // "1.75 to 1.93"; "" without one
};
struct SheetRow {
  std::string temperature;  // "10 °C"; "any" where the air does not matter
  std::vector<SheetShown> at;
};

// What one calibrator should show for samples of one nominal flow under the same rules.
struct SheetGuide {
  std::string calibrator;
  std::string serial;
  std::string principle;
  std::string read_at;  // "read at the centre of the float"
  std::string flow;     // "2.000 L/min actual, 1.900 to 2.100"
  std::vector<std::string> samples;
  std::vector<std::string> pressures;  // headings of the columns; one, "any pressure", where it does not matter
  std::vector<SheetRow> rows;
  std::vector<std::string> notes;  // past due, no certificate, outside its points, what lacks
  std::vector<std::string> rules;  // those on the flow before sampling, in words
  bool asks_for_humidity = false;
};

// What one pump does on one day: one side of paper.
struct PumpDay {
  std::string pump;
  std::string serial;
  std::string day;                 // "" where nobody has said yet
  std::vector<std::string> notes;  // what speaks against using the pump
  std::vector<SheetSample> samples;
  std::vector<SheetGuide> guides;
  // What rules ask for; missing where none does.
  double warm_up_min = missing;
  double pre_age_max_min = missing;
  double post_age_max_min = missing;
  std::size_t pre_boxes = 0;
  std::size_t post_boxes = 0;
  std::size_t field_boxes = 0;
  bool asks_for_field_readings = false;
  bool asks_for_vacuum = false;
  bool asks_for_leak = false;
  bool asks_for_interruptions = false;
  bool asks_for_pressure_drop = false;
  bool asks_for_pulsation = false;
};

// The field sheets of a batch.
struct FieldSheets {
  std::string title;
  std::string batch;
  std::string as_of;
  std::string version;
  std::string paper;  // CSS size of the sheet, "A4"; "" leaves it to the printer
  std::string zone;
  std::string air;    // what the tables are made around, and where that is from
  std::string guard;  // a remark where the book narrows its limits; ""
  std::vector<PumpDay> sides;
  std::vector<SheetSample> blanks;
  std::vector<std::string> without_pump;  // samples that can't be put on a side
  std::vector<std::string> left_out;      // and whose name has gone to another: "S2, whose name stands in …"

  bool has_guides() const;
};

// What is asked for: the samples, the air and the calibrators; where none are named, those of the plan, else the one
// that was read with last.
struct SheetAsked {
  std::string batch;
  SamplesAhead ahead;
  AirExpected air;
  std::vector<Row> calibrators;
  Day as_of = no_day;
};
FieldSheets field_sheets(const Screening& screening, const SheetAsked& asked);

// A side of paper for each pump and day, to be printed and written on.
std::string field_sheets_page(const FieldSheets& sheets);

// Of each that is left out, why: "S2, whose name stands in samples.csv:12 already, in the batch 'B2'".
std::vector<std::string> left_out_texts(const Book& book, const SamplesAhead& ahead);
// "1.840": a display's figure with the decimals of its step.
std::string shown_text(const CalibratorDisplay& display, double shown_l_min);
// "1.750 to 1.930", "at least 1.750"; "" where there is no band, or none can be worked out.
std::string band_text(const CalibratorDisplay& display, const DisplayBand& band);
// Boxes for readings in between, where no rule asks for more.
inline constexpr std::size_t fewest_field_boxes = 3;
// "15 min", "2 h".
std::string duration_text(double minutes);
// A rule on the flow before sampling in a sentence: its limit, its consequence and its name.
std::string pre_rule_text(const Rule& rule);
// "read at the centre of the float"; "" where nobody says.
std::string read_at_text(const Instrument& calibrator);

}  // namespace driftwarden
