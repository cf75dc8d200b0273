// SPDX-License-Identifier: MIT
#include "verdict/message.hpp"

#include <algorithm>

#include "book/stamp_text.hpp"
#include "quantity/rounding.hpp"
#include "verdict/applicability.hpp"
#include "verdict/lack.hpp"

namespace driftwarden {
namespace {

const Rule& rule_of(const Screening& screening, const Finding& finding) {
  return screening.rules().rules[finding.rule];
}

std::string in_l_min(double flow_l_min) { return with_decimals(flow_l_min, 3) + " L/min"; }

// What a finding about a sample, or a set or reading of it, may name in its sentence.
class SampleNames {
 public:
  SampleNames(const Screening& screening, const SampleResult& result, const Finding& finding)
      : screening_(screening),
        book_(screening.book()),
        result_(result),
        figures_(*result.figures),
        finding_(finding),
        rule_(screening.rules().rules[finding.rule]),
        context_(screening.context(figures_, result.budget)) {}

  std::optional<std::string> value_of(std::string_view name) const {
    const SampleTable& samples = book_.samples;
    const Row row = figures_.sample;
    if (name == "sample") return std::string(samples.name[row]);
    if (name == "sampler") return book_.texts.text(field(samples.sampler, row, TextId{0}));
    if (name == "batch") return book_.texts.text(field(samples.batch, row, TextId{0}));
    if (name == "pump") return samples.pump[row] == no_row ? "" : book_.instruments[samples.pump[row]].name;
    if (name == "calibrator") return calibrators();
    if (name == "analyte") return of_laboratory().result().analyte;
    if (name == "blanks") return blanks_above_limit();
    if (name == "balance") return of_laboratory().result().balance;
    if (name == "taken_off")
      return std::string(texts().taken_off[of_laboratory().figures.taken_off == TakenOff::controls ? 1 : 0]);
    if (name == "set") return std::string(texts().sets[static_cast<std::size_t>(stage())]);
    if (name == "reading") return book_.place_text(book_.files.readings, book_.readings.place[finding_.about]);
    if (name == "flow") return in_l_min(value().flow_l_min);
    if (name == "from") return in_l_min(value().from_l_min);
    if (name == "beside") return std::string(texts().beside[base()]);
    if (name == "of_mean") return std::string(rule_.limit.is_absolute ? "" : texts().of_their_mean);
    if (name == "of_dusts") return std::string(is_one(aerosols_of(book_.settings)) ? "" : texts().of_dusts);
    if (name == "other") return std::string(samples.name[context_.overlap.with]);
    if (name == "period") return period();
    if (name == "seen") return seen();
    if (name == "base") return std::string(texts().bases[base()]);
    if (name == "of_base") return std::string(rule_.limit.is_absolute ? "" : texts().of_bases[base()]);
    if (name == "why") return why();
    return std::nullopt;
  }

  std::string_view word() const {
    if (measure_of(rule_).kind == MeasureKind::number) return "";
    if (rule_.of == Subject::result)
      return result_measure(of_laboratory(), static_cast<ResultMeasure>(rule_.measure)).word;
    return sample_measure(context_, static_cast<SampleMeasure>(rule_.measure), rule_.base).word;
  }
  std::string own_words() const {
    if (rule_.of == Subject::result || word() != "no") return "";
    return driftwarden::own_words(context_, static_cast<SampleMeasure>(rule_.measure), texts());
  }

  // Of readings that a count leaves out.
  std::size_t struck_out() const {
    std::size_t count = 0;
    for (const ReadingSet& each : figures_.sets) {
      if (is_counted(each)) count += each.voided;
    }
    return count;
  }

 private:
  const Texts& texts() const { return screening_.texts(); }

  // The result that a finding about one is about.
  ResultContext of_laboratory() const { return {book_, result_.results[finding_.about]}; }

  // "B1 (0.031 mg, limit 0.03 mg)", of those that carry more than their limit.
  std::string blanks_above_limit() const {
    std::string text;
    for (const std::uint32_t number : of_laboratory().figures.blanks->results) {
      const LaboratoryResult& blank = book_.results[number];
      if (!is_above_limit(blank)) continue;
      const std::string unit = blank.is_of_fibres ? " fibres" : " mg";
      text += (text.empty() ? "" : std::string(texts().and_)) + std::string(book_.samples.name[blank.sample]) + " (" +
              shortest(number_from(with_significant_digits(blank.found, 4)).value_or(blank.found)) + unit + ", limit " +
              shortest(blank.limit) + unit + ")";
    }
    return text;
  }

  // The set that a finding about a set or a reading is about.
  const ReadingSet* set() const {
    if (rule_.of == Subject::result) return nullptr;
    if (rule_.of == Subject::set) return &figures_.sets[finding_.about];
    for (const ReadingSet& set : figures_.sets) {
      const std::span<const Row> rows = figures_.rows_of(set);
      if (std::ranges::find(rows, finding_.about) != rows.end()) return &set;
    }
    return nullptr;
  }

  MeasureValue value() const {
    if (rule_.of == Subject::set)
      return set_measure(context_, *set(), static_cast<SetMeasure>(rule_.measure), rule_.base);
    return sample_measure(context_, static_cast<SampleMeasure>(rule_.measure), rule_.base);
  }

  // When it was read: of a set or a reading, or of what a measure of the sample is about.
  Stage stage() const {
    if (rule_.of != Subject::sample) return set()->rows.stage;
    const LeansOn& leans_on = measure_of(rule_).leans_on;
    return leans_on.pre ? Stage::pre : leans_on.post ? Stage::post : Stage::field;
  }

  bool is_counted(const ReadingSet& each) const {
    if (rule_.of != Subject::sample) return &each == set();
    if (stage() == Stage::field) return each.rows.stage == Stage::field;
    return &each == (stage() == Stage::pre ? figures_.pre_set() : figures_.post_set());
  }

  // "from 11:15 to 11:40", with its days where they are not the one on which the sample started.
  std::string period() const {
    const TimeZone& zone = book_.settings.zone;
    const SampleTable& samples = book_.samples;
    const SharedTime time = shared_time(samples, figures_.sample, context_.overlap.with);
    const Day day = local_day(samples.started[figures_.sample], zone);
    const bool is_of_the_day = local_day(time.from, zone) == day && local_day(time.to, zone) == day;
    const auto text = [&](Moment moment) {
      return (is_of_the_day ? "" : date_text(local_day(moment, zone)) + " ") + time_of_day_text(moment, zone);
    };
    return filled(texts().period, [&](std::string_view name) { return text(name == "from" ? time.from : time.to); });
  }

  // Of a fault: what the note says of it.
  std::string seen() const {
    const std::string note = book_.texts.text(field(book_.samples.note, figures_.sample, TextId{0}));
    return filled(note.empty() ? texts().not_noted : texts().noted, [&](std::string_view) { return note; });
  }

  // Those that the figure comes from, each once.
  std::string calibrators() const {
    std::string text = calibrators_of([this](const ReadingSet& each) {
      if (rule_.of != Subject::sample) return &each == set();
      return concerns(context_, static_cast<SampleMeasure>(rule_.measure), each);
    });
    return text.empty() ? calibrators_of([](const ReadingSet&) { return true; }) : text;
  }

  template <class IsWanted>
  std::string calibrators_of(IsWanted is_wanted) const {
    std::vector<std::string_view> names;
    for (const ReadingSet& each : figures_.sets) {
      if (each.rows.calibrator == no_row || !is_wanted(each)) continue;
      const std::string_view name = book_.instruments[each.rows.calibrator].name;
      if (std::ranges::find(names, name) == names.end()) names.push_back(name);
    }
    std::string text;
    for (const std::string_view name : names)
      text += (text.empty() ? "" : std::string(texts().and_)) + std::string(name);
    return text;
  }

  std::size_t base() const {
    if (rule_.base != Base::by_practice) return static_cast<std::size_t>(drift_base_of(rule_.base));
    if (measure_of(rule_).from_nominal) return static_cast<std::size_t>(DriftBase::nominal);
    const bool is_drift =
        rule_.of == Subject::sample && rule_.measure == static_cast<std::size_t>(SampleMeasure::drift);
    return static_cast<std::size_t>(is_drift ? context_.basis.practice.drift_base : DriftBase::pre);
  }

  std::string why() const {
    if (rule_.of == Subject::result)
      return std::string(why_missing(texts().lacks, of_laboratory(), static_cast<ResultMeasure>(rule_.measure)));
    const Lack lack = why_missing(texts().lacks, context_, rule_);
    return filled(lack.sentence, [&](std::string_view name) -> std::optional<std::string> {
      if (name == "set") return std::string(texts().sets[static_cast<std::size_t>(lack.set->rows.stage)]);
      return lack.set->rows.calibrator == no_row ? "" : book_.instruments[lack.set->rows.calibrator].name;
    });
  }

  const Screening& screening_;
  const Book& book_;
  const SampleResult& result_;
  const SampleAssessment& figures_;
  const Finding& finding_;
  const Rule& rule_;
  SampleContext context_;
};

// The fields of a rule's `where` that keep anybody from saying whether it applies to a sample, "a, b".
std::string unknown_fields(const Screening& screening, const SampleResult& result, const Rule& rule) {
  const SampleContext context = screening.context(*result.figures, result.budget);
  std::string names;
  for (const Condition& condition : rule.where) {
    if (condition_applies(condition, context, screening.rules().samplers) != Applies::unknown) continue;
    names += (names.empty() ? "" : ", ") + condition.field;
  }
  return names;
}

// The lines that a finding leans on, each once.
class CitedLines {
 public:
  CitedLines(const Book& book, const SampleAssessment& figures) : book_(book), figures_(figures) {}

  CitedLines& reading(Row row) { return add(book_.place(book_.files.readings, book_.readings.place[row])); }
  CitedLines& set(const ReadingSet& set) {
    for (const Row row : figures_.rows_of(set)) reading(row);
    return *this;
  }
  CitedLines& result(std::uint32_t number) {
    return add(book_.place(book_.files.results, book_.results[number].place));
  }
  CitedLines& results(std::span<const std::uint32_t> numbers) {
    for (const std::uint32_t number : numbers) result(number);
    return *this;
  }
  CitedLines& controls(std::span<const std::uint32_t> numbers) {
    for (const std::uint32_t number : numbers) add(book_.place(book_.files.results, book_.controls[number].place));
    return *this;
  }
  // The sample itself where nothing else is there.
  CitedLines& of(const LeansOn& records) {
    if (records.sample) sample();
    if (records.pre && figures_.pre >= 0) set(*figures_.pre_set());
    for (const ReadingSet& each : figures_.sets) {
      if (records.field && each.rows.stage == Stage::field) set(each);
    }
    if (records.post && figures_.post >= 0) set(*figures_.post_set());
    return lines_.empty() ? sample() : *this;
  }
  std::vector<Place> lines() { return std::move(lines_); }

 private:
  CitedLines& sample() { return add(book_.place(book_.files.samples, book_.samples.place[figures_.sample])); }
  CitedLines& add(Place place) {
    if (std::find(lines_.begin(), lines_.end(), place) == lines_.end()) lines_.push_back(std::move(place));
    return *this;
  }

  const Book& book_;
  const SampleAssessment& figures_;
  std::vector<Place> lines_;
};

}  // namespace

std::string measure_name(const Screening& screening, const SampleResult& result, const Finding& finding) {
  const Rule& rule = rule_of(screening, finding);
  const Book& book = screening.book();
  const std::string name(measure_of(rule).name);
  if (rule.of == Subject::set) {
    const ReadingSet& set = result.figures->sets[finding.about];
    return name + " of the " + std::string(to_text(set.rows.stage)) + " set";
  }
  if (rule.of == Subject::reading) {
    return name + " of the reading at " + book.place_text(book.files.readings, book.readings.place[finding.about]);
  }
  if (rule.of == Subject::result) return name + " of " + book.results[result.results[finding.about].result].analyte;
  return name;
}

std::string rule_name(const Screening& screening, const Finding& finding) {
  if (finding.rule == Finding::faulty_records) return std::string(faulty_records_name);
  return rule_of(screening, finding).full_name();
}

std::string ruling_text(const Book& book, const Decision& decision) {
  return (decision.ruling == Ruling::overrule ? "overruled by " : "upheld by ") + decision.by + ", " +
         local_text(decision.decided, book.settings.zone) + ": " + decision.reason;
}

std::string decision_text(const Book& book, const Decision& decision) {
  return ruling_text(book, decision) + " [" + book.place_text(book.files.decisions, decision.place) + "]";
}

std::string standing_text(const SampleResult& result) {
  std::string text(to_text(result.verdict));
  if (result.standing != result.verdict)
    text += ", but counts as " + std::string(to_text(result.standing)) + " by decision";
  return text;
}

std::string message_of(const Screening& screening, const SampleResult& result, const Finding& finding) {
  const Texts& texts = screening.texts();
  if (finding.rule == Finding::faulty_records) {
    const Diagnostic& problem = screening.book().problems[result.problem - 1];
    return filled(texts.bad_record, [&](std::string_view) { return to_text(problem.place) + ": " + problem.message; });
  }
  const Rule& rule = rule_of(screening, finding);
  if (rule.of == Subject::sample) {
    const std::string unknown = unknown_fields(screening, result, rule);
    if (!unknown.empty()) return filled(texts.unknown_where, [&](std::string_view) { return unknown; });
  }
  const SampleNames names(screening, result, finding);
  if (std::string words = names.own_words(); !words.empty()) return words;
  return sentence_of({.texts = texts,
                      .rule = rule,
                      .finding = finding,
                      .guard = screening.guard(),
                      .word = names.word(),
                      .struck_out = names.struck_out(),
                      .names = [&names](std::string_view name) { return names.value_of(name); }});
}

std::vector<Place> places_of(const Screening& screening, const SampleResult& result, const Finding& finding) {
  const Book& book = screening.book();
  const SampleAssessment& figures = *result.figures;
  if (finding.rule == Finding::faulty_records) return {book.problems[result.problem - 1].place};
  const Rule& rule = rule_of(screening, finding);
  CitedLines cited(book, figures);
  if (rule.of == Subject::reading) return cited.reading(finding.about).lines();
  if (rule.of == Subject::set) return cited.set(figures.sets[finding.about]).lines();
  if (rule.of == Subject::result) {
    const ResultFigures& of = result.results[finding.about];
    cited.result(of.result);
    const auto measure = static_cast<ResultMeasure>(rule.measure);
    if (leans_on_blanks(measure)) cited.results(of.blanks->results);
    if (leans_on_controls(measure)) cited.controls(of.controls->filters);
    return cited.lines();
  }
  const auto measure = static_cast<SampleMeasure>(rule.measure);
  std::vector<Place> lacking = lacking_lines(screening.context(figures, result.budget), measure);
  return lacking.empty() ? cited.of(measure_of(rule).leans_on).lines() : lacking;
}

}  // namespace driftwarden
