// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "book/workbook.hpp"
#include "book/xml_walk.hpp"

namespace driftwarden {

// The texts that cells share by number, kept in one piece.
class SharedStrings {
 public:
  std::size_t size() const { return ends_.size(); }
  std::string_view operator[](std::size_t number) const {
    const std::size_t begin = number == 0 ? 0 : ends_[number - 1];
    return std::string_view(bytes_).substr(begin, ends_[number] - begin);
  }
  void append(std::string_view text) { bytes_ += text; }
  void finish_one() { ends_.push_back(bytes_.size()); }

 private:
  std::string bytes_;
  std::vector<std::size_t> ends_;
};

// What the sheets of an .xlsx file share (ECMA-376-1, 18).
struct XlsxParts {
  std::vector<Sheet> sheets;
  std::vector<NumberLook> looks;  // by the number of a cell's format
  SharedStrings strings;
  bool is_1904 = false;            // days are counted from 1904
  bool is_not_worked_out = false;  // to be worked out when it is opened: what is stored for formulas counts for nothing
};

Result<XlsxParts> read_xlsx_parts(const ZippedFile& file);

// A text with the characters written as _xHHHH_ (ECMA-376-1, 22.9.2.19); control characters but line ends and tabs are
// left out.
std::string unescaped_xlsx(std::string_view text);

}  // namespace driftwarden
