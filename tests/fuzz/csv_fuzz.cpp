// SPDX-License-Identifier: MIT
// Any bytes as a CSV file: split into cells, and as each table of a book. Nothing may crash, and whatever the bytes
// are: the scanner agrees with a slow reader, blocks of any size give the rows that reading in order gives, a book is
// the same with any number of threads, and each fault is told once, of a line that is there.
#include <cstdint>

#include "book/slow_csv.hpp"
#include "fuzz/sound_book.hpp"

namespace driftwarden {
namespace {

void scanner_agrees_with_a_slow_reader(std::string_view text) {
  const PaddedText padded(text);
  for (const char separator : {',', ';', '\t'}) {
    CsvScanner scanner(padded, separator);
    CsvRows rows;
    while (scanner.next()) {
      rows.emplace_back();
      for (std::size_t i = 0; i < scanner.cell_count(); ++i) rows.back().emplace_back(scanner.text(i));
    }
    require(rows == read_slowly(text, separator), std::string("the rows split at ") + separator);
  }
}

}  // namespace
}  // namespace driftwarden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace driftwarden;
  static SoundBook book;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  scanner_agrees_with_a_slow_reader(text);
  book.read_with(book.table_of(text), text);
  return 0;
}
