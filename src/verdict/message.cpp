// SPDX-License-Identifier: MIT
#include "driftwarden/verdict/message.hpp"

#include <algorithm>

#include "driftwarden/quantity/limit.hpp"
#include "driftwarden/quantity/number.hpp"
#include "driftwarden/quantity/rounding.hpp"
#include "driftwarden/verdict/applicability.hpp"

namespace driftwarden {
namespace {

// The unit that a rule's figures are reported in: of an absolute limit as it was written, else the measure's.
Unit unit_of(const Rule& rule) {
  if (rule.limit.is_absolute) return rule.limit.unit;
  const Measure& measure = measure_of(rule);
  const std::optional<Unit> unit = unit_named(measure.unit, measure.dimension);
  return unit ? *unit : inside_unit(measure.dimension);
}

int decimals_of(const Unit& unit) {
  switch (unit.dimension) {
    case Dimension::flow:
      return 3;
    case Dimension::count:
      return 0;
    default:
      return 1;
  }
}

const Rule& rule_of(const Screening& screening, const Finding& finding) {
  return screening.rules().rules[finding.rule];
}

// Whether the figure itself keeps the stated limit: then only the guard band speaks against it.
bool is_met(const Rule& rule, const Judgement& judgement) {
  if (is_missing(judgement.margin) || judgement.margin < 0) return false;
  return judgement.margin > 0 ||
         (rule.limit.form != Limit::Form::strictly_within && rule.limit.form != Limit::Form::less_than &&
          rule.limit.form != Limit::Form::more_than);
}

// Why a figure of a sample is missing, as far as its sets tell.
std::string why_missing(const Screening& screening, const SampleResult& result, const Rule& rule) {
  const SampleAssessment& figures = *result.figures;
  const LeansOn& leans_on = measure_of(rule).leans_on;
  const bool leans_on_sets = rule.of != Subject::sample || leans_on.pre || leans_on.post;
  if (!leans_on_sets) return "the book does not say";
  if (figures.pre < 0 && figures.post < 0) return "no readings were found before or after it";
  if (figures.pre < 0) return "no reading was found before it";
  if (figures.post < 0) return "no reading was found after it";
  for (const ReadingSet& set : figures.sets) {
    const std::string name =
        set.rows.calibrator == no_row ? "" : screening.book().instruments[set.rows.calibrator].name;
    if (set.flow.n == 0) return "all readings of a " + std::string(to_text(set.rows.stage)) + " set are void";
    switch (set.lack) {
      case CorrectedReading::Lack::nothing:
        break;
      case CorrectedReading::Lack::temperature:
        return "the readings of " + name + " lack a temperature";
      case CorrectedReading::Lack::pressure:
        return "the readings of " + name + " lack a pressure";
      case CorrectedReading::Lack::scale_conditions:
        return name + " lacks its scale conditions in instruments.csv";
      case CorrectedReading::Lack::humidity:
        return "the readings of " + name + " lack a humidity";
    }
  }
  return "the book does not say";
}

std::string word_message(const Screening& screening, const SampleResult& result, const Finding& finding) {
  const Rule& rule = rule_of(screening, finding);
  const SampleContext context = screening.context(*result.figures, result.budget);
  std::string_view word;
  if (rule.of == Subject::sample) {
    const auto measure = static_cast<SampleMeasure>(rule.measure);
    if (std::string words = own_words(context, measure); !words.empty()) return words;
    word = sample_measure(context, measure, rule.base).word;
  }
  const std::string name(measure_of(rule).name);
  if (word.empty()) return name + " is missing: " + why_missing(screening, result, rule);
  if (measure_of(rule).is_about_records && word == "no") return name + " is not in the records";
  return name + " is " + std::string(word) + "; the rule: " + rule.limit.text;
}

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

// Four significant digits, or as many decimals as show on which side of its limit the volume lies.
std::string volume_text(double volume, double limit) {
  const std::string text = with_significant_digits(volume, 4);
  if (is_missing(limit)) return text;
  const bool tells_the_side = side_of_limit(number_from(text).value_or(volume), limit) == side_of_limit(volume, limit);
  return tells_the_side ? text : with_decimals_beyond(volume, 0, limit);
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

std::string figure_text(const Rule& rule, double figure, double limit) {
  if (is_missing(figure)) return "missing";
  const Unit unit = unit_of(rule);
  const double shown = unit.from_inside(figure);
  const double shown_limit = is_missing(limit) ? missing : unit.from_inside(limit);
  std::string text = unit.dimension == Dimension::volume ? volume_text(shown, shown_limit)
                                                         : with_decimals_beyond(shown, decimals_of(unit), shown_limit);
  if (!unit.name.empty()) text += " " + std::string(unit.name);
  return text;
}

Reported reported(const Rule& rule, const Judgement& judgement) {
  const Unit unit = unit_of(rule);
  const auto shown = [&unit](double inside) { return is_missing(inside) ? missing : unit.from_inside(inside); };
  const double scale = unit.denominator / unit.numerator;
  return {shown(judgement.figure), shown(judgement.limit), judgement.margin * scale, unit.name};
}

std::string chance_text(const Finding& finding) {
  if (is_missing(finding.probability_beyond)) return "not known how";
  const double percent = 100 * finding.probability_beyond;
  return with_decimals(percent, percent < 1 || percent > 99 ? 2 : 0) + " %";
}

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
  if (result.standing != result.verdict) text += ", " + std::string(to_text(result.standing)) + " by decision";
  return text;
}

// A sample that is void by how a pack reads a clause, and not by the clause's own words, says so.
std::string reading_text(const Rule& rule, const Finding& finding) {
  if (finding.judgement.outcome != Outcome::void_ || rule.after.empty()) return "";
  return "; that it voids is how the pack reads " + rule.after;
}

std::string message_of(const Screening& screening, const SampleResult& result, const Finding& finding) {
  if (finding.rule == Finding::faulty_records) {
    const Diagnostic& problem = screening.book().problems[result.figures->problem - 1];
    return "not judged, for a record it leans on can't be understood: " + to_text(problem.place) + ": " +
           problem.message;
  }
  const Rule& rule = rule_of(screening, finding);
  const Measure& measure = measure_of(rule);
  const std::string name = measure_name(screening, result, finding);
  if (is_missing(finding.judgement.figure) && rule.of == Subject::sample) {
    const std::string unknown = unknown_fields(screening, result, rule);
    if (!unknown.empty()) return "whether the rule applies can't be said: " + unknown + " is missing";
  }
  if (is_missing(finding.judgement.figure) && measure.kind == MeasureKind::number) {
    return name + " is missing: " + why_missing(screening, result, rule);
  }
  if (measure.kind != MeasureKind::number) return word_message(screening, result, finding);
  return figure_message(screening, rule, finding,
                        name + " " + figure_text(rule, finding.judgement.figure, finding.judgement.limit));
}

std::string figure_message(const Screening& screening, const Rule& rule, const Finding& finding,
                           const std::string& figure) {
  if (finding.judgement.outcome == Outcome::met) {
    return figure + " is " + rule.limit.text + ", but " + chance_text(finding) + " likely beyond";
  }
  if (is_met(rule, finding.judgement)) {
    if (is_missing(finding.probability_beyond)) {
      return figure + " is " + rule.limit.text + ", but its uncertainty can't be stated, so that the guard band of " +
             with_decimals(screening.guard(), 2) + " U can't be kept";
    }
    return figure + " is " + rule.limit.text + ", but nearer to it than the guard band of " +
           with_decimals(screening.guard(), 2) + " U allows; " + chance_text(finding) + " likely beyond";
  }
  return figure + " is not " + rule.limit.text + reading_text(rule, finding);
}

std::vector<Place> places_of(const Screening& screening, const SampleResult& result, const Finding& finding) {
  const Book& book = screening.book();
  const SampleAssessment& figures = *result.figures;
  if (finding.rule == Finding::faulty_records) return {book.problems[figures.problem - 1].place};
  const Rule& rule = rule_of(screening, finding);
  CitedLines cited(book, figures);
  if (rule.of == Subject::reading) return cited.reading(finding.about).lines();
  if (rule.of == Subject::set) return cited.set(figures.sets[finding.about]).lines();
  const auto measure = static_cast<SampleMeasure>(rule.measure);
  std::vector<Place> lacking = lacking_lines(screening.context(figures, result.budget), measure);
  return lacking.empty() ? cited.of(measure_of(rule).leans_on).lines() : lacking;
}

}  // namespace driftwarden
