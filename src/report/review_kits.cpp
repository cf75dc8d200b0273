// SPDX-License-Identifier: MIT
#include "book/stamp_text.hpp"
#include "quantity/rounding.hpp"
#include "report/kit_list.hpp"
#include "report/review_parts.hpp"

namespace driftwarden {
namespace {

void append_row(HtmlText& html, const KitOut& kit, std::string_view state, Day late, const std::string& what) {
  const auto cell = [&html](std::string_view label, const std::string& text) {
    html.element("td", {{"data-label", label}}, text);
  };
  html.open("tr", {{"class", late > 0 || state == "missing" ? "overdue" : "other"}});
  html.element_from_book("th", {{"scope", "row"}}, kit.kit()).element_from_book("td", {}, kit.to);
  html.element("td", state);
  cell("out", kit.is_out() ? date_text(kit.out()) : "");
  cell("due back", kit.due_back == no_day ? "" : date_text(kit.due_back));
  cell("days over", late > 0 ? std::to_string(late) : "");
  html.element_from_book("td", {}, what).close().line_end();
}

void append_row(HtmlText& html, const Book& book, const KitOut& kit, Day as_of) {
  const Day late = kit.overdue_d(as_of);
  append_row(html, kit, late > 0 ? "overdue" : kit.is_out() ? "out" : "being put together", late, things_of(book, kit));
}

void append_unfit(HtmlText& html, const Book& book, const KitsOut& kits) {
  if (kits.unfit.empty()) {
    html.element("p", kits.not_known.empty() ? "Every instrument in service is fit to go."
                                             : "By what is known, every instrument in service is fit to go.");
    return;
  }
  open_table(html, "unfit", "Instruments that are not fit to go", {"Not fit to go", "Why", "Where it is"});
  html.open("tbody").line_end();
  for (const UnfitInstrument& each : kits.unfit) {
    html.open("tr").element_from_book("th", {{"scope", "row"}}, book.instruments[each.instrument].name);
    html.element_from_book("td", {}, kits.why_unfit(each.instrument)).element_from_book("td", {}, each.where);
    html.close().line_end();
  }
  html.close();
  close_table(html);
}

// On paper the list is one line: whoever ticks kits off has a sheet for each, and what is to be done stands first.
std::string in_short(const KitsOut& kits) {
  return "Kits: " + std::to_string(kits.out.size()) + " out, " + std::to_string(kits.being_packed.size()) +
         " being put together, " + counted(kits.missing.size(), "thing", "things") + " missing, " +
         counted(kits.unfit.size(), "instrument", "instruments") + " not fit to go; driftwarden kit prints the list." +
         (kits.not_known.empty() ? "" : " " + kits.not_known);
}

}  // namespace

void append_kits(HtmlText& html, const ReviewPage& page) {
  const Book& book = page.screening.book();
  if (!keeps_kits(book)) return;
  const KitsOut& kits = page.review.kits;
  html.element("p", {{"class", "note on-paper"}}, in_short(kits)).line_end();
  html.open("div", {{"class", "off-paper"}}).element("h3", "Kits");
  if (!kits.not_known.empty()) html.element("p", kits.not_known);
  if (kits.out.empty() && kits.being_packed.empty() && kits.missing.empty()) {
    if (kits.not_known.empty()) html.element("p", "No kit is out, and nothing is missing.");
  } else {
    open_table(html, "kits", "Kits that are out, and what is missing",
               {"Kit", "With", "State", "Out", "Due back", "Days over", "What"});
    html.open("tbody").line_end();
    for (const std::vector<KitOut>* all : {&kits.out, &kits.being_packed}) {
      for (const KitOut& kit : *all) append_row(html, book, kit, page.as_of);
    }
    for (const Issue* issue : kits.missing) append_row(html, KitOut(*issue), "missing", 0, thing_of(book, *issue));
    html.close();
    close_table(html);
  }
  append_unfit(html, book, kits);
  html.close().line_end();
}

}  // namespace driftwarden
