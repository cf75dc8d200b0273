// SPDX-License-Identifier: MIT
#include "command/ahead_asked.hpp"

#include <algorithm>
#include <ostream>

#include "book/planned_name.hpp"
#include "book/row_reader.hpp"
#include "book/table_files.hpp"
#include "command/field_batch.hpp"
#include "diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

Diagnostic refused(const std::string& message, const std::string& hint) {
  return error("command/refused", {"command line", 0, 0}, message, hint);
}

// What a table of the book may state in a column.
const FieldSpec& column(const TableSpec& spec, std::string_view name) {
  return spec.fields[field_named(spec, name)->number];
}
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

}  // namespace

double longest_sampling_min() { return sampling_time().most; }

std::optional<AheadSaid> what_was_said(const AheadOptions& options, Surroundings& surroundings) {
  AheadSaid said;
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

std::optional<std::vector<SampleAhead>> samples_asked(const OpenedBook& opened, const AheadOptions& options,
                                                      Surroundings& surroundings) {
  if (!options.sample.empty()) return planned_asked(opened, options.sample, surroundings);
  if (options.batch.empty()) return std::vector<SampleAhead>(1);
  const std::optional<SamplesAhead> ahead = batch_ahead(opened, options.batch, surroundings);
  return ahead ? std::optional(ahead->samples) : std::nullopt;
}

void put_said(const OpenedBook& opened, const AheadOptions& options, const AheadSaid& said, SampleAhead& sample) {
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

}  // namespace driftwarden
