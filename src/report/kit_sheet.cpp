// SPDX-License-Identifier: MIT
#include "report/kit_sheet.hpp"

#include <algorithm>

#include "book/stamp_text.hpp"
#include "book/whereabouts.hpp"
#include "report/kit_list.hpp"
#include "report/paint.hpp"
#include "report/terminal_text.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

using Things = std::vector<const Issue*>;

std::string day_or_nothing(Day day, Day as_of) { return day == no_day || day > as_of ? "" : date_text(day); }

// What of a kit was put in last: what is being packed or out, else what came back last.
Things newest_things(const Book& book, const std::string& kit, Day as_of) {
  const Issue* newest = nullptr;
  const auto is_later = [](const Issue& a, const Issue& b) {
    return a.out == no_day ? b.out != no_day : b.out != no_day && a.out > b.out;
  };
  for (const Issue& issue : book.issues) {
    const bool is_known = issue.kit == kit && (issue.out == no_day || issue.out <= as_of);
    if (is_known && (newest == nullptr || is_later(issue, *newest))) newest = &issue;
  }
  Things things;
  for (const Issue& issue : book.issues) {
    if (newest != nullptr && issue.kit == kit && issue.out == newest->out) things.push_back(&issue);
  }
  return things;
}

class SheetMaker {
 public:
  SheetMaker(const Book& book, const KitsOut& kits, Things things, Day as_of)
      : book_(book), kits_(kits), things_(std::move(things)), where_(book, as_of) {}

  std::vector<KitLine> lines(const std::string& kind) {
    for (const KitItem& item : book_.kit_items) {
      if (item.kind == kind) item.instrument ? instruments(item) : thing(item);
    }
    for (const Issue* left : things_) {
      lines_.push_back(line_of({}, *left));
      lines_.back().is_beyond_the_list = true;
    }
    return std::move(lines_);
  }

 private:
  // Takes the first thing out of those not yet on the list.
  template <class IsIt>
  const Issue* take(IsIt is_it) {
    const auto found = std::ranges::find_if(things_, [&](const Issue* issue) { return is_it(*issue); });
    if (found == things_.end()) return nullptr;
    const Issue* taken = *found;
    things_.erase(found);
    return taken;
  }

  // A row that names the item as kits.csv does, before one that leaves it out.
  void instruments(const KitItem& item) {
    for (unsigned i = 0; i < item.number; ++i) {
      const auto is_such = [&](const Issue& issue) {
        return issue.instrument != no_row && book_.instruments[issue.instrument].kind == *item.instrument;
      };
      const Issue* taken = take([&](const Issue& issue) { return is_such(issue) && issue.item == item.item; });
      if (taken == nullptr) taken = take([&](const Issue& issue) { return is_such(issue) && issue.item.empty(); });
      KitItem one = item;
      one.number = 1;
      lines_.push_back(taken == nullptr ? line_of(one) : line_of(one, *taken));
    }
  }

  // A row stands for one piece; a single one that is in order, or not yet back, for all that no other row speaks of.
  void thing(const KitItem& item) {
    const Things rows = rows_of(item);
    const auto stands_for_one = [this](const Issue* issue) {
      const bool is_back_unlike_the_others =
          where_.back_of(*issue) != no_day &&
          (issue->came_back == CameBack::damaged || issue->came_back == CameBack::dirty);
      return where_.is_missing(*issue) || is_back_unlike_the_others;
    };
    const auto ones = static_cast<std::size_t>(std::ranges::count_if(rows, stands_for_one));
    KitItem left = item;
    for (const Issue* row : rows) {
      KitItem part = item;
      part.number = !stands_for_one(row) && rows.size() - ones == 1 ? item.number - static_cast<unsigned>(ones) : 1;
      left.number -= part.number;
      lines_.push_back(line_of(part, *row));
    }
    if (left.number > 0) lines_.push_back(line_of(left));
  }

  // As many as belong to the kit at most; others go beyond its list.
  Things rows_of(const KitItem& item) {
    Things rows;
    while (rows.size() < item.number) {
      const Issue* taken =
          take([&](const Issue& issue) { return issue.instrument == no_row && issue.item == item.item; });
      if (taken == nullptr) break;
      rows.push_back(taken);
    }
    return rows;
  }

  static KitLine line_of(const KitItem& item) {
    KitLine line;
    line.item = item.item;
    line.number = item.number;
    line.is_instrument = item.instrument.has_value();
    line.note = item.note;
    return line;
  }

  KitLine line_of(const KitItem& item, const Issue& issue) const {
    KitLine line = line_of(item);
    if (issue.instrument != no_row) {
      const Instrument& instrument = book_.instruments[issue.instrument];
      line.is_instrument = true;
      line.instrument = instrument.name;
      line.serial = instrument.serial;
      line.why_unfit = where_.is_packed(issue) || where_.is_out(issue) ? kits_.why_unfit(issue.instrument) : "";
      if (line.item.empty()) line.item = issue.item.empty() ? std::string(to_text(instrument.kind)) : issue.item;
    }
    if (line.item.empty()) line.item = issue.item;
    line.is_charged = issue.charged == YesNo::yes;
    line.is_missing = where_.is_missing(issue);
    if (!where_.is_packed(issue) && !where_.is_out(issue)) line.came_back = how_it_came_back(issue, line.is_missing);
    return line;
  }

  static std::string how_it_came_back(const Issue& issue, bool is_missing) {
    if (is_missing) return "missing";
    if (issue.missing == YesNo::yes) return "missing, and out again since";
    return issue.came_back == CameBack::unsaid ? "back" : std::string(to_text(issue.came_back));
  }

  const Book& book_;
  const KitsOut& kits_;
  Things things_;
  const Whereabouts where_;
  std::vector<KitLine> lines_;
};

// What the rows of one going-out say of the whole.
void fill_in(KitSheet& sheet, const Things& things, Day as_of) {
  if (things.empty()) return;
  KitOut whole(*things.front());
  std::for_each(things.begin() + 1, things.end(), [&whole](const Issue* issue) { whole.add(*issue); });
  sheet.kit = whole.kit();
  sheet.kind = whole.kind;
  sheet.to = whole.to;
  sheet.due_back = whole.due_back == no_day ? "" : date_text(whole.due_back);
  for (const Issue* issue : things) {
    const auto say = [](std::string& of, const std::string& said) {
      if (of.empty()) of = said;
    };
    say(sheet.out, day_or_nothing(issue->out, as_of));
    say(sheet.checked_by, issue->checked_by);
    say(sheet.back, day_or_nothing(issue->back, as_of));
    if (!day_or_nothing(issue->back, as_of).empty()) say(sheet.checked_back_by, issue->checked_back_by);
  }
}

class SheetTable {
 public:
  explicit SheetTable(const KitSheet& sheet) : sheet_(sheet) {}

  std::string text() {
    out_ = (sheet_.kit.empty() ? "List of a kit: " + sheet_.kind : "List of kit " + sheet_.kit) + "\n" + sheet_.title +
           "\n\n";
    if (!sheet_.kit.empty() && sheet_.kind != sheet_.kit) fact("kind of kit", sheet_.kind);
    fact("to", sheet_.to);
    fact("out", sheet_.out);
    fact("checked out by", sheet_.checked_by);
    fact("due back", due_back_text(sheet_));
    fact("back", sheet_.back);
    fact("checked back by", sheet_.checked_back_by);
    out_ += "\nout back\n";
    for (const KitLine& line : sheet_.lines) thing(line);
    return std::move(out_) + "\n" + wrapped(cautions, 0, table_width);
  }

 private:
  void fact(std::string_view name, const std::string& text) {
    out_ += left(name, 16) + (text.empty() ? "________________" : text) + "\n";
  }

  void thing(const KitLine& line) {
    std::string text = (line.number > 1 ? std::to_string(line.number) + " × " : "") + line.item;
    if (line.is_instrument)
      text += ": " + (line.instrument.empty() ? "________________" : line.instrument) +
              (line.serial.empty() ? "" : ", serial number " + line.serial);
    if (line.is_charged) text += "; is charged";
    if (!line.note.empty()) text += " (" + line.note + ")";
    if (!line.came_back.empty()) text += "; came back: " + line.came_back;
    if (line.is_beyond_the_list) text += "; not on the list of this kind of kit";
    out_ += "[ ] [ ]  " + wrapped(text, 9, table_width).substr(9);
    if (!line.why_unfit.empty()) out_ += wrapped("NOT FIT TO GO: " + line.why_unfit, 9, table_width);
  }

  const KitSheet& sheet_;
  std::string out_;
};

}  // namespace

std::optional<KitSheet> kit_sheet_of(const Book& book, const KitsOut& kits, const std::string& name, Day as_of) {
  Things things = newest_things(book, name, as_of);
  const bool is_kind = std::ranges::any_of(book.kit_items, [&](const KitItem& item) { return item.kind == name; });
  if (things.empty() && !is_kind) return std::nullopt;
  KitSheet sheet;
  sheet.title = book.settings.title;
  sheet.kind = name;
  sheet.as_of = date_text(as_of);
  fill_in(sheet, things, as_of);
  for (const KitOut& kit : kits.out) {
    if (kit.kit() != sheet.kit || kit.out() != things.front()->out || kit.due_back == no_day) continue;
    sheet.due_back = date_text(kit.due_back);
    sheet.overdue_d = kit.overdue_d(as_of);
  }
  sheet.lines = SheetMaker(book, kits, std::move(things), as_of).lines(sheet.kind);
  return sheet;
}

bool KitSheet::is_amiss() const {
  return overdue_d > 0 ||
         std::ranges::any_of(lines, [](const KitLine& line) { return line.is_missing || !line.why_unfit.empty(); });
}

std::string due_back_text(const KitSheet& sheet) {
  return sheet.overdue_d == 0 ? sheet.due_back : sheet.due_back + ": " + overdue_text(sheet.overdue_d);
}

std::string kit_sheet_table(const KitSheet& sheet) { return SheetTable(sheet).text(); }

}  // namespace driftwarden
