// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <vector>

#include "command/options.hpp"
#include "evidence/bag_check.hpp"
#include "evidence/change_log.hpp"
#include "evidence/package_note.hpp"

namespace driftwarden {

// What judging a package's inputs anew came to.
struct Anew {
  std::size_t samples = 0;
  std::size_t texts = 0;
  std::size_t texts_that_differ = 0;
  std::size_t differences = 0;
  std::size_t last_digits = 0;        // figures that differ in nothing else
  std::size_t reworded = 0;           // places where a wording is another that is known to have changed
  std::size_t altered_packs = 0;      // rule packs that are not what their name says
  bool has_unmade_charts = false;     // pictures that could not be drawn anew
  std::vector<LoggedChange> changes;  // of the program since the package was made, as far as they were named

  bool is_amiss() const { return differences > 0 || altered_packs > 0; }
};

// Judges anew, makes every text of the package from that, and tells, one a line, where they differ, and which files no
// such package has. Nothing (told) where it can't be judged.
std::optional<Anew> judged_anew(const std::filesystem::path& folder, const BagCheck& bag, const PackageNote& note,
                                unsigned threads, Surroundings& surroundings);

// A line of what was found, under what it is about.
void say(Surroundings& surroundings, std::string_view about, const std::string& text);

}  // namespace driftwarden
