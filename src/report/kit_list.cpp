// SPDX-License-Identifier: MIT
#include "report/kit_list.hpp"

#include "book/stamp_text.hpp"
#include "diagnostic/joined.hpp"
#include "quantity/rounding.hpp"
#include "report/csv_text.hpp"
#include "report/terminal_text.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t name_width = 11;

class KitListTable {
 public:
  KitListTable(const Book& book, const KitsOut& kits, Day as_of, Paint paint)
      : book_(book), kits_(kits), as_of_(as_of), paint_(paint) {}

  std::string text() {
    out_ = paint_.heading("Kits as of " + date_text(as_of_)) + "\n" + book_.settings.title + "\n";
    all_of("Being put together", kits_.being_packed);
    all_of("Out", kits_.out);
    if (!kits_.not_known.empty()) {
      out_ += "\n" + wrapped(kits_.not_known, 0, table_width);
    } else if (kits_.being_packed.empty() && kits_.out.empty()) {
      out_ += "\nNo kit is out.\n";
    }
    missing();
    unfit();
    return std::move(out_) + "\n" + wrapped(cautions, 0, table_width);
  }

 private:
  void heading(const std::string& words) { out_ += "\n" + paint_.heading(words) + "\n"; }

  // A name, and a text that goes on below itself.
  void named(const std::string& name, const std::string& text) {
    const std::string lines = wrapped(text, name_width + 2, table_width);
    const bool is_short = characters_in(name) < name_width;
    out_ += is_short ? "  " + left(name, name_width) + lines.substr(name_width + 2) : "  " + name + "\n" + lines;
  }

  void all_of(const std::string& words, const std::vector<KitOut>& kits) {
    if (kits.empty()) return;
    heading(words);
    for (const KitOut& kit : kits) {
      named(kit.kit(), standing_of(kit, as_of_));
      out_ += wrapped(things_of(book_, kit), name_width + 2, table_width);
    }
  }

  void missing() {
    if (kits_.missing.empty()) return;
    heading("Missing");
    for (const Issue* issue : kits_.missing)
      named(issue->kit, thing_of(book_, *issue) +
                            (issue->back == no_day ? "" : ", since the kit came back on " + date_text(issue->back)) +
                            " [" + book_.place_text(book_.files.issues, issue->place) + "]");
  }

  void unfit() {
    heading("Not fit to go");
    if (kits_.unfit.empty()) out_ += kits_.not_known.empty() ? "  none\n" : "  none by what is known\n";
    for (const UnfitInstrument& each : kits_.unfit) {
      std::string text = joined(each.why, "; ");
      if (!each.where.empty()) text += " (" + each.where + ")";
      named(book_.instruments[each.instrument].name, text);
    }
  }

  const Book& book_;
  const KitsOut& kits_;
  Day as_of_;
  Paint paint_;
  std::string out_;
};

class KitListCsv {
 public:
  KitListCsv(const Book& book, Day as_of) : book_(book), as_of_(as_of) {}

  void add(const KitOut& of, const Issue& issue, std::string_view state, Day overdue_d, const std::string& why) {
    cell(issue.kit, "");
    cell(of.kind);
    instrument(issue.instrument);
    cell(issue.item);
    cell(state);
    cell(issue.out == no_day ? "" : date_text(issue.out));
    cell(of.to);
    cell(of.due_back == no_day ? "" : date_text(of.due_back));
    cell(overdue_d == 0 ? "" : std::to_string(overdue_d));
    cell(issue.back == no_day || issue.back > as_of_ ? "" : date_text(issue.back));
    cell(why);
    cell(book_.place_text(book_.files.issues, issue.place));
    end();
  }

  void add(const UnfitInstrument& unfit) {
    cell("", "");
    cell("");
    instrument(unfit.instrument);
    cell("");
    cell("not fit to go");
    for (int i = 0; i < 5; ++i) cell("");
    cell(joined(unfit.why, "; ") + (unfit.where.empty() ? "" : " (" + unfit.where + ")"));
    cell(book_.place_text(book_.files.instruments, book_.instruments[unfit.instrument].place));
    end();
  }

  void add_not_known(const std::string& what) {
    if (what.empty()) return;
    cell("", "");
    for (int i = 0; i < 4; ++i) cell("");
    cell("not known");
    for (int i = 0; i < 5; ++i) cell("");
    cell(what);
    cell("");
    end();
  }

  std::string text =
      "kit,kind_of_kit,instrument,serial,item,state,out,to,due_back,days_overdue,back,why,row,cautions\n";

 private:
  void cell(std::string_view what, std::string_view before = ",") {
    text += before;
    append_csv_for_people(text, what);
  }
  void instrument(Row row) {
    cell(row == no_row ? "" : book_.instruments[row].name);
    cell(row == no_row ? "" : book_.instruments[row].serial);
  }
  void end() {
    cell(cautions);
    text += '\n';
  }

  const Book& book_;
  Day as_of_;
};

}  // namespace

std::string things_of(const Book& book, const KitOut& kit) {
  return joined(kit.things, ", ", [&book](const Issue* thing) { return thing_of(book, *thing); });
}

std::string overdue_text(Day days) {
  return days == 0 ? "" : "overdue by " + counted(static_cast<std::size_t>(days), "day", "days");
}

std::string standing_of(const KitOut& kit, Day as_of) {
  std::string text = kit.kind == kit.kit() ? "" : kit.kind + "; ";
  text += kit.is_out() ? "out since " + date_text(kit.out()) : "not yet out";
  if (!kit.to.empty()) text += (kit.is_out() ? " with " : ", for ") + kit.to;
  if (kit.due_back != no_day) text += ", due back on " + date_text(kit.due_back);
  if (const Day late = kit.overdue_d(as_of); late > 0) text += ": " + overdue_text(late);
  return text;
}

std::string kit_list_table(const Book& book, const KitsOut& kits, Day as_of, Paint paint) {
  return KitListTable(book, kits, as_of, paint).text();
}

std::string kit_list_csv(const Book& book, const KitsOut& kits, Day as_of) {
  KitListCsv csv(book, as_of);
  for (const auto& [all, state] : {std::pair{&kits.being_packed, "being put together"}, std::pair{&kits.out, "out"}}) {
    for (const KitOut& kit : *all) {
      const Day late = kit.overdue_d(as_of);
      for (const Issue* thing : kit.things)
        csv.add(kit, *thing, late > 0 ? "overdue" : state, late,
                thing->instrument == no_row ? "" : kits.why_unfit(thing->instrument));
    }
  }
  for (const Issue* issue : kits.missing) csv.add(KitOut(*issue), *issue, "missing", 0, "");
  for (const UnfitInstrument& each : kits.unfit) csv.add(each);
  csv.add_not_known(kits.not_known);
  return std::move(csv.text);
}

}  // namespace driftwarden
