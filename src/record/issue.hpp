// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "record/instrument.hpp"
#include "record/moment.hpp"
#include "record/sample.hpp"

namespace driftwarden {

// One row of kits.csv: something that belongs to a kind of kit.
struct KitItem {
  std::string kind;                          // of kit
  std::string item;                          // "pump", "hose", "field form"
  std::optional<InstrumentKind> instrument;  // what stands in instruments.csv, with a serial number; else nothing does
  unsigned number = 1;
  std::string note;
  RowPlace place;
};

// How something came back.
enum class CameBack : std::uint8_t { unsaid, good, dirty, damaged };
inline constexpr std::string_view came_back_words[] = {"good", "dirty", "damaged"};
std::string_view to_text(CameBack how);

// One row of issues.csv: something that went out in a kit, and came back or didn't.
struct Issue {
  std::string kit;          // the one case, "K-1"
  std::string kind;         // of kit; "": it is called like its kind
  Row instrument = no_row;  // or an item without a serial number
  std::string item;
  Day out = no_day;  // no_day: it is still being put together
  std::string to;
  std::string checked_by;
  Day due_back = no_day;
  YesNo charged = YesNo::unsaid;
  Day back = no_day;  // of the kit, where the item is missing
  std::string checked_back_by;
  CameBack came_back = CameBack::unsaid;
  YesNo missing = YesNo::unsaid;
  std::string note;
  RowPlace place;

  const std::string& kind_of_kit() const { return kind.empty() ? kit : kind; }
};

}  // namespace driftwarden
