// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace driftwarden {

// A sheet of labels as it is sold, by its measures in millimetres: all labels of one size in rows and columns. Common
// practice: sizes that many makers sell; those in whole parts of an inch are for Letter.
struct LabelSize {
  std::string_view name;   // as it is chosen by, "63.5x38.1"
  std::string_view paper;  // "A4" or "letter"
  int columns = 0;
  int rows = 0;
  double width_mm = 0;
  double height_mm = 0;
  double left_mm = 0;  // from the edge of the paper to the first label
  double top_mm = 0;
  double across_mm = 0;  // from one label to the next, edge to the same edge
  double down_mm = 0;

  int on_a_sheet() const { return columns * rows; }
};
std::span<const LabelSize> label_sizes();
const LabelSize* label_size_named(std::string_view name);  // nullptr: none
std::vector<std::string> label_size_names();

// What stands on one label: a name with its code, and lines below it.
struct LabelText {
  std::string name;
  std::vector<std::string> lines;
};

struct LabelSheet {
  std::string batch;
  LabelSize size;
  std::size_t skip = 0;  // labels of the first sheet that are used up
  std::vector<LabelText> labels;
};

// The labels on sheets, to be printed at full size.
std::string label_sheet_page(const LabelSheet& sheet);

}  // namespace driftwarden
