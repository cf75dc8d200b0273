// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

namespace driftwarden {

using Sayings = std::vector<std::string>;

// What is said of each of several things, in the order of the first: it is printed once. Of one thing alone: nothing.
Sayings said_of_all(const std::vector<const Sayings*>& each);

// The others, that are said of one.
Sayings without(const Sayings& common, Sayings sayings);

}  // namespace driftwarden
