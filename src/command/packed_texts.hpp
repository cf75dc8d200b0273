// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "command/opened_book.hpp"
#include "command/reviewed.hpp"
#include "command/selection.hpp"
#include "evidence/altered_packs.hpp"
#include "evidence/package_note.hpp"
#include "history/instrument_history.hpp"
#include "verdict/records_used.hpp"
#include "verdict/totals.hpp"

namespace driftwarden {

// The inputs of a package, opened from the package alone: its own book, judged by its own rule packs.
struct PackedBook {
  std::unique_ptr<OpenedBook> opened;
  Selection selected;  // the batches packed; else all
  RecordsUsed used;
  Totals totals;
  ChartChoices choices;
  std::vector<InstrumentHistory> histories;  // of the instruments used
  std::vector<AlteredPack> altered;          // rule packs that are not what their name says
};

// `folder` is a package or one in the making. Nothing (told) where it can't be judged, or be read in part. Remarks of
// the book aren't told: they stand in the results.
std::optional<PackedBook> open_packed(const std::filesystem::path& folder, const PackageNote& note, unsigned threads,
                                      Surroundings& surroundings);

// How the charts of its review page come about; `can_be_drawn`: as those of the package were.
ReviewCharts review_charts(const PackageNote& note, bool can_be_drawn);

// Every text that a package holds beside its inputs and charts, by its name in the package; the same when it is made
// and when it is verified. A further text of the package joins here.
using TakeText = std::function<void(const std::string& name, std::string_view text)>;
void make_texts(const PackedBook& packed, const PackageNote& note, unsigned threads, const TakeText& take);

}  // namespace driftwarden
