// SPDX-License-Identifier: MIT
#include <algorithm>

#include "history/heed.hpp"
#include "quantity/number.hpp"
#include "quantity/rounding.hpp"
#include "report/action_list.hpp"
#include "report/review_parts.hpp"
#include "report/review_words.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t most_shown_at_once = 40;

void append_link(HtmlText& html, const Touched& about) {
  if (about.row == no_row && about.of != ActionSubject::records) {
    html.from_book(about.name);
    return;
  }
  const std::string anchor = about.of == ActionSubject::records  ? "records"
                             : about.of == ActionSubject::sample ? sample_anchor(about.row)
                                                                 : instrument_anchor(about.row);
  html.open("a", {{"href", "#" + anchor}}).from_book(about.name).close();
}

// What a name alone would not tell.
void append_sort(HtmlText& html, ActionSubject of) {
  if (of == ActionSubject::batch) html.text("Batch ");
  if (of == ActionSubject::kit) html.text("Kit ");
}

void append_name(HtmlText& html, const ReviewAction& action) {
  append_sort(html, action.of);
  append_link(html, {action.of, action.name, action.row});
}

void append_reason(HtmlText& html, const Reason& reason) {
  html.from_book(reason.said);
  if (!reason.rule.empty()) html.text(" ").element_from_book("span", {{"class", "rule"}}, reason.rule);
}

void append_members(HtmlText& html, const TouchedPart& part) {
  for (const Touched& member : part.members) {
    if (&member != part.members.data()) html.text(", ");
    append_link(html, member);
  }
}

// "TF44B-2, TF44B-3: VOL-2 was used 16 days past its due date"
void append_part(HtmlText& html, const TouchedPart& part) {
  html.open("li");
  if (part.is_the_same) html.text("The same of ");
  html.open("b", {{"class", "members"}});
  append_members(html, part);
  html.close();
  for (const Reason& reason : part.why) {
    if (part.is_the_same) break;
    html.text(&reason == part.why.data() ? ": " : "; ");
    append_reason(html, reason);
  }
  html.close();
}

// Whom the cause touched, under what is to be done about them where that is something else.
void append_touched(HtmlText& html, const ReviewAction& action) {
  std::string_view last = action.what;
  for (std::size_t i = 0; i < action.touched.size();) {
    const std::string_view what = action.touched[i].what;
    if (what != last) html.element("p", {{"class", "then"}}, what);
    last = what;
    html.open("ul", {{"class", "why"}});
    for (; i < action.touched.size() && action.touched[i].what == what; ++i) append_part(html, action.touched[i]);
    html.close();
  }
}

void append_why(HtmlText& html, const ReviewAction& action) {
  html.open("ul", {{"class", "why"}});
  for (const Reason& reason : action.why) {
    html.open("li");
    append_reason(html, reason);
    html.close();
  }
  html.close();
  append_touched(html, action);
}

std::string place_of(const ReviewPage& page, const Assigned& assigned) {
  const Book& book = page.screening.book();
  return book.place_text(book.files.actions, assigned.last->place);
}

// Who sees to it, as actions.csv says.
void append_assigned(HtmlText& html, const ReviewPage& page, const Assigned& assigned) {
  if (assigned.last == nullptr) return;
  const std::string who = who_sees_to(assigned, page.as_of);
  html.open("p", {{"class", assigned.is_open() && assigned.due < page.as_of ? "assigned late" : "assigned"}});
  html.from_book(who);
  if (!assigned.note.empty()) html.text(who.empty() ? "" : "; ").from_book(assigned.note);
  html.text(" ").element_from_book("span", {{"class", "place"}}, place_of(page, assigned)).close();
}

// One action of these days, with a box to tick on paper.
void append_action(HtmlText& html, const ReviewPage& page, const ReviewAction& action) {
  html.open("li", {{"class", "action"}}).open("h3");
  html.element("span", {{"class", "verb"}}, to_text(action.kind)).text(" ");
  append_name(html, action);
  html.close().open("div", {{"class", "what"}}).element("p", action.what);
  append_why(html, action);
  append_assigned(html, page, action.assigned);
  html.close().close().line_end();
}

// Actions that are not to be done now, of which actions.csv speaks.
void append_noted(HtmlText& html, const ReviewPage& page, const std::vector<NotedAction>& noted,
                  std::string_view heading) {
  if (noted.empty()) return;
  html.open("details", {{"class", "older"}, {"open", ""}});
  html.element("summary", std::string(heading) + ": " + counted(noted.size(), "thing", "things"));
  open_table(html, "plain", heading, {"About", "What", "What became of it", "Note", "Written down"});
  html.open("tbody");
  for (const NotedAction& action : noted) {
    html.open("tr").open("th", {{"scope", "row"}});
    append_sort(html, action.key.of);
    append_link(html, {action.key.of, action.key.name, action.row});
    html.close().element("td", to_text(action.key.kind)).element_from_book("td", {}, what_became_of(action));
    html.element_from_book("td", {}, action.assigned.note).open("td").from_book(action.assigned.last->by).text(" ");
    html.element_from_book("span", {{"class", "place"}}, place_of(page, action.assigned)).close().close().line_end();
  }
  html.close();
  close_table(html);
  html.close().line_end();
}

void append_older_row(HtmlText& html, const ReviewAction& action) {
  html.open("tr").open("th", {{"scope", "row"}});
  append_name(html, action);
  html.close().element("td", to_text(action.kind)).open("td");
  append_why(html, action);
  html.close().close().line_end();
}

void append_older(HtmlText& html, const std::vector<const ReviewAction*>& older) {
  if (older.empty()) return;
  const bool is_short = older.size() <= most_shown_at_once;
  html.open("details", {{"class", "older"}, {is_short ? "open" : "data-closed", ""}});
  html.element("summary",
               "Open from before these days, and nobody has ruled on it: " + counted(older.size(), "thing", "things"));
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
  html.element(
      "p", {{"class", "note"}},
      "Where nothing is wrong, chance alone brings at most " + with_significant_digits(load.expected(), 2) +
          " lines Watch and Adjust soon to such a page: " + counted(load.questions, "question was", "questions were") +
          " asked about how pumps and calibrators behave, and an answer counts only if chance gives it no more "
          "often than once in " +
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
  html.element("p", {{"class", "lead"}}, how_much(page.review) + ".");
  if (!recent.empty()) {
    html.open("ol", {{"class", "actions"}}).line_end();
    for (const ReviewAction* action : recent) append_action(html, page, *action);
    html.close().line_end();
  }
  append_load(html, page.review.load);
  append_settled(html, page);
  append_older(html, older);
  append_noted(html, page, page.review.lapsed, "Given to somebody, and the records give no more rise to it");
  append_noted(html, page, page.review.done, "Done");
  html.close().line_end();
}

}  // namespace driftwarden
