// SPDX-License-Identifier: MIT
#include <algorithm>

#include "quantity/rounding.hpp"
#include "report/review_parts.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t most_problems = 500;

void append_problem(HtmlText& html, const Diagnostic& problem) {
  html.open("li").open("span", {{"class", "place"}}).from_book(to_text(problem.place)).close().text(" ");
  html.from_book(problem.message);
  if (!problem.hint.empty()) html.text("; ").from_book(problem.hint);
  html.text(" ").element("span", {{"class", "rule"}}, problem.id).close().line_end();
}

void append_problems(HtmlText& html, const Diagnostics& problems, Severity severity, std::string_view none) {
  std::vector<const Diagnostic*> found;
  for (const Diagnostic& problem : problems) {
    if (problem.severity == severity) found.push_back(&problem);
  }
  if (found.empty()) {
    html.element("p", none);
    return;
  }
  html.open("ul", {{"class", "problems"}}).line_end();
  for (std::size_t i = 0; i < std::min(found.size(), most_problems); ++i) append_problem(html, *found[i]);
  html.close();
  if (found.size() > most_problems)
    html.element("p", {{"class", "note"}},
                 std::to_string(found.size() - most_problems) + " more; driftwarden check lists them all.");
}

void append_undecided(HtmlText& html, const ReviewPage& page) {
  html.open("p").text("Undecided samples: ");
  bool is_first = true;
  for (const ReviewedSample& sample : page.review.samples) {
    if (sample.verdict != Verdict::undecided) continue;
    if (!is_first) html.text(", ");
    is_first = false;
    html.open("a", {{"href", "#" + sample_anchor(sample.sample)}});
    html.from_book(page.screening.book().samples.name[sample.sample]).close();
  }
  html.text(is_first ? "none." : ".").close().line_end();
}

void append_unjudged_rules(HtmlText& html, const ReviewPage& page) {
  if (page.review.unjudged.empty()) return;
  open_table(html, "unjudged", "Rules that could not be held to every sample",
             {"Rule", "#Undecided", "#Passed over", "What it asks for"});
  html.open("tbody").line_end();
  for (const UnjudgedRule& unjudged : page.review.unjudged) {
    const Rule& rule = page.screening.rules().rules[unjudged.rule];
    html.open("tr").element_from_book("th", {{"scope", "row"}}, rule.full_name());
    html.element("td", {{"class", "figure"}}, std::to_string(unjudged.undecided));
    html.element("td", {{"class", "figure"}}, std::to_string(unjudged.passed_over));
    html.element("td", measure_of(rule).definition).close().line_end();
  }
  html.close();
  close_table(html);
}

void append_disabled(HtmlText& html, const RuleSet& rules) {
  if (rules.disabled.empty()) return;
  html.open("details").element("summary", counted(rules.disabled.size(), "rule is", "rules are") +
                                              " switched off, so nothing is held to " +
                                              (rules.disabled.size() == 1 ? "it" : "them"));
  html.open("ul").line_end();
  for (const Rule& rule : rules.disabled) {
    html.open("li").element_from_book("span", {{"class", "rule"}}, rule.full_name()).text(": ");
    html.from_book(std::string(measure_of(rule).name) + " " + rule.limit.text).text("; ");
    html.text(rule.standing == Standing::memory ? "its limit is known from memory only" : "by its pack or the book");
    if (rule.overridden) html.text(": ").from_book(rule.overridden->reason);
    html.close().line_end();
  }
  html.close().close().line_end();
}

}  // namespace

void append_records(HtmlText& html, const ReviewPage& page) {
  const Diagnostics& problems = page.screening.book().problems;
  open_section(html, 5, "records", "Data faults and remarks");
  html.element("h3", "Faults: records that could not be understood");
  append_problems(html, problems, Severity::error, "None: every record was understood.");
  html.element("h3", "Remarks: records that look doubtful");
  append_problems(html, problems, Severity::remark, "None.");
  html.close().line_end();
}

void append_unjudged(HtmlText& html, const ReviewPage& page) {
  open_section(html, 6, "unjudged", "What could not be judged");
  append_undecided(html, page);
  append_unjudged_rules(html, page);
  append_disabled(html, page.screening.rules());
  html.close().line_end();
}

}  // namespace driftwarden
