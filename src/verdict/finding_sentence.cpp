// SPDX-License-Identifier: MIT
#include "verdict/finding_sentence.hpp"

#include "quantity/rounding.hpp"
#include "verdict/sample_judge.hpp"

namespace driftwarden {
namespace {

// Whether the figure itself keeps the stated limit: then only the guard band speaks against it.
bool keeps_its_limit(const Rule& rule, const Judgement& judgement) {
  if (is_missing(judgement.margin) || judgement.margin < 0) return false;
  return judgement.margin > 0 || includes_its_ends(rule.limit.form);
}

class Teller {
 public:
  explicit Teller(const Told& told)
      : told_(told),
        measure_(measure_of(told.rule)),
        rows_(told.texts.measures[static_cast<std::size_t>(told.rule.of)][told.rule.measure]),
        figure_{told.texts, told.rule, told.finding.judgement, told.word} {}

  std::string sentence() const {
    const Outcome outcome = told_.finding.judgement.outcome;
    if (is_missing_figure()) return missing_sentence(outcome == Outcome::skipped);
    if (outcome == Outcome::met) {
      const bool is_near = told_.finding.probability_beyond >= near_miss_probability;
      return statement() + clause(true) + (is_near ? fill(told_.texts.near.chance) : "");
    }
    if (keeps_its_limit(told_.rule, told_.finding.judgement)) {
      const bool is_stated = !is_missing(told_.finding.probability_beyond);
      return statement() + clause(true) + fill(is_stated ? told_.texts.near.guarded : told_.texts.near.unguarded);
    }
    if (!told_.rule.sentence.empty()) return fill(told_.rule.sentence) + rests() + by_our_reading();
    return statement() + clause(false) + by_our_reading();
  }

 private:
  bool is_missing_figure() const {
    return measure_.kind == MeasureKind::number ? is_missing(told_.finding.judgement.figure) : told_.word.empty();
  }

  std::string missing_sentence(bool is_passed_over) const {
    return fill(rows_.missing) + rests() + std::string(is_passed_over ? told_.texts.passed_over : "");
  }

  std::string statement() const { return fill(chosen()) + rests(); }

  std::string_view chosen() const {
    if (told_.finding.judgement.figure == 0 && rows_.is_of_readings && told_.struck_out > 0)
      return told_.struck_out == 1 ? told_.texts.one_struck_out : told_.texts.all_struck_out;
    return figure_.statement();
  }

  std::string clause(bool is_kept) const {
    if (measure_.kind == MeasureKind::yes_no) return "";
    if (rows_.is_plain_at_zero && told_.finding.judgement.limit == 0) return "";
    const LimitTexts& limit = told_.texts.limits[static_cast<std::size_t>(told_.rule.limit.form)];
    return fill(is_kept ? limit.kept : limit.broken);
  }

  // " (5 points; U = 2.0 %)"
  std::string rests() const {
    if (told_.rests_on.empty()) return "";
    return fill(is_missing(told_.finding.expanded) ? told_.texts.rests_on : told_.texts.known_to);
  }

  // A sample that is void by how a pack reads a clause, and not by the clause's own words, says so.
  std::string by_our_reading() const {
    const bool is_ours = told_.finding.judgement.outcome == Outcome::void_ && !told_.rule.after.empty();
    return is_ours ? fill(told_.texts.by_our_reading) : "";
  }

  std::string fill(std::string_view sentence) const {
    return filled(sentence, [this](std::string_view name) { return value_of(name); });
  }

  std::optional<std::string> value_of(std::string_view name) const {
    if (name == "chance") return chance_text(told_.finding);
    if (name == "says") return fill(chosen());
    if (name == "guard") return with_decimals(told_.guard, 2);
    if (name == "clause") return told_.rule.after;
    if (name == "n") return told_.struck_out > 0 ? std::to_string(told_.struck_out) : std::string(told_.rests_on);
    if (name == "u") return figure_text(told_.rule, told_.finding.expanded, missing);
    if (const std::optional<std::string> figure = figure_.value_of(name)) return figure;
    return told_.names(name);
  }

  const Told& told_;
  const Measure& measure_;
  const MeasureTexts& rows_;
  JudgedFigure figure_;
};

}  // namespace

std::string sentence_of(const Told& told) { return Teller(told).sentence(); }

std::string chance_text(const Finding& finding) {
  if (is_missing(finding.probability_beyond)) return "not known how";
  const double percent = 100 * finding.probability_beyond;
  return with_decimals(percent, percent < 1 || percent > 99 ? 2 : 0) + " %";
}

}  // namespace driftwarden
