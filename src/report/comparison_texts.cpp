// SPDX-License-Identifier: MIT
#include "report/comparison_texts.hpp"

#include <array>
#include <cmath>

#include "book/stamp_text.hpp"
#include "diagnostic/joined.hpp"
#include "quantity/rounding.hpp"
#include "report/csv_text.hpp"
#include "report/json_text.hpp"
#include "report/lookback_words.hpp"
#include "report/terminal_text.hpp"
#include "verdict/cautions.hpp"
#include "verdict/verdict_key.hpp"

namespace driftwarden {
namespace {

constexpr std::array<Verdict, 4> verdicts{Verdict::valid, Verdict::qualified, Verdict::undecided, Verdict::void_};

std::size_t count_of(const RuleComparison& comparison, Verdict from, Verdict to) {
  return comparison.samples[static_cast<std::size_t>(from)][static_cast<std::size_t>(to)];
}

// "common-practice 2026-11-25, house 2026-09-01; limits narrowed by 1.00 U"
std::string rules_text(const Screening& screening) {
  std::string text =
      joined(screening.rules().packs, ", ", [](const Pack& pack) { return pack.name + " " + pack.edition; });
  if (text.empty()) text = "no rules";
  if (screening.guard() > 0) text += "; limits narrowed by " + with_decimals(screening.guard(), 2) + " U";
  return text;
}

// "; margin -0.90 %": beyond the limit; without a mark inside.
std::string margin_text(const HeldTo& held) {
  if (!std::isfinite(held.figures.margin)) return "";
  const std::string unit = held.figures.unit.empty() ? "" : " " + std::string(held.figures.unit);
  if (held.figures.margin == 0) return "; on the limit";
  return "; margin " + with_decimals(held.figures.margin, 2) + unit;
}

std::string held_text(const std::optional<HeldTo>& held) {
  if (!held) return "no rule about it";
  return std::string(to_text(held->outcome)) + ": " + held->message + margin_text(*held) + " (" + held->rule + ")";
}

std::string totals_text(const Totals& totals) {
  return std::to_string(totals.valid) + " valid, " + std::to_string(totals.qualified) + " qualified, " +
         std::to_string(totals.undecided) + " undecided, " + std::to_string(totals.void_) + " void";
}

// "2 from valid to void, 1 from qualified to valid"
std::string changes_text(const RuleComparison& comparison) {
  std::string text;
  for (const Verdict from : verdicts) {
    for (const Verdict to : verdicts) {
      const std::size_t count = count_of(comparison, from, to);
      if (from == to || count == 0) continue;
      text += (text.empty() ? "" : ", ") + std::to_string(count) + " from " + std::string(to_text(from)) + " to " +
              std::string(to_text(to));
    }
  }
  return text;
}

void append_changed(std::string& out, const ComparedRules& compared, const ChangedSample& changed, Paint paint) {
  const Book& book = compared.before.book();
  const std::string batch = batch_of(book, changed.sample);
  out += paint.heading(for_terminal(book.samples.name[changed.sample])) +
         (batch.empty() ? "" : " (" + for_terminal(batch) + ")") + ": " +
         paint.verdict(changed.before, to_text(changed.before)) + " -> " +
         paint.verdict(changed.after, to_text(changed.after)) + "\n";
  for (const Difference& difference : changed.differences) {
    out += wrapped(for_terminal("now:  " + held_text(difference.before)), 2, table_width);
    out += wrapped(for_terminal("then: " + held_text(difference.after)), 2, table_width);
  }
}

void append_held(std::string& out, const std::optional<HeldTo>& held) {
  out += ',';
  if (held) append_csv(out, held->rule);
  out += ',';
  if (held) out += to_text(held->outcome);
  out += ',';
  if (held) append_figure(out, held->figures.value);
  out += ',';
  if (held) append_csv(out, held->limit);
  out += ',';
  if (held) append_figure(out, held->figures.margin);
}

std::string_view unit_of(const Difference& difference) {
  return difference.before ? difference.before->figures.unit : difference.after->figures.unit;
}

void held_member(JsonText& json, std::string_view name, const std::optional<HeldTo>& held) {
  json.key(name);
  if (!held) {
    json.null();
    return;
  }
  json.begin_object().member("rule", held->rule).member("outcome", to_text(held->outcome));
  json.member("value", held->figures.value).member("unit", held->figures.unit).member("limit", held->limit);
  json.member("margin", held->figures.margin).member("message", held->message).end_object();
}

void rules_member(JsonText& json, std::string_view name, const Screening& screening, const Totals& totals) {
  json.key(name).begin_object().key("packs").begin_array();
  for (const Pack& pack : screening.rules().packs) {
    json.begin_object().member("pack", pack.name).member("edition", pack.edition);
    json.member("sha256", pack.sha256).end_object();
  }
  json.end_array().member("guard", screening.guard()).key("totals").begin_object();
  json.member("samples", totals.samples).member("valid", totals.valid).member("qualified", totals.qualified);
  json.member("undecided", totals.undecided).member("void", totals.void_).end_object().end_object();
}

void changed_object(JsonText& json, const Book& book, const ChangedSample& changed) {
  json.begin_object().member("sample", book.samples.name[changed.sample]).key("batch");
  const std::string batch = batch_of(book, changed.sample);
  if (batch.empty()) {
    json.null();
  } else {
    json.value(batch);
  }
  json.member("before", to_text(changed.before)).member("after", to_text(changed.after));
  json.key("differences").begin_array();
  for (const Difference& difference : changed.differences) {
    json.begin_object().member("measure", difference.measure);
    held_member(json, "before", difference.before);
    held_member(json, "after", difference.after);
    json.end_object();
  }
  json.end_array().end_object();
}

}  // namespace

std::string comparison_table(const ComparedRules& compared, Paint paint) {
  const RuleComparison& comparison = compared.comparison;
  std::string out = paint.heading(for_terminal(compared.before.book().settings.title)) + "\n";
  out += wrapped(for_terminal("now:  " + rules_text(compared.before)), 0, table_width);
  out += wrapped(for_terminal("then: " + rules_text(compared.after)), 0, table_width) + "\n";
  for (const ChangedSample& changed : comparison.changed) append_changed(out, compared, changed, paint);
  if (!comparison.changed.empty()) out += '\n';
  out += counted(comparison.before.samples, "sample", "samples and blanks") + "\n";
  out += "now:  " + totals_text(comparison.before) + "\nthen: " + totals_text(comparison.after) + "\n";
  const std::string changes = changes_text(comparison);
  return out +
         wrapped(changes.empty() ? "no verdict would change"
                                 : std::to_string(comparison.changed.size()) + " would change: " + changes,
                 0, table_width) +
         "\n" + wrapped(verdict_key_text(KeyOf::verdicts_and_findings), 0, table_width) + "\n" +
         wrapped(cautions, 0, table_width);
}

std::string comparison_csv(const ComparedRules& compared) {
  const Book& book = compared.before.book();
  std::string out =
      "sample,batch,verdict_before,verdict_after,measure,unit,rule_before,outcome_before,value_before,limit_before,"
      "margin_before,rule_after,outcome_after,value_after,limit_after,margin_after\n";
  for (const ChangedSample& changed : compared.comparison.changed) {
    for (const Difference& difference : changed.differences) {
      append_csv(out, book.samples.name[changed.sample]);
      out += ',';
      append_csv(out, batch_of(book, changed.sample));
      out += ',';
      out += to_text(changed.before);
      out += ',';
      out += to_text(changed.after);
      out += ',';
      append_csv(out, difference.measure);
      out += ',';
      out += unit_of(difference);
      append_held(out, difference.before);
      append_held(out, difference.after);
      out += '\n';
    }
  }
  return out;
}

std::string comparison_json(const ComparedRules& compared) {
  const RuleComparison& comparison = compared.comparison;
  const Book& book = compared.before.book();
  std::string out;
  JsonText json(out);
  json.begin_object().key("tool").begin_object().member("name", "driftwarden");
  json.member("version", compared.version).end_object();
  json.key("book").begin_object().member("title", book.settings.title).end_object();
  json.member("as_of", date_text(compared.as_of));
  rules_member(json, "before", compared.before, comparison.before);
  rules_member(json, "after", compared.after, comparison.after);
  json.key("changes").begin_array();
  for (const Verdict from : verdicts) {
    for (const Verdict to : verdicts) {
      const std::size_t count = count_of(comparison, from, to);
      if (from == to || count == 0) continue;
      json.begin_object().member("before", to_text(from)).member("after", to_text(to)).member("samples", count);
      json.end_object();
    }
  }
  json.end_array().key("samples").begin_array();
  for (const ChangedSample& changed : comparison.changed) changed_object(json, book, changed);
  json.end_array().member("cautions", cautions).end_object();
  return out + "\n";
}

}  // namespace driftwarden
