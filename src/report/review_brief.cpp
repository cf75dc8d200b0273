// SPDX-License-Identifier: MIT
#include "report/review_brief.hpp"

#include <algorithm>
#include <cstdint>

#include "book/stamp_text.hpp"
#include "quantity/rounding.hpp"
#include "report/action_list.hpp"
#include "report/review_words.hpp"
#include "report/terminal_text.hpp"
#include "system/digest.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t most_lines_of_actions = 7;
constexpr std::size_t most_octets_of_a_line = 75;  // RFC 5545, 3.1, without the line's end

std::string of_verdicts(const Totals& totals) {
  return counted(totals.samples, "sample", "samples and blanks") + ": " + std::to_string(totals.void_) + " void, " +
         std::to_string(totals.undecided) + " undecided, " + std::to_string(totals.qualified) + " qualified, " +
         std::to_string(totals.valid) + " valid.";
}

std::string line_of(std::size_t number, const ReviewAction& action, Day as_of) {
  std::string text = std::to_string(number) + ". " + std::string(to_text(action.kind)) + ": " + action.name + ". " +
                     action.what + " (" + action.why.front().said + ")";
  for (const TouchedWith& group : touched_of(action))
    text += " " + group.names + ": " + (group.what == action.what ? group.said + "." : std::string(group.what));
  const std::string who = who_sees_to(action.assigned, as_of);
  if (!who.empty()) text += " [" + who + "]";
  return text + "\n";
}

// A text as a value (RFC 5545, 3.3.11); what acts instead of showing itself is shown.
std::string value_of(std::string_view text) {
  std::string value;
  for (const char c : safe_text(text, false)) {
    if (c == '\\' || c == ';' || c == ',') value += '\\';
    value += c == '\n' ? "\\n" : std::string(1, c);
  }
  return value;
}

bool is_inside_a_character(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

// A content line, folded (RFC 5545, 3.1), never within a character.
void append_line(std::string& out, std::string line) {
  std::size_t room = most_octets_of_a_line;
  while (line.size() > room) {
    std::size_t end = room;
    while (is_inside_a_character(line[end])) --end;
    out += line.substr(0, end) + "\r\n ";
    line.erase(0, end);
    room = most_octets_of_a_line - 1;  // the blank before it
  }
  out += line + "\r\n";
}

std::string compact(Day day) {
  std::string text = date_text(day);
  std::erase(text, '-');
  return text;
}

class Calendar {
 public:
  Calendar(const Book& book, Day as_of) : book_(book), as_of_(as_of) {
    for (const char* line :
         {"BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//driftwarden//review//EN", "CALSCALE:GREGORIAN"})
      append_line(out_, line);
  }

  // `what` and `about` tell the entries of a book apart and stay the same from review to review.
  void entry(std::string_view what, const std::string& about, Day day, const std::string& more) {
    std::string told_apart = book_.settings.title;
    for (const std::string_view part : {what, std::string_view(about)}) (told_apart += '\n') += part;
    append_line(out_, "BEGIN:VEVENT");
    append_line(out_, "UID:" + sha256_of(told_apart).substr(0, 32) + "@driftwarden.invalid");
    append_line(out_, "DTSTAMP:" + compact(as_of_) + "T000000Z");
    append_line(out_, "DTSTART;VALUE=DATE:" + compact(day));
    append_line(out_, "DTEND;VALUE=DATE:" + compact(day + 1));
    append_line(out_, "SUMMARY:" + value_of(std::string(what) + ": " + about));
    append_line(out_, "DESCRIPTION:" + value_of(more + "\n" + book_.settings.title + ", as of " + date_text(as_of_) +
                                                ".\n" + std::string(cautions_in_a_line)));
    append_line(out_, "TRANSP:TRANSPARENT");  // nobody is busy because of it
    append_line(out_, "END:VEVENT");
  }

  std::string finished() {
    append_line(out_, "END:VCALENDAR");
    return std::move(out_);
  }

 private:
  const Book& book_;
  const Day as_of_;
  std::string out_;
};

}  // namespace

std::string review_brief(const Screening& screening, const Review& review) {
  const std::size_t recent = review.recent_actions();
  std::string text = "Review of " + screening.book().settings.title + ", " + date_text(review.period.from) + " to " +
                     date_text(review.period.to) + "\n";
  text += how_much(review) + ". " + of_verdicts(review.recent) + '\n';
  const std::size_t shown = recent <= most_lines_of_actions ? recent : most_lines_of_actions - 1;
  for (std::size_t i = 0; i < shown; ++i) text += line_of(i + 1, review.actions[i], review.period.to);
  if (shown < recent) text += "And " + std::to_string(recent - shown) + " more: the page of the review has them.\n";
  return text + std::string(cautions) + '\n';
}

std::string review_calendar(const Screening& screening, const Review& review, Day as_of) {
  const Book& book = screening.book();
  Calendar calendar(book, as_of);
  for (const InstrumentStanding& standing : review.instruments) {
    if (!standing.is_in_service || standing.due == no_day || !standing.has_to_be_calibrated(book)) continue;
    const std::string certificate = standing.newest == nullptr ? "No certificate of it is in the book."
                                                               : "Certificate " + standing.newest->name + " of " +
                                                                     date_text(standing.newest->calibrated) + ".";
    calendar.entry("Calibration due", book.instruments[standing.instrument].name, standing.due, certificate);
  }
  for (const ReviewAction& action : review.actions) {
    // the calibrations stand above, unless somebody has to see to one by another day
    const Day day = action.last_day();
    if (day == no_day || (action.kind == ActionKind::recalibrate_soon && day == action.by)) continue;
    const std::string& who = action.assigned.who;
    calendar.entry(to_text(action.kind), action.name, day, (who.empty() ? "" : who + ": ") + action.what);
  }
  return calendar.finished();
}

}  // namespace driftwarden
