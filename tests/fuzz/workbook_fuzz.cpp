// SPDX-License-Identifier: MIT
// Any bytes as a workbook of readings: behind an 'x' as the sheet of a sound .xlsx, behind an 'o' as the content of a
// sound .ods, else as the whole file. Nothing may crash; the book is the same with any number of threads, and what is
// read of a sheet has a place in it.
#include <cstdint>

#include "book/whole_book.hpp"
#include "book/written_workbook.hpp"
#include "diagnostic/characters.hpp"
#include "fuzz/require.hpp"

namespace driftwarden {
namespace {

std::string workbook_of(std::string_view input) {
  const std::string rest(input.substr(input.empty() ? 0 : 1));
  if (input.starts_with('x')) {
    Parts parts = xlsx_parts("");
    parts["xl/worksheets/sheet1.xml"] = rest;
    return zipped(parts);
  }
  if (input.starts_with('o')) {
    Parts parts = ods_parts("");
    parts["content.xml"] = rest;
    return zipped(parts);
  }
  return std::string(input);
}

void readings_have_places(const Book& book) {
  for (Row row = 0; row < book.readings.size(); ++row) {
    const RowPlace at = book.readings.place[row];
    require(at.file < book.files.readings.size() && at.line > 1 && at.line <= most_sheet_rows, "a reading has a place");
  }
  for (const Diagnostic& problem : book.problems) {
    require(!problem.message.empty() && !problem.id.empty(), "a problem says what is wrong");
    require(is_utf8(to_text(problem)), "a problem can be shown");
  }
}

}  // namespace
}  // namespace driftwarden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace driftwarden;
  static WrittenBook book;
  book.without("readings.csv").file("readings.xlsx", workbook_of({reinterpret_cast<const char*>(data), size}));
  const Book alone = book.read(1);
  readings_have_places(alone);
  require(WholeBook(book.read(3)).text() == WholeBook(alone).text(), "a workbook is the same with three threads");
  return 0;
}
