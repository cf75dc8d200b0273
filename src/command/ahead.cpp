// SPDX-License-Identifier: MIT
#include <algorithm>

#include "book/table_files.hpp"
#include "command/field_batch.hpp"
#include "command/output.hpp"
#include "diagnostic/suggestion.hpp"
#include "report/ahead_json.hpp"
#include "report/ahead_texts.hpp"
#include "workshop/rehearsal.hpp"

namespace driftwarden {
namespace {

// What is said on the command line of every sample that is asked for, read.
struct Said {
  double target_mg_m3 = missing;
  double expected_mg_m3 = missing;
  double flow_l_min = missing;
  double minutes = missing;
  SaidAir air;
};

Diagnostic refused(const std::string& message, const std::string& hint) {
  return error("command/refused", {"command line", 0, 0}, message, hint);
}

// An amount above 0; what can't be read is told.
bool read_amount(const std::string& option, const std::string& text, Dimension dimension, const std::string& example,
                 double& into, Surroundings& surroundings) {
  if (text.empty()) return true;
  const std::optional<Amount> amount = amount_of(text, dimension);
  if (amount && amount->value > 0) {
    into = amount->value;
    return true;
  }
  tell(surroundings.err,
       {refused(option + " is " + in_quotes(text) + ", which is no " + std::string(to_text(dimension)) + " above 0",
                "write a figure with its unit, as in \"" + option + " '" + example + "'\"")});
  return false;
}

std::optional<Said> what_was_said(const AheadOptions& options, Surroundings& surroundings) {
  Said said;
  const auto read = [&](const std::string& option, const std::string& text, Dimension dimension,
                        const std::string& example,
                        double& into) { return read_amount(option, text, dimension, example, into, surroundings); };
  const bool is_read = read("--target", options.target, Dimension::concentration, "0.05 mg/m3", said.target_mg_m3) &&
                       read("--expected", options.expected, Dimension::concentration, "1 mg/m3", said.expected_mg_m3) &&
                       read("--flow", options.flow, Dimension::flow, "2.0 L/min", said.flow_l_min) &&
                       read("--minutes", options.minutes, Dimension::time, "8 h", said.minutes);
  const std::optional<SaidAir> air = is_read ? said_air(options.air, surroundings) : std::nullopt;
  if (!air) return std::nullopt;
  said.air = *air;
  return said;
}

// A name of the command line among those that there are; false (told) where it is none of them.
template <class Names>
bool is_known(const std::string& what, const std::string& name, const Names& names, Surroundings& surroundings) {
  if (name.empty() || std::ranges::find(names, name) != std::end(names)) return true;
  tell(surroundings.err, {error("command/unknown-name", {"command line", 0, 0},
                                "the book has no " + what + " " + in_quotes(name), did_you_mean(name, names))});
  return false;
}

std::vector<std::string> names_of(const Book& book, InstrumentKind kind) {
  std::vector<std::string> names;
  for (const Instrument& instrument : book.instruments) {
    if (instrument.kind == kind) names.push_back(instrument.name);
  }
  return names;
}

bool are_known(const OpenedBook& opened, const AheadOptions& options, Surroundings& surroundings) {
  std::vector<std::string> samplers;
  for (const auto& [name, sampler] : opened.rules.samplers) samplers.push_back(name);
  const auto& methods = opened.rules.known_words[static_cast<std::size_t>(Selector::method)];
  return is_known("sampler", options.sampler, samplers, surroundings) &&
         is_known("pump", options.pump, names_of(opened.book, InstrumentKind::pump), surroundings) &&
         is_known("calibrator", options.calibrator, names_of(opened.book, InstrumentKind::calibrator), surroundings) &&
         is_known("method", options.method, std::vector<std::string>(methods.begin(), methods.end()), surroundings);
}

Row row_named(const Book& book, const std::string& name) {
  const auto found = std::ranges::find(book.instruments, name, &Instrument::name);
  return name.empty() ? no_row : static_cast<Row>(found - book.instruments.begin());
}

// The samples that are asked for: those of a batch, one of the plan, or one that only the command line describes.
std::optional<std::vector<SampleAhead>> samples_asked(const OpenedBook& opened, const AheadOptions& options,
                                                      Surroundings& surroundings) {
  if (!options.batch.empty()) {
    const std::optional<SamplesAhead> ahead = batch_ahead(opened, options.batch, surroundings);
    return ahead ? std::optional(ahead->samples) : std::nullopt;
  }
  if (options.sample.empty()) return std::vector<SampleAhead>(1);
  std::vector<std::string> names;
  for (const PlannedSample& plan : opened.book.plan) {
    names.push_back(plan.name);
    if (plan.name != options.sample) continue;
    for (const SampleAhead& sample : samples_ahead(*opened.screening, plan.batch).samples) {
      if (sample.name == plan.name) return std::vector{sample};
    }
  }
  is_known("planned sample", options.sample, names, surroundings);
  return std::nullopt;
}

// What the command line says wins over the plan.
void put_said(const OpenedBook& opened, const AheadOptions& options, const Said& said, SampleAhead& sample) {
  const auto take = [](const std::string& text, std::string& into) {
    if (!text.empty()) into = text;
  };
  const auto choose = [](double of_the_line, double& into) {
    if (!is_missing(of_the_line)) into = of_the_line;
  };
  const bool has_other_sampler = !options.sampler.empty() && options.sampler != sample.sampler;
  take(options.method, sample.method);
  take(options.analysis, sample.analysis);
  take(options.sampler, sample.sampler);
  choose(said.target_mg_m3, sample.target_mg_m3);
  choose(said.expected_mg_m3, sample.expected_mg_m3);
  if (!options.pump.empty()) sample.pump = row_named(opened.book, options.pump);
  if (!options.calibrator.empty()) sample.calibrator = row_named(opened.book, options.calibrator);
  if (sample.pump != no_row && sample.calibrator == no_row)
    sample.calibrator = calibrator_used_last(opened.book, opened.as_of);
  if (has_other_sampler) sample.nominal_l_min = nominal_flow(opened.rules, missing, sample.sampler);
  choose(said.flow_l_min, sample.nominal_l_min);
}

// How many samples the batch is to have that are no blanks: as said, else as planned, else the one that is asked for.
std::size_t samples_to_be(const OpenedBook& opened, const AheadOptions& options, const std::string& batch) {
  if (options.samples > 0) return static_cast<std::size_t>(options.samples);
  if (batch.empty()) return 1;
  const std::vector<SampleAhead> all = samples_ahead(*opened.screening, batch).samples;
  return static_cast<std::size_t>(
      std::ranges::count_if(all, [](const SampleAhead& sample) { return sample.kind == SampleKind::sample; }));
}

Outlook outlook_of(const OpenedBook& opened, const AheadOptions& options, const Said& said,
                   std::vector<SampleAhead> samples) {
  Outlook outlook;
  outlook.batch = options.batch;
  for (SampleAhead& sample : samples) {
    const bool is_taken = sample.is_recorded && !options.batch.empty();
    if (sample.kind == SampleKind::blank || is_taken) continue;
    put_said(opened, options, said, sample);
    const Day day = sample.day == no_day ? opened.as_of : sample.day;
    const Moment started = start_ahead(opened.book.settings, day);
    outlook.samples.push_back(sample_outlook(*opened.screening, {sample, sample.target_mg_m3, sample.expected_mg_m3},
                                             said.minutes, started, opened.as_of));
  }
  const MassFacts facts = outlook.samples.empty() ? MassFacts{} : outlook.samples.front().volume.facts;
  const std::string batch = samples.empty() ? options.batch : samples.front().batch;
  outlook.blanks = blanks_ahead(opened.rules, batch, samples_to_be(opened, options, batch), facts);
  return outlook;
}

// Why a sample can't be rehearsed; "" where it can.
std::string lacks_for_rehearsal(const SampleOutlook& outlook) {
  const SampleAhead& sample = outlook.asked.sample;
  if (sample.is_recorded) return "it is recorded already; 'driftwarden explain' shows its figures";
  if (sample.pump == no_row) return "no pump is said";
  if (sample.calibrator == no_row) return "no calibrator is said, and none was read with yet";
  if (is_missing(sample.nominal_l_min)) return "nobody says at which flow it is meant to run";
  if (is_missing(outlook.minutes)) return "nothing says how long it is to run: say --minutes";
  return {};
}

std::unique_ptr<Rehearsal> rehearse(const OpenedBook& opened, const AheadOptions& options, const Said& said,
                                    SampleOutlook& outlook) {
  outlook.why_not = lacks_for_rehearsal(outlook);
  if (!outlook.why_not.empty()) return nullptr;
  const AirExpected air = air_expected(*opened.screening, said.air, opened.as_of);
  auto rehearsal = Rehearsal::of(opened, {outlook.asked.sample, outlook.minutes, air.air, threads_of(options.book)});
  if (!rehearsal) {
    outlook.why_not = rehearsal.faults().front().message;
    return nullptr;
  }
  outlook.rehearsed = &(*rehearsal)->result();
  return *std::move(rehearsal);
}

}  // namespace

int run_ahead(const AheadOptions& options, Surroundings& surroundings) {
  const std::optional<Said> said = what_was_said(options, surroundings);
  if (!said) return cannot_be_used;
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr || !are_known(*opened, options, surroundings)) return cannot_be_used;
  if (!options.out.empty() && tell_over_the_book(opened->book, options.out, surroundings)) return cannot_be_used;
  std::optional<std::vector<SampleAhead>> samples = samples_asked(*opened, options, surroundings);
  const auto format = format_meant(options.format, options.out, {"table", "json"}, surroundings);
  if (!samples || !format) return cannot_be_used;
  Outlook outlook = outlook_of(*opened, options, *said, *std::move(samples));
  std::unique_ptr<Rehearsal> rehearsal;
  if (options.batch.empty()) rehearsal = rehearse(*opened, options, *said, outlook.samples.front());
  const std::string text = *format == "json" ? ahead_json(opened->book, outlook, opened->as_of, surroundings.version)
                                             : ahead_table(opened->book, outlook, opened->as_of);
  if (!write_out(text, *format, options.out, surroundings) || opened->has_faults()) return cannot_be_used;
  return outlook.is_amiss() ? something_is_amiss : all_is_well;
}

}  // namespace driftwarden
