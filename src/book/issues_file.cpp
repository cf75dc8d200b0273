// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <map>

#include "book/row_blocks.hpp"
#include "book/stamp_text.hpp"
#include "book/table_files.hpp"
#include "diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

enum IssueField : int {
  issue_kit,
  issue_kind,
  issue_instrument,
  issue_item,
  issue_out,
  issue_to,
  issue_checked_by,
  issue_due_back,
  issue_charged,
  issue_back,
  issue_checked_back_by,
  issue_condition,
  issue_missing,
  issue_note
};
constexpr std::array<FieldSpec, 14> issue_fields{{
    {issue_kit, "kit", CellType::text, Dimension::count, true},
    {issue_kind, "kind of kit"},
    {issue_instrument, "instrument"},
    {issue_item, "item"},
    {issue_out, "out", CellType::date},
    {issue_to, "to"},
    {issue_checked_by, "checked by"},
    {issue_due_back, "due back", CellType::date},
    {issue_charged, "charged", CellType::word},
    {issue_back, "back", CellType::date},
    {issue_checked_back_by, "checked back by"},
    {issue_condition, "condition", CellType::word},
    {issue_missing, "missing", CellType::word},
    {issue_note, "note"},
}};
static_assert(are_complete(issue_fields, issue_note));
constexpr const char* correct_a_day = "correct the day that is wrong";

class IssueRows {
 public:
  IssueRows(const TableFile& file, const BookInHand& hand, const InstrumentIndex& instruments)
      : file_(file), hand_(hand), instruments_(instruments), row_(hand.context(file, issues_spec)) {
    for (const KitItem& item : hand.book.kit_items) items_of_[item.kind].push_back(&item);
  }

  void operator()(const CsvScanner& scanner, Row, std::uint32_t line) {
    row_.start(scanner, line);
    Issue next;
    next.place = {file_.number, line};
    read_what(next);
    read_way_out(next);
    read_way_back(next);
    next.note = row_.note(issue_note);
    // A row that can't be understood puts nothing anywhere.
    if (row_.problem() == no_problem) hand_.book.issues.push_back(std::move(next));
  }

 private:
  void read_what(Issue& next) {
    next.kit = row_.kept_text(issue_kit);
    next.kind = row_.kept_text(issue_kind);
    next.item = row_.kept_text(issue_item);
    next.instrument = named_instrument(instruments_, hand_, row_, issue_instrument, "issues/unknown-instrument");
    if (next.item.empty() && row_.text(issue_instrument).empty())
      row_.fail(issue_instrument, "issues/nothing", "the row names neither an instrument nor an item",
                "name an instrument of instruments.csv, or write under 'item' what belongs to the kit");
    if (next.kit.empty() || items_of_.empty()) return;
    if (const auto kind = items_of_.find(next.kind_of_kit()); kind != items_of_.end())
      return look_at_item(next, kind->second);
    row_.doubt(next.kind.empty() ? issue_kit : issue_kind, "issues/unknown-kind",
               "no row of kits.csv says what belongs to a kit of the kind " + in_quotes(next.kind_of_kit()),
               next.kind.empty() ? "write its kind under 'kind of kit', as kits.csv calls it"
                                 : "write the kind as kits.csv calls it, or add to kits.csv what belongs to it");
  }

  // An item that stands beside an instrument says what the instrument is in the kit, and nothing else.
  void look_at_item(const Issue& next, const std::vector<const KitItem*>& items) {
    if (next.item.empty() || row_.problem() != no_problem) return;
    const auto found = std::ranges::find(items, next.item, &KitItem::item);
    const bool is_of_instrument = next.instrument != no_row;
    if (found == items.end()) {
      std::vector<std::string> names;
      for (const KitItem* item : items) names.push_back(item->item);
      const std::string near = nearest(next.item, names);
      row_.doubt(
          issue_item, "issues/unknown-item",
          "by kits.csv no " + in_quotes(next.item) + " belongs to a kit of the kind " + in_quotes(next.kind_of_kit()),
          (near.empty() ? "" : "did you mean " + in_quotes(near) + "? ") +
              "else add it to kits.csv, or leave it if it went along beyond the list");
    } else if (is_of_instrument && (*found)->instrument != hand_.book.instruments[next.instrument].kind) {
      const Instrument& it = hand_.book.instruments[next.instrument];
      row_.doubt(issue_item, "issues/two-things",
                 "the row names " + it.name + ", a " + std::string(to_text(it.kind)) + ", and beside it " +
                     in_quotes(next.item) + ", which by kits.csv is something else; it is taken as a row of " + it.name,
                 "give each thing a row of its own: an instrument by its name, an item without a serial number by its "
                 "item alone");
    }
  }

  void read_way_out(Issue& next) {
    next.out = row_.date(issue_out);
    next.to = row_.kept_text(issue_to);
    next.checked_by = row_.kept_text(issue_checked_by);
    next.due_back = row_.date(issue_due_back);
    next.charged = row_.yes_no(issue_charged);
    if (next.out != no_day && next.due_back != no_day && next.due_back < next.out)
      row_.fail(issue_due_back, "issues/order",
                "it is due back on " + date_text(next.due_back) + ", before it went out on " + date_text(next.out),
                correct_a_day);
  }

  void read_way_back(Issue& next) {
    next.back = row_.date(issue_back);
    next.checked_back_by = row_.kept_text(issue_checked_back_by);
    const int how = row_.word(issue_condition, came_back_words);
    if (how >= 0) next.came_back = static_cast<CameBack>(how + 1);
    next.missing = row_.yes_no(issue_missing);
    if (row_.problem() != no_problem) return;
    if (how >= 0 && next.back == no_day)
      row_.doubt(issue_condition, "issues/no-day-back",
                 "it came back " + std::string(to_text(next.came_back)) +
                     ", but the day is not written down; it counts as not yet back",
                 "write that day under 'back'");
    if (next.back == no_day) return;
    if (next.out == no_day) {
      row_.fail(issue_out, "issues/order",
                "it came back on " + date_text(next.back) + ", but the day it went out is not written down",
                "write that day under 'out'");
    } else if (next.back < next.out) {
      row_.fail(issue_back, "issues/order",
                "it came back on " + date_text(next.back) + ", before it went out on " + date_text(next.out),
                correct_a_day);
    }
  }

  const TableFile& file_;
  const BookInHand& hand_;
  const InstrumentIndex& instruments_;
  RowReader row_;
  std::map<std::string, std::vector<const KitItem*>> items_of_;  // by kind of kit
};

}  // namespace

const TableSpec issues_spec{"issues", issue_fields};

void read_issues(const std::vector<TableFile>& files, const BookInHand& hand) {
  const InstrumentIndex instruments = index_of_instruments(hand.book.instruments);
  for (const TableFile& file : files) read_rows_in_order(file, IssueRows(file, hand, instruments));
}

}  // namespace driftwarden
