// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "history/kits_out.hpp"

namespace driftwarden {

// One thing on a kit's list.
struct KitLine {
  std::string item;
  unsigned number = 1;
  bool is_instrument = false;  // to be written in where no name stands
  std::string instrument;
  std::string serial;
  std::string why_unfit;            // "" where it is fit to go, or nobody knows which instrument it is
  std::string note;                 // of kits.csv: what to look at
  std::string came_back;            // as issues.csv says: "good", "missing"; "" where nothing is written yet
  bool is_missing = false;          // and has not gone out again since
  bool is_charged = false;          // as it was checked on the way out
  bool is_beyond_the_list = false;  // kits.csv says of none such that it belongs to the kit
};

// A kit's list, to be ticked on the way out and on the way back. What nobody has written down yet is a line to write
// on.
struct KitSheet {
  std::string title;  // of the book
  std::string kit;    // "" of a list for any kit of its kind
  std::string kind;
  std::string out, to, checked_by, due_back, back, checked_back_by;
  Day overdue_d = 0;
  std::string as_of, version;
  std::string paper;  // CSS size of the sheet, "A4"; "" leaves it to the printer
  std::vector<KitLine> lines;

  // Whether it should be here by now, or something of it is missing or must not go.
  bool is_amiss() const;
};

// The list of a kit as it last went out, or is being put together; else of a kind of kit, with nothing filled in.
// Nothing where the name is neither.
std::optional<KitSheet> kit_sheet_of(const Book& book, const KitsOut& kits, const std::string& name, Day as_of);

// "2026-11-15: overdue by 1 day"; "" where nobody says.
std::string due_back_text(const KitSheet& sheet);

// As text for a terminal, and as a page.
std::string kit_sheet_table(const KitSheet& sheet);
std::string kit_page(const KitSheet& sheet);

}  // namespace driftwarden
