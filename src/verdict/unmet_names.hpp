// SPDX-License-Identifier: MIT
#pragma once

#include "book/book.hpp"
#include "rule/rule_set.hpp"

namespace driftwarden {

// Names that a rule's `where` asks for and nothing in the book has: such a rule may be held to nothing by a slip of the
// pen, and nobody would see it. Each once, with the nearest name: rule/unmet-name. Methods, analyses and fractions are
// asked for by packs for many books, so they are looked at in the book's own packs only; for samplers see
// rule/unknown-sampler.
Diagnostics unmet_names(const Book& book, const RuleSet& rules);

}  // namespace driftwarden
