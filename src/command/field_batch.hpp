// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "command/opened_book.hpp"
#include "command/options.hpp"
#include "verdict/air_ahead.hpp"
#include "verdict/rules_ahead.hpp"

namespace driftwarden {

// The samples of a batch, planned or recorded; nothing (told, with the nearest name) where there is no such batch, or
// all its names have gone to others.
std::optional<SamplesAhead> batch_ahead(const OpenedBook& opened, const std::string& batch, Surroundings& surroundings);

// The samples that are planned with the pumps of a kit that is being put together, or else is out; those whose
// calibrator the plan leaves open with the kit's, where it has one. Nothing (told) where there is no such kit, or
// nothing is planned with its pumps.
std::optional<SamplesAhead> kit_ahead(const OpenedBook& opened, const std::string& kit, Surroundings& surroundings);

// The rows of calibrators by their names; nothing (told) where one is unknown or no calibrator.
std::optional<std::vector<Row>> calibrators_named(const Book& book, const std::vector<std::string>& names,
                                                  Surroundings& surroundings);

// The air that is said on the command line; nothing (told) where a figure can't be read.
std::optional<SaidAir> said_air(const AirOptions& options, Surroundings& surroundings);

}  // namespace driftwarden
