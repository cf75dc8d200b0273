// SPDX-License-Identifier: MIT
#include <algorithm>

#include "driftwarden/history/heed.hpp"
#include "driftwarden/quantity/number.hpp"
#include "driftwarden/quantity/rounding.hpp"
#include "report/review_parts.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t most_shown_at_once = 40;

void append_name(HtmlText& html, const ReviewAction& action) {
  if (action.row == no_row && action.of != ActionSubject::records) {
    html.from_book(action.name);
    return;
  }
  const std::string anchor = action.of == ActionSubject::records  ? "records"
                             : action.of == ActionSubject::sample ? sample_anchor(action.row)
                                                                  : instrument_anchor(action.row);
  html.open("a", {{"href", "#" + anchor}}).from_book(action.name).close();
}

void append_why(HtmlText& html, const ReviewAction& action) {
  html.open("ul", {{"class", "why"}});
  for (const Reason& reason : action.why) {
    html.open("li").from_book(reason.said);
    if (!reason.rule.empty()) html.text(" ").element_from_book("span", {{"class", "rule"}}, reason.rule);
    html.close();
  }
  html.close();
}

// One action of these days, with a box to tick on paper.
void append_action(HtmlText& html, const ReviewAction& action) {
  html.open("li", {{"class", "action"}}).open("h3");
  html.element("span", {{"class", "verb"}}, to_text(action.kind)).text(" ");
  append_name(html, action);
  html.close().open("div", {{"class", "what"}}).element("p", action.what);
  append_why(html, action);
  html.close().close().line_end();
}

void append_older_row(HtmlText& html, const ReviewAction& action) {
  html.open("tr").open("th", {{"scope", "row"}});
  append_name(html, action);
  html.close().element("td", to_text(action.kind)).open("td");
  for (const Reason& reason : action.why) html.open("p").from_book(reason.said).close();
  html.close().close().line_end();
}

void append_older(HtmlText& html, const std::vector<const ReviewAction*>& older) {
  if (older.empty()) return;
  const bool is_short = older.size() <= most_shown_at_once;
  html.open("details", {{"class", "older"}, {is_short ? "open" : "data-closed", ""}});
  html.element("summary",
               "Open from before these days, and nobody has ruled on it: " + counted(older.size(), "case", "cases"));
  open_table(html, "plain", "Open from before", {"About", "What to do", "Why"});
  html.open("tbody");
  for (const ReviewAction* action : older) append_older_row(html, *action);
  html.close();
  close_table(html);
  html.close().line_end();
}

// How many of the actions chance alone brings.
void append_load(HtmlText& html, const SignalLoad& load) {
  if (load.questions == 0) return;
  html.element("p", {{"class", "note"}},
               "By chance alone, on pumps and calibrators with which nothing is the matter, no more than " +
                   with_significant_digits(load.expected(), 2) +
                   " of the lines Watch and Adjust soon on such a page: " +
                   counted(load.questions, "question was", "questions were") +
                   " asked of how they behave, and an answer counts that chance gives no more often than once in " +
                   with_significant_digits(1 / load.chance(), 3) + " times. [history] false_actions_a_week sets it.");
}

// Samples of these days that are amiss and not in the list, for somebody has ruled on them.
void append_settled(HtmlText& html, const ReviewPage& page) {
  bool is_first = true;
  for (const ReviewedSample& sample : page.review.samples) {
    if (!sample.is_settled || !sample.is_recent) continue;
    html.markup(is_first ? "<p class=\"note\">Ruled on, and so not in this list: " : ", ");
    is_first = false;
    html.open("a", {{"href", "#" + sample_anchor(sample.sample)}});
    html.from_book(page.screening.book().samples.name[sample.sample]).close();
    html.text(" (" + std::string(to_text(sample.verdict)) + ")");
  }
  if (!is_first) html.markup(".</p>\n");
}

}  // namespace

void append_actions(HtmlText& html, const ReviewPage& page) {
  open_section(html, 1, "action", "What needs action");
  std::vector<const ReviewAction*> recent;
  std::vector<const ReviewAction*> older;
  for (const ReviewAction& action : page.review.actions) (action.is_recent ? recent : older).push_back(&action);
  if (recent.empty()) {
    html.element("p", "Nothing of these days needs action.");
  } else {
    html.element("p", {{"class", "lead"}},
                 "Most urgent first: what goes on spoiling samples, then what is lost, what can still be cleared up, "
                 "and what is coming within 30 days.");
    html.open("ol", {{"class", "actions"}}).line_end();
    for (const ReviewAction* action : recent) append_action(html, *action);
    html.close().line_end();
  }
  append_load(html, page.review.load);
  append_settled(html, page);
  append_older(html, older);
  html.close().line_end();
}

}  // namespace driftwarden
