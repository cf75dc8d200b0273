// SPDX-License-Identifier: MIT
#include <algorithm>

#include "book/planned_name.hpp"
#include "book/row_reader.hpp"
#include "book/table_files.hpp"
#include "command/field_batch.hpp"
#include "command/output.hpp"
#include "diagnostic/suggestion.hpp"
#include "report/ahead_json.hpp"
#include "report/ahead_texts.hpp"
#include "workshop/rehearsal.hpp"
#include "workshop/spare_minutes.hpp"

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

// What a table of the book may state in a column.
const FieldSpec& column(const TableSpec& spec, std::string_view name) {
  return spec.fields[field_named(spec, name)->number];
}
// No sampling time is longer than a time that samples.csv may state.
const FieldSpec& sampling_time() { return column(samples_spec, "paused"); }

// An amount above 0 that a table of the book might state, too; what can't be read or can't be is told.
bool read_amount(const std::string& option, const std::string& text, const FieldSpec& field, const std::string& example,
                 double& into, Surroundings& surroundings) {
  if (text.empty()) return true;
  const std::optional<Amount> amount = amount_of(text, field.dimension);
  const auto refuse = [&](const std::string& why, const std::string& hint) {
    tell(surroundings.err, {refused(option + " is " + in_quotes(text) + ", which " + why, hint)});
    return false;
  };
  if (!amount || !(amount->value > 0))
    return refuse("is no " + std::string(to_text(field.dimension)) + " above 0",
                  "write a figure with its unit, as in \"" + option + " '" + example + "'\"");
  if (!(amount->value >= field.least && amount->value <= field.most))
    return refuse("can't be",
                  plausible_text(field.least, field.most, customary_unit(field.dimension)) + "; is the unit right?");
  into = amount->value;
  return true;
}

std::optional<Said> what_was_said(const AheadOptions& options, Surroundings& surroundings) {
  Said said;
  const auto read = [&](const std::string& option, const std::string& text, const FieldSpec& field,
                        const std::string& example,
                        double& into) { return read_amount(option, text, field, example, into, surroundings); };
  const bool is_read =
      read("--target", options.target, column(plan_spec, "target"), "0.05 mg/m3", said.target_mg_m3) &&
      read("--expected", options.expected, column(plan_spec, "expected"), "1 mg/m3", said.expected_mg_m3) &&
      read("--flow", options.flow, column(plan_spec, "nominal"), "2.0 L/min", said.flow_l_min) &&
      read("--minutes", options.minutes, sampling_time(), "8 h", said.minutes);
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
  const auto words = [&opened](Selector of) {
    const auto& known = opened.rules.known_words[static_cast<std::size_t>(of)];
    return std::vector<std::string>(known.begin(), known.end());
  };
  return is_known("sampler", options.sampler, samplers, surroundings) &&
         is_known("pump", options.pump, names_of(opened.book, InstrumentKind::pump), surroundings) &&
         is_known("calibrator", options.calibrator, names_of(opened.book, InstrumentKind::calibrator), surroundings) &&
         is_known("method", options.method, words(Selector::method), surroundings) &&
         is_known("analysis", options.analysis, words(Selector::analysis), surroundings);
}

Row row_named(const Book& book, const std::string& name) {
  const auto found = std::ranges::find(book.instruments, name, &Instrument::name);
  return name.empty() ? no_row : static_cast<Row>(found - book.instruments.begin());
}

// Why nothing can be said of a planned sample by itself, with what to do; nothing where it can.
std::optional<Diagnostic> refusal(const Book& book, const PlannedSample& plan, const SampleAhead* found) {
  if (found == nullptr)
    return refused("the planned sample " + in_quotes(plan.name) + " " + name_taken_text(book, plan),
                   "give it another name in plan.csv, or correct the batch that is wrong");
  if (found->kind != SampleKind::blank) return std::nullopt;
  return refused("the planned sample " + in_quotes(plan.name) + " is a blank, and no air is planned of a blank",
                 "'--batch " + plan.batch + "' says how many blanks go with the samples of its batch");
}

std::optional<std::vector<SampleAhead>> planned_asked(const OpenedBook& opened, const std::string& name,
                                                      Surroundings& surroundings) {
  const std::vector<PlannedSample>& all = opened.book.plan;
  const auto plan = std::ranges::find(all, name, &PlannedSample::name);
  if (plan == all.end()) {
    std::vector<std::string> names;
    for (const PlannedSample& each : all) names.push_back(each.name);
    is_known("planned sample", name, names, surroundings);
    return std::nullopt;
  }
  const std::vector<SampleAhead> of_batch = samples_ahead(*opened.screening, plan->batch).samples;
  const auto found = std::ranges::find(of_batch, name, &SampleAhead::name);
  const SampleAhead* sample = found == of_batch.end() ? nullptr : &*found;
  if (const auto why = refusal(opened.book, *plan, sample)) return tell(surroundings.err, {*why}), std::nullopt;
  return std::vector{*sample};
}

// The samples that are asked for: those of a batch, one of the plan, or one that only the command line describes.
std::optional<std::vector<SampleAhead>> samples_asked(const OpenedBook& opened, const AheadOptions& options,
                                                      Surroundings& surroundings) {
  if (!options.sample.empty()) return planned_asked(opened, options.sample, surroundings);
  if (options.batch.empty()) return std::vector<SampleAhead>(1);
  const std::optional<SamplesAhead> ahead = batch_ahead(opened, options.batch, surroundings);
  return ahead ? std::optional(ahead->samples) : std::nullopt;
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

bool is_blank(const SampleAhead& sample) { return sample.kind == SampleKind::blank; }

// The samples of a batch that are no blanks, with those that are asked for as they are by the command line; these
// alone where they have no batch.
std::vector<SampleAhead> samples_with(const OpenedBook& opened, const std::vector<SampleAhead>& asked) {
  const std::string batch = asked.empty() ? "" : asked.front().batch;
  if (batch.empty()) return asked;
  std::vector<SampleAhead> all = samples_ahead(*opened.screening, batch).samples;
  for (SampleAhead& sample : all) {
    const auto as_asked = std::ranges::find(asked, sample.name, &SampleAhead::name);
    if (as_asked != asked.end()) sample = *as_asked;
  }
  std::erase_if(all, is_blank);
  return all;
}

// As many blanks as the batch needs for the samples that it is to have: as said, else those that there are.
BlanksAhead blanks_of(const OpenedBook& opened, const AheadOptions& options, const std::vector<SampleAhead>& asked) {
  const std::vector<SampleAhead> samples = samples_with(opened, asked);
  std::vector<MassFacts> facts;
  for (const SampleAhead& sample : samples)
    facts.push_back(facts_of(opened.rules.facts, sample.method, sample.analysis));
  const std::size_t count = options.samples > 0 ? static_cast<std::size_t>(options.samples) : samples.size();
  const std::string batch = asked.empty() ? options.batch : asked.front().batch;
  return blanks_ahead(opened.rules, batch, count, enough_blanks(facts));
}

Outlook outlook_of(const OpenedBook& opened, const AheadOptions& options, const Said& said,
                   std::vector<SampleAhead> samples) {
  Outlook outlook;
  outlook.batch = options.batch;
  outlook.is_of_blanks = std::ranges::all_of(samples, is_blank);
  const AirAhead air = air_expected(*opened.screening, said.air, opened.as_of).air;
  for (SampleAhead& sample : samples) {
    const bool is_taken = sample.is_recorded && !options.batch.empty();
    if (is_blank(sample) || is_taken) continue;
    put_said(opened, options, said, sample);
    const Day day = sample.day == no_day ? opened.as_of : sample.day;
    const Moment started = start_ahead(opened.book.settings, day);
    outlook.samples.push_back(sample_outlook(*opened.screening,
                                             {sample, sample.target_mg_m3, sample.expected_mg_m3, air}, said.minutes,
                                             started, opened.as_of));
  }
  outlook.blanks = blanks_of(opened, options, samples);
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
  if (outlook.minutes > sampling_time().most) return "no sample runs as long as its least volume would take";
  return {};
}

std::unique_ptr<Rehearsal> rehearse(const OpenedBook& opened, const AheadOptions& options, SampleOutlook& outlook) {
  outlook.why_not = lacks_for_rehearsal(outlook);
  if (!outlook.why_not.empty()) return nullptr;
  const RehearsalAsked asked{outlook.asked.sample, outlook.minutes, outlook.asked.air, threads_of(options.book)};
  auto rehearsal = Rehearsal::of(opened, asked);
  if (!rehearsal) {
    outlook.why_not = rehearsal.faults().front().message;
    return nullptr;
  }
  outlook.rehearsed = &(*rehearsal)->result();
  outlook.spare_minutes = spare_minutes(opened, asked, outlook.volume);
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
  if (options.batch.empty()) rehearsal = rehearse(*opened, options, outlook.samples.front());
  const std::string text = *format == "json" ? ahead_json(opened->book, outlook, opened->as_of, surroundings.version)
                                             : ahead_table(opened->book, outlook, opened->as_of);
  if (!write_out(text, *format, options.out, surroundings) || opened->has_faults()) return cannot_be_used;
  return outlook.is_amiss() ? something_is_amiss : all_is_well;
}

}  // namespace driftwarden
