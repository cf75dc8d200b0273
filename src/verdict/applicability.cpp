// SPDX-License-Identifier: MIT
#include "verdict/applicability.hpp"

namespace driftwarden {
namespace {

FieldValue word(std::string_view text) { return {missing, text}; }
FieldValue figure(double value) { return {value, {}}; }

std::string_view name_of(const Book& book, Row instrument) {
  return instrument == no_row ? std::string_view() : std::string_view(book.instruments[instrument].name);
}

std::string_view yes_no_word(YesNo said) {
  return said == YesNo::unsaid ? std::string_view() : said == YesNo::yes ? "yes" : "no";
}

std::string_view fraction_of(std::string_view sampler, const std::map<std::string, Sampler>& samplers) {
  const auto found = samplers.find(std::string(sampler));
  return found == samplers.end() ? std::string_view() : std::string_view(found->second.fraction);
}

FieldValue sample_field(std::string_view name, const SampleContext& context,
                        const std::map<std::string, Sampler>& samplers) {
  const Book& book = context.basis.book;
  const SampleTable& s = book.samples;
  const Row row = context.figures.sample;
  const auto text = [&](const Column<TextId>& column) { return word(book.texts.text(field(column, row, TextId{0}))); };
  if (name == "kind") return word(to_text(context.figures.kind));
  if (name == "batch") return text(s.batch);
  if (name == "pump") return word(name_of(book, s.pump[row]));
  if (name == "sampler") return text(s.sampler);
  if (name == "fraction") return word(fraction_of(text(s.sampler).word, samplers));
  if (name == "nominal") return figure(context.figures.nominal_l_min);
  if (name == "method") return text(s.method);
  if (name == "analysis") return text(s.analysis);
  if (name == "paused") return figure(field(s.paused_min, row));
  if (name == "warm-up") return figure(field(s.warm_up_min, row));
  if (name == "temperature") return figure(field(s.temperature_k, row));
  if (name == "pressure") return figure(field(s.pressure_kpa, row));
  if (name == "fault") return word(yes_no_word(field(s.fault, row, YesNo::unsaid)));
  return {};
}

FieldValue set_field(std::string_view name, const SampleContext& context, const ReadingSet& set) {
  const Book& book = context.basis.book;
  const Row calibrator = set.rows.calibrator;
  if (name == "stage") return word(to_text(set.rows.stage));
  if (name == "principle")
    return calibrator == no_row ? FieldValue{} : word(to_text(book.instruments[calibrator].principle));
  if (name == "calibrator") return word(name_of(book, calibrator));
  if (name == "pump") return word(name_of(book, book.samples.pump[context.figures.sample]));
  if (name == "sampler") {
    return word(book.texts.text(field(book.samples.sampler, context.figures.sample, TextId{0})));
  }
  return {};
}

FieldValue reading_field(std::string_view name, const SampleContext& context, const ReadingSet& set, Row reading) {
  const Book& book = context.basis.book;
  if (name == "by") return word(book.texts.text(field(book.readings.by, reading, TextId{0})));
  if (name == "sampler") {
    const TextId own = field(book.readings.sampler, reading, TextId{0});
    if (own != 0) return word(book.texts.text(own));
  }
  return set_field(name, context, set);
}

// All conditions hold: yes. One surely doesn't: no. Else unknown.
template <class ValueOf>
Applies all_apply(const Rule& rule, ValueOf value_of) {
  Applies so_far = Applies::yes;
  for (const Condition& condition : rule.where) {
    const Applies one = applies(condition, value_of(condition.field));
    if (one == Applies::no) return Applies::no;
    if (one == Applies::unknown) so_far = Applies::unknown;
  }
  return so_far;
}

bool speaks_of_kind(const Rule& rule) {
  for (const Condition& condition : rule.where) {
    if (condition.field == "kind") return true;
  }
  return false;
}

}  // namespace

Applies applies_to_sample(const Rule& rule, const SampleContext& context,
                          const std::map<std::string, Sampler>& samplers) {
  if (context.figures.kind == SampleKind::blank && !speaks_of_kind(rule)) return Applies::no;
  if (rule.where.empty()) return Applies::yes;
  return all_apply(rule, [&](std::string_view name) { return sample_field(name, context, samplers); });
}

Applies condition_applies(const Condition& condition, const SampleContext& context,
                          const std::map<std::string, Sampler>& samplers) {
  return applies(condition, sample_field(condition.field, context, samplers));
}

Applies applies_to_result(const Rule& rule, const SampleContext& context, const ResultContext& result,
                          const std::map<std::string, Sampler>& samplers) {
  return all_apply(rule, [&](std::string_view name) {
    if (name == "analyte") return word(result.result().analyte);
    if (name == "amount") return word(amount_words[result.result().is_of_fibres ? 1 : 0]);
    return sample_field(name, context, samplers);
  });
}

Applies applies_to_set(const Rule& rule, const SampleContext& context, const ReadingSet& set) {
  return all_apply(rule, [&](std::string_view name) { return set_field(name, context, set); });
}

Applies applies_to_reading(const Rule& rule, const SampleContext& context, const ReadingSet& set, Row reading) {
  return all_apply(rule, [&](std::string_view name) { return reading_field(name, context, set, reading); });
}

}  // namespace driftwarden
