// SPDX-License-Identifier: MIT
#include "rule/judged_figure.hpp"

#include <cmath>

#include "quantity/limit.hpp"
#include "quantity/number.hpp"
#include "quantity/rounding.hpp"

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
    case Dimension::diameter:
      return 2;
    default:
      return 1;
  }
}

// Of volumes, masses and concentrations, which may be of any size, significant digits are printed.
bool goes_by_digits(Dimension dimension) {
  return dimension == Dimension::volume || dimension == Dimension::mass || dimension == Dimension::concentration;
}

// Four significant digits, or as many decimals as show on which side of its limit the figure lies.
std::string text_by_digits(double figure, double limit) {
  const std::string text = with_significant_digits(figure, 4);
  if (is_missing(limit)) return text;
  const bool tells_the_side = side_of_limit(number_from(text).value_or(figure), limit) == side_of_limit(figure, limit);
  return tells_the_side ? text : with_decimals_beyond(figure, 0, limit);
}

// A whole number of days in words, "14 days" for "14.0 d"; "25 min" for "25.0 min"; anything else as it is.
std::string as_a_time(const Texts& texts, std::string text) {
  const std::size_t blank = text.find(' ');
  const std::string unit = blank == std::string::npos ? "" : text.substr(blank);
  if (unit != " d" && unit != " h" && unit != " min") return text;
  const std::optional<double> number = number_from(text.substr(0, blank));
  if (!number || *number != std::floor(*number)) return text;
  const std::string whole = with_decimals(*number, 0);
  if (unit != " d") return whole + unit;
  if (*number == 1) return std::string(texts.one_day);
  return filled(texts.days, [&](std::string_view) { return whole; });
}

std::string limit_text(const Texts& texts, const Limit& limit) {
  std::string text;
  for (const std::string& value : limit.values) {
    if (!text.empty()) text += limit.form == Limit::Form::between ? texts.to : texts.or_;
    text += as_a_time(texts, value);
  }
  return limit.or_value.empty() ? text : text + std::string(texts.or_) + as_a_time(texts, limit.or_value);
}

// Without its sign, and rounded on the same side of the limit as with it.
std::string size_text(const Rule& rule, const Judgement& judgement) {
  if (!(judgement.figure < 0)) return figure_text(rule, judgement.figure, judgement.limit);
  return figure_text(rule, -judgement.figure, -judgement.limit);
}

}  // namespace

std::string figure_text(const Rule& rule, double figure, double limit) {
  if (is_missing(figure)) return "missing";
  const Unit unit = unit_of(rule);
  const double shown = unit.from_inside(figure);
  const double shown_limit = is_missing(limit) ? missing : unit.from_inside(limit);
  std::string text = goes_by_digits(unit.dimension) ? text_by_digits(shown, shown_limit)
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

std::optional<std::string> JudgedFigure::value_of(std::string_view placeholder) const {
  const bool is_word = measure_of(rule).kind != MeasureKind::number;
  if (placeholder == "limit") return limit_text(texts, rule.limit);
  if (placeholder == "says") return filled(statement(), [this](std::string_view name) { return value_of(name); });
  if (placeholder != "figure" && placeholder != "size") return std::nullopt;
  if (is_word) return std::string(word);
  return as_a_time(
      texts, placeholder == "size" ? size_text(rule, judgement) : figure_text(rule, judgement.figure, judgement.limit));
}

std::string_view JudgedFigure::statement() const {
  const MeasureTexts& rows = texts.measures[static_cast<std::size_t>(rule.of)][rule.measure];
  if (measure_of(rule).kind == MeasureKind::yes_no) return word == "yes" ? rows.says : rows.none;
  if (judgement.figure < 0 && !rows.negative.empty()) return rows.negative;
  if (judgement.figure == 0 && !rows.none.empty()) return rows.none;
  if (judgement.figure == 1 && !rows.one.empty()) return rows.one;
  return rows.says;
}

}  // namespace driftwarden
