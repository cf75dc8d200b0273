// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "book/book.hpp"
#include "rule/rule_set.hpp"

namespace driftwarden {

// A rule pack that is built in.
struct BuiltInPack {
  std::string_view name;  // "common-practice"
  std::string_view text;
};

// The packs that a book names without a path: the files of a folder, or texts that are built in.
struct ShippedPacks {
  ShippedPacks(std::filesystem::path of_folder) : folder(std::move(of_folder)) {}
  ShippedPacks(std::span<const BuiltInPack> built_in) : texts(built_in) {}

  std::filesystem::path folder;
  std::span<const BuiltInPack> texts;
};

// Reads one pack file; its digest is filled in. `shown` is how messages name it.
Result<Pack> read_pack(const std::filesystem::path& file, const std::string& shown);

// The names of the packs in a folder ("common-practice" for common-practice.toml), in alphabetical order.
std::vector<std::string> shipped_packs(const std::filesystem::path& folder);

// The rules of a book: its packs, shipped ones by name and its own by path (they end in .toml), with its overrides,
// practices and samplers. Faults name the place in book.toml or in the pack.
Result<RuleSet> read_rules(const Book& book, const ShippedPacks& shipped);

// The rules of other packs for a book, named as on a command line: shipped ones by name, files by their path from where
// one stands or else from the book. The book's practices, samplers and overrides stay; an override of a rule that those
// packs don't have is set aside, with a remark.
Result<RuleSet> read_other_rules(const Book& book, const std::vector<std::string>& packs, const ShippedPacks& shipped);

}  // namespace driftwarden
