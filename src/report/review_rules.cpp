// SPDX-License-Identifier: MIT
#include "book/stamp_text.hpp"
#include "quantity/rounding.hpp"
#include "report/review_parts.hpp"
#include "verdict/decision_risk.hpp"

namespace driftwarden {
namespace {

void append_overrides(HtmlText& html, const RuleSet& rules) {
  bool is_first = true;
  for (const auto* list : {&rules.rules, &rules.disabled}) {
    for (const Rule& rule : *list) {
      if (!rule.overridden) continue;
      if (is_first) open_table(html, "overrides", "Overrides of this book", {"Rule", "Was", "Is", "Reason", "Where"});
      if (is_first) html.open("tbody").line_end();
      is_first = false;
      html.open("tr").element_from_book("th", {{"scope", "row"}}, rule.full_name());
      html.element_from_book("td", {}, rule.overridden->limit_before + ", " + rule.overridden->otherwise_before);
      html.element_from_book(
          "td", {}, rule.enabled ? rule.limit.text + ", " + std::string(to_text(rule.otherwise)) : "switched off");
      html.element_from_book("td", {}, rule.overridden->reason);
      html.element_from_book("td", {}, to_text(rule.overridden->place)).close().line_end();
    }
  }
  if (is_first) {
    html.element("p", "No rule is overridden by this book.");
  } else {
    html.close();
    close_table(html);
  }
}

Row sample_named(const Review& review, const Book& book, const std::string& name) {
  for (const ReviewedSample& sample : review.samples) {
    if (book.samples.name[sample.sample] == name) return sample.sample;
  }
  return no_row;
}

void append_decision(HtmlText& html, const ReviewPage& page, const Decision& decision) {
  const Book& book = page.screening.book();
  const Row sample = sample_named(page.review, book, decision.subject);
  html.open("tr").open("th", {{"scope", "row"}});
  if (sample == no_row) {
    html.from_book(decision.subject);
  } else {
    html.open("a", {{"href", "#" + sample_anchor(sample)}}).from_book(decision.subject).close();
  }
  html.close().element("td", to_text(decision.ruling)).element_from_book("td", {}, decision.rule);
  html.element_from_book("td", {}, decision.reason).element_from_book("td", {}, decision.by);
  html.open("td").text(local_text(decision.decided, book.settings.zone)).text(" ");
  html.element_from_book("span", {{"class", "place"}}, book.place_text(book.files.decisions, decision.place));
  html.close().close().line_end();
}

void append_practice(HtmlText& html, const RuleSet& rules) {
  open_table(html, "practice", "Practices followed", {"Practice", "Choice", "Chosen by", "Source or reason"});
  html.open("tbody").line_end();
  for (const auto& [key, choice] : rules.practice) {
    const bool is_preset = choice.place.file.empty();
    html.open("tr", {{"class", is_preset ? "preset" : "chosen"}}).element("th", {{"scope", "row"}}, key);
    html.element("td", choice.word());
    html.element_from_book("td", {}, is_preset ? "nobody: preset" : choice.pack.empty() ? "this book" : choice.pack);
    html.element_from_book("td", {}, choice.source_or_reason).close().line_end();
  }
  html.close();
  close_table(html);
}

void append_rule(HtmlText& html, const Rule& rule) {
  html.open("tr").element_from_book("th", {{"scope", "row"}}, rule.id);
  html.element_from_book(
      "td", {}, std::string(measure_of(rule).name) + " " + rule.limit.text + (rule.overridden ? " (overridden)" : ""));
  html.element("td", to_text(rule.otherwise));
  html.element_from_book("td", {}, rule.source).element_from_book("td", {}, known_by_text(rule)).close().line_end();
}

void append_pack(HtmlText& html, const RuleSet& rules, const Pack& pack) {
  std::size_t in_force = 0;
  for (const Rule& rule : rules.rules) in_force += rule.pack == pack.name ? 1U : 0U;
  html.open("details").open("summary").from_book(pack.title.empty() ? pack.name : pack.title);
  html.text(", edition ").from_book(pack.edition).text(": " + counted(in_force, "rule", "rules") + " in force").close();
  html.open("p", {{"class", "facts"}}).text("Pack ").from_book(pack.name);
  if (pack.sha256.empty()) {
    html.text(", built into the program").close();
  } else {
    html.text(", SHA-256 ").element("code", pack.sha256).close();
  }
  open_table(html, "plain", "Rules of " + pack.name, {"Rule", "Limit", "Otherwise", "Source", "Known by"});
  html.open("tbody").line_end();
  for (const Rule& rule : rules.rules) {
    if (rule.pack == pack.name) append_rule(html, rule);
  }
  html.close();
  close_table(html);
  html.close().line_end();
}

// What the program itself asks of a book, as a pack.
Pack own_pack_of(const RuleSet& rules) {
  Pack own;
  own.name = own_pack;
  own.title = "What the program asks of every book";
  for (const Rule& rule : rules.rules) {
    if (rule.pack == own_pack) own.edition = rule.edition;
  }
  return own;
}

}  // namespace

void append_decisions(HtmlText& html, const ReviewPage& page) {
  open_section(html, 7, "decisions", "Overrides and decisions in force");
  append_overrides(html, page.screening.rules());
  if (page.review.decisions.empty()) {
    html.element("p", "No decision has been written down.");
  } else {
    open_table(html, "decisions", "Decisions, the newest first",
               {"Sample", "Ruling", "Rule", "Reason", "By", "Decided"});
    html.open("tbody").line_end();
    for (const Decision* decision : page.review.decisions) append_decision(html, page, *decision);
    html.close();
    close_table(html);
  }
  html.element("p", {{"class", "note"}}, "A decision stands beside the finding and does not erase it.");
  html.close().line_end();
}

void append_rules(HtmlText& html, const ReviewPage& page) {
  const RuleSet& rules = page.screening.rules();
  open_section(html, 8, "rules", "Rules with their editions and sources");
  for (const Pack& pack : rules.packs) append_pack(html, rules, pack);
  const Pack own = own_pack_of(rules);
  if (!own.edition.empty()) append_pack(html, rules, own);
  append_practice(html, rules);
  html.close().line_end();
}

}  // namespace driftwarden
