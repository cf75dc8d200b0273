// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "diagnostic/result.hpp"
#include "rule/selector.hpp"

namespace driftwarden {

// What is known of the masses and blanks of samples by their method and analysis, by the column of samples.csv and its
// word.
using StatedFacts = std::map<std::pair<Selector, std::string>, MassFacts>;

// The facts of packs and of the book, one by one; the book's win. Two packs may state a fact twice, but not
// differently: method/disagreement.
Result<StatedFacts> combine_facts(std::span<const DescribedWord> of_packs, std::span<const DescribedWord> of_book);

// Those of a sample: of what it is analysed for, and for what that does not say of its method.
MassFacts facts_of(const StatedFacts& stated, const std::string& method, const std::string& analysis);

}  // namespace driftwarden
