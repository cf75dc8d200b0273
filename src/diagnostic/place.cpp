// SPDX-License-Identifier: MIT
#include "diagnostic/place.hpp"

#include <algorithm>
#include <array>

#include "diagnostic/letters.hpp"

namespace driftwarden {
namespace {

constexpr std::array<std::string_view, 2> workbook_endings{".xlsx", ".ods"};

bool ends_in(std::string_view name, std::string_view ending) {
  return name.size() > ending.size() && in_small_letters(name.substr(name.size() - ending.size())) == ending;
}

}  // namespace

bool is_workbook_name(std::string_view name) {
  return std::any_of(workbook_endings.begin(), workbook_endings.end(),
                     [name](std::string_view ending) { return ends_in(name, ending); });
}

bool is_document_name(std::string_view name) { return ends_in(name, ".xml"); }

SheetOfFile split_sheet(std::string_view name) {
  for (std::size_t colon = name.find(':'); colon != std::string_view::npos; colon = name.find(':', colon + 1)) {
    if (is_workbook_name(name.substr(0, colon))) return {name.substr(0, colon), name.substr(colon + 1)};
  }
  return {name, {}};
}

std::string column_letters(std::uint32_t column) {
  std::string letters;
  for (std::uint32_t rest = column + 1; rest > 0; rest = (rest - 1) / 26)
    letters.insert(letters.begin(), static_cast<char>('A' + (rest - 1) % 26));
  return letters;
}

std::string cell_name(std::uint32_t column, std::uint32_t row) {
  return column_letters(column - 1) + std::to_string(row);
}

std::string to_text(const Place& place) {
  std::string text = place.file;
  if (place.line == 0) return text;
  if (!split_sheet(place.file).sheet.empty()) {
    return text + '!' + (place.column == 0 ? std::to_string(place.line) : cell_name(place.column, place.line));
  }
  text += ':' + std::to_string(place.line);
  if (place.column != 0) text += ':' + std::to_string(place.column);
  return text;
}

std::string place_in_workbook(const Place& place) {
  const auto [file, sheet] = split_sheet(place.file);
  return sheet.empty() ? "" : to_text({std::string(sheet), 0, 0}) + to_text(place).substr(place.file.size());
}

}  // namespace driftwarden
