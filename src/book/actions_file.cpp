// SPDX-License-Identifier: MIT
#include <array>

#include "book/row_blocks.hpp"
#include "book/stamp_text.hpp"
#include "book/table_files.hpp"

namespace driftwarden {
namespace {

enum Field : int { written, by, action, about, name, who, due, done, note };
constexpr std::array<FieldSpec, 9> fields{{
    {written, "written", CellType::moment, Dimension::count, true},
    {by, "by", CellType::text, Dimension::count, true},
    {action, "action", CellType::word, Dimension::count, true},
    {about, "about", CellType::word, Dimension::count, true},
    {name, "name"},
    {who, "who"},
    {due, "due", CellType::date},
    {done, "done", CellType::word},
    {note, "note"},
}};
static_assert(are_complete(fields, note));

class AssignmentRows {
 public:
  AssignmentRows(const TableFile& file, const BookInHand& hand)
      : file_(file), hand_(hand), row_(hand.context(file, actions_spec)) {}

  void operator()(const CsvScanner& scanner, Row, std::uint32_t line) {
    row_.start(scanner, line);
    Assignment next;
    next.place = {file_.number, line};
    next.written = row_.moment(written);
    next.by = row_.kept_text(by);
    const int kind = row_.word(action, action_kind_words);
    const int of = row_.word(about, action_subject_words);
    if (kind >= 0) next.action.kind = static_cast<ActionKind>(kind);
    if (of >= 0) next.action.of = static_cast<ActionSubject>(of);
    next.action.name = row_.kept_text(name);
    next.who = row_.kept_text(who);
    next.due = row_.date(due);
    next.done = row_.yes_no(done);
    next.note = row_.note(note);
    // A row that can't be understood gives nobody anything to do.
    if (row_.problem() == no_problem) hand_.book.assignments.push_back(std::move(next));
  }

 private:
  const TableFile& file_;
  const BookInHand& hand_;
  RowReader row_;
};

}  // namespace

const TableSpec actions_spec{"actions", fields};

void read_actions(const std::vector<TableFile>& files, const BookInHand& hand) {
  for (const TableFile& file : files) read_rows_in_order(file, AssignmentRows(file, hand));
}

std::vector<std::string> cells_of(const Assignment& assignment, const TimeZone& zone) {
  const char* is_done = assignment.done == YesNo::unsaid ? "" : assignment.done == YesNo::yes ? "yes" : "no";
  return {local_text(assignment.written, zone),
          assignment.by,
          std::string(to_text(assignment.action.kind)),
          std::string(to_text(assignment.action.of)),
          assignment.action.name,
          assignment.who,
          assignment.due == no_day ? "" : date_text(assignment.due),
          is_done,
          assignment.note};
}

}  // namespace driftwarden
