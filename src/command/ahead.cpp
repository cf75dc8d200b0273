// SPDX-License-Identifier: MIT
#include <algorithm>

#include "command/ahead_asked.hpp"
#include "command/output.hpp"
#include "report/ahead_json.hpp"
#include "report/ahead_texts.hpp"
#include "verdict/outlook.hpp"
#include "workshop/rehearsal.hpp"
#include "workshop/spare_minutes.hpp"

namespace driftwarden {
namespace {

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

Outlook outlook_of(const OpenedBook& opened, const AheadOptions& options, const AheadSaid& said,
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
  if (outlook.minutes > longest_sampling_min()) return "no sample runs as long as its least volume would take";
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
  const std::optional<AheadSaid> said = what_was_said(options, surroundings);
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
