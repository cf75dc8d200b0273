// SPDX-License-Identifier: MIT
#include <algorithm>
#include <ostream>

#include "command/output.hpp"
#include "command/reviewed.hpp"
#include "diagnostic/suggestion.hpp"
#include "doubt/kits_at_odds.hpp"
#include "report/kit_json.hpp"
#include "report/kit_list.hpp"
#include "report/kit_sheet.hpp"

namespace driftwarden {
namespace {

const std::initializer_list<std::string_view> kit_formats = {"table", "csv", "json", "html", "pdf"};

// Whether something must not go, or should be here by now. Where nobody says what is in a kit, anything may be.
bool is_amiss(const OpenedBook& opened, const KitsOut& kits) {
  if (opened.book.issues.empty()) return !kits.unfit.empty();
  const auto holds_unfit = [&](const KitOut& kit) {
    return std::ranges::any_of(kit.things, [&](const Issue* thing) {
      return thing->instrument != no_row && !kits.why_unfit(thing->instrument).empty();
    });
  };
  return !kits.missing.empty() || std::ranges::any_of(kits.being_packed, holds_unfit) ||
         std::ranges::any_of(kits.out,
                             [&](const KitOut& kit) { return kit.overdue_d(opened.as_of) > 0 || holds_unfit(kit); });
}

int finish(const OpenedBook& opened, bool is_amiss) {
  if (opened.has_faults()) return cannot_be_used;
  return is_amiss ? something_is_amiss : all_is_well;
}

std::string list_as(const std::string& format, const OpenedBook& opened, const KitsOut& kits, const KitOptions& options,
                    const Surroundings& surroundings) {
  if (format == "csv") return kit_list_csv(opened.book, kits, opened.as_of);
  if (format == "json") return kits_json(opened.book, kits, opened.as_of, surroundings.version);
  return kit_list_table(opened.book, kits, opened.as_of, Paint(options.out.empty() && surroundings.out_is_terminal));
}

std::string sheet_as(const std::string& format, const KitSheet& sheet) {
  if (format == "json") return kit_json(sheet);
  return format == "table" ? kit_sheet_table(sheet) : kit_page(sheet);
}

int write_list(const OpenedBook& opened, const KitsOut& kits, const KitOptions& options, Surroundings& surroundings) {
  const auto format = format_meant(options.format, options.out, kit_formats, surroundings);
  if (!format) return cannot_be_used;
  if (*format == "html" || *format == "pdf")
    return refuse({error("command/refused", {"command line", 0, 0}, "a page is made of one kit's list",
                         "name a kit, or a kind of kit, with --kit")},
                  surroundings);
  if (!write_out(list_as(*format, opened, kits, options, surroundings), *format, options.out, surroundings))
    return cannot_be_used;
  return finish(opened, is_amiss(opened, kits));
}

std::string hint_for(const Book& book, const std::string& name) {
  std::vector<std::string> names;
  for (const Issue& issue : book.issues) names.push_back(issue.kit);
  for (const KitItem& item : book.kit_items) names.push_back(item.kind);
  const std::string near = nearest(name, names);
  return near.empty() ? "name a kit of issues.csv, or a kind of kit of kits.csv"
                      : "did you mean " + in_quotes(near) + "?";
}

int write_sheet(const OpenedBook& opened, const KitsOut& kits, const KitOptions& options, Surroundings& surroundings) {
  std::optional<KitSheet> sheet = kit_sheet_of(opened.book, kits, options.kit, opened.as_of);
  if (!sheet)
    return refuse({error("command/refused", {"command line", 0, 0},
                         "there is no kit, and no kind of kit, called " + in_quotes(options.kit),
                         hint_for(opened.book, options.kit))},
                  surroundings);
  const auto format = format_meant(options.format, options.out, kit_formats, surroundings);
  if (!format) return cannot_be_used;
  if (*format == "csv")
    return refuse({error("command/refused", {"command line", 0, 0}, "one kit's list is a table or a page",
                         "leave --kit out: the list of all kits is written as CSV")},
                  surroundings);
  sheet->version = surroundings.version;
  sheet->paper = paper_of(*format, options.paper);
  if (!write_result({sheet_as(*format, *sheet), *format, options.out, opened.as_of}, surroundings))
    return cannot_be_used;
  return finish(opened, sheet->is_amiss());
}

}  // namespace

int run_kit(const KitOptions& options, Surroundings& surroundings) {
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  if (!options.out.empty() && tell_over_the_book(opened->book, options.out, surroundings)) return cannot_be_used;
  Diagnostics doubts;
  note_issues(opened->book, opened->as_of, doubts);
  tell_first(surroundings.err, doubts);
  const std::optional<WorkedReview> worked = worked_review(*opened, days_of_a_review, surroundings);
  if (!worked) return cannot_be_used;
  const KitsOut& kits = worked->review.kits;
  return options.kit.empty() ? write_list(*opened, kits, options, surroundings)
                             : write_sheet(*opened, kits, options, surroundings);
}

}  // namespace driftwarden
