// SPDX-License-Identifier: MIT
#include "command/field_batch.hpp"

#include <algorithm>

#include "book/row_reader.hpp"
#include "book/table_files.hpp"
#include "diagnostic/suggestion.hpp"
#include "history/kits_out.hpp"

namespace driftwarden {
namespace {

void tell_unknown_name(const std::string& what, const std::string& name, const std::vector<std::string>& known,
                       Surroundings& surroundings) {
  tell(surroundings.err, {error("command/unknown-name", {"command line", 0, 0},
                                "the book has no " + what + " " + in_quotes(name), did_you_mean(name, known))});
}

// Air as it is said on the command line, within what a reading may state of it; nothing said is nothing, what can't be
// read or can't be is told. The option is called like the column of the readings.
bool read_said(const std::string& name, const std::string& text, const std::string& example,
               std::optional<double>& into, Surroundings& surroundings) {
  if (text.empty()) return true;
  const FieldSpec& field = readings_spec.fields[field_named(readings_spec, name)->number];
  const std::string option = "--" + name;
  const auto refuse = [&](const std::string& message, const std::string& hint) {
    tell(surroundings.err, {error("command/refused", {"command line", 0, 0}, message, hint)});
    return false;
  };
  const std::optional<Amount> amount = amount_of(text, field.dimension);
  if (!amount)
    return refuse(option + " is " + in_quotes(text) + ", which is no " + std::string(to_text(field.dimension)),
                  "write a figure with its unit, as in \"" + option + " '" + example + "'\"");
  if (!(amount->value >= field.least && amount->value <= field.most))
    return refuse(option + " is " + in_quotes(text) + ", which can't be",
                  plausible_text(field.least, field.most, customary_unit(field.dimension)) + "; is the unit right?");
  into = amount->value;
  return true;
}

// What goes out next under a name, else what went out last.
const KitOut* kit_named(const KitsOut& kits, const std::string& name) {
  const auto packed = std::ranges::find(kits.being_packed, name, &KitOut::kit);
  if (packed != kits.being_packed.end()) return &*packed;
  const KitOut* last = nullptr;
  for (const KitOut& kit : kits.out) {
    if (kit.kit() == name && (last == nullptr || kit.out() > last->out())) last = &kit;
  }
  return last;
}

std::vector<Row> instruments_in(const Book& book, const KitOut& kit, InstrumentKind kind) {
  std::vector<Row> rows;
  for (const Issue* thing : kit.things) {
    if (thing->instrument != no_row && book.instruments[thing->instrument].kind == kind)
      rows.push_back(thing->instrument);
  }
  return rows;
}

void tell_unknown_kit(const KitsOut& kits, const std::string& name, Surroundings& surroundings) {
  std::vector<std::string> known;
  for (const std::vector<KitOut>* all : {&kits.being_packed, &kits.out}) {
    for (const KitOut& kit : *all) known.push_back(kit.kit());
  }
  tell(surroundings.err,
       {error("command/unknown-name", {"command line", 0, 0},
              "no kit " + in_quotes(name) + " is out or being put together by issues.csv", did_you_mean(name, known))});
}

// Which names they are stands among the book's remarks.
void tell_names_taken(const std::string& what, const std::string& name, Surroundings& surroundings) {
  tell(surroundings.err, {error("command/refused", {"command line", 0, 0},
                                "every sample that plan.csv has for the " + what + " " + in_quotes(name) +
                                    " has a name that a sample of another batch has already",
                                "give them other names in plan.csv, or correct the batch that is wrong")});
}

}  // namespace

std::optional<SamplesAhead> kit_ahead(const OpenedBook& opened, const std::string& name, Surroundings& surroundings) {
  const KitsOut kits = kits_out(opened.book, opened.as_of);
  const KitOut* kit = kit_named(kits, name);
  if (kit == nullptr) return tell_unknown_kit(kits, name, surroundings), std::nullopt;
  SamplesAhead ahead = samples_planned_with(*opened.screening, instruments_in(opened.book, *kit, InstrumentKind::pump));
  if (ahead.samples.empty() && !ahead.left_out.empty())
    return tell_names_taken("kit", name, surroundings), std::nullopt;
  if (ahead.samples.empty()) {
    tell(surroundings.err,
         {error("command/refused", {"command line", 0, 0},
                "plan.csv has no sample that is still to be taken with a pump of kit " + in_quotes(name),
                "write under 'pump' of plan.csv which pumps its samples are taken with")});
    return std::nullopt;
  }
  const std::vector<Row> calibrators = instruments_in(opened.book, *kit, InstrumentKind::calibrator);
  for (SampleAhead& sample : ahead.samples) {
    if (sample.calibrator == no_row && calibrators.size() == 1) sample.calibrator = calibrators.front();
  }
  return ahead;
}

std::optional<SamplesAhead> batch_ahead(const OpenedBook& opened, const std::string& batch,
                                        Surroundings& surroundings) {
  SamplesAhead ahead = samples_ahead(*opened.screening, batch);
  if (!ahead.samples.empty() && !batch.empty()) return ahead;
  if (!ahead.left_out.empty()) return tell_names_taken("batch", batch, surroundings), std::nullopt;
  tell_unknown_name("batch", batch, batch_names(opened.book), surroundings);
  return std::nullopt;
}

std::optional<std::vector<Row>> calibrators_named(const Book& book, const std::vector<std::string>& names,
                                                  Surroundings& surroundings) {
  std::vector<std::string> known;
  for (const Instrument& instrument : book.instruments) {
    if (instrument.kind == InstrumentKind::calibrator) known.push_back(instrument.name);
  }
  std::vector<Row> rows;
  for (const std::string& name : names) {
    const auto found = std::find_if(book.instruments.begin(), book.instruments.end(), [&](const Instrument& it) {
      return it.kind == InstrumentKind::calibrator && it.name == name;
    });
    if (found == book.instruments.end())
      return tell_unknown_name("calibrator", name, known, surroundings), std::nullopt;
    rows.push_back(static_cast<Row>(found - book.instruments.begin()));
  }
  return rows;
}

std::optional<SaidAir> said_air(const AirOptions& options, Surroundings& surroundings) {
  SaidAir said;
  const bool is_read = read_said("temperature", options.temperature, "12 °C", said.temperature_k, surroundings) &&
                       read_said("pressure", options.pressure, "84.5 kPa", said.pressure_kpa, surroundings) &&
                       read_said("humidity", options.humidity, "40 %", said.humidity, surroundings);
  if (!is_read) return std::nullopt;
  return said;
}

}  // namespace driftwarden
