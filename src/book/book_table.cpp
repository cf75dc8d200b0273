// SPDX-License-Identifier: MIT
#include "book/book_table.hpp"

#include <algorithm>
#include <array>

#include "book/table_files.hpp"

namespace driftwarden {
namespace {

constexpr std::array<BookTable, 9> tables{{
    {&instruments_spec, &BookFiles::instruments, true, false, false, read_instruments},
    {&certificates_spec, &BookFiles::certificates, false, true, false, read_certificates},
    {&samples_spec, &BookFiles::samples, true, false, false, read_samples},
    {&readings_spec, &BookFiles::readings, true, false, false, read_readings},
    {&decisions_spec, &BookFiles::decisions, false, false, false, read_decisions},
    {&actions_spec, &BookFiles::actions, false, false, false, read_actions},
    {&service_spec, &BookFiles::service, false, false, false, read_service},
    {&checks_spec, &BookFiles::checks, false, false, false, read_checks},
    {&pooled_spec, &BookFiles::pooled, false, false, true, read_pooled},
}};

}  // namespace

std::span<const BookTable> book_tables() { return tables; }

std::string heading_line(const TableSpec& spec) {
  std::string line;
  for (const FieldSpec& field : spec.fields) line += (line.empty() ? "" : ",") + heading_of(field);
  return line + '\n';
}

std::vector<std::string> files_of(const Book& book) {
  std::vector<std::string> names{"book.toml"};
  for (const BookTable& table : tables) {
    for (const std::string& source : book.files.*table.files) {
      const std::string file(split_sheet(source).file);
      if (std::find(names.begin(), names.end(), file) == names.end()) names.push_back(file);
    }
  }
  return names;
}

}  // namespace driftwarden
