// SPDX-License-Identifier: MIT
#include "verdict/rule_files.hpp"

#include <algorithm>
#include <system_error>

#include "diagnostic/suggestion.hpp"
#include "rule/house_rules.hpp"
#include "system/digest.hpp"
#include "system/held_file.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

std::vector<std::string> packs_in(const fs::path& folder, std::error_code& failure) {
  std::vector<std::string> names;
  // A failure ends the way through the folder, too.
  for (fs::directory_iterator entry(folder, failure); entry != fs::directory_iterator(); entry.increment(failure)) {
    if (entry->path().extension() == ".toml") names.push_back(entry->path().stem().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

std::vector<std::string> names_of(const ShippedPacks& shipped, std::error_code& failure) {
  if (!shipped.folder.empty()) return packs_in(shipped.folder, failure);
  std::vector<std::string> names;
  for (const BuiltInPack& pack : shipped.texts) names.emplace_back(pack.name);
  return names;
}

Result<Pack> pack_of(std::string_view text, const std::string& shown) {
  Result<Pack> pack = parse_pack(text, shown);
  if (pack) pack->sha256 = sha256_of(text);
  return pack;
}

Result<Pack> pack_named(const std::string& name, const ShippedPacks& shipped) {
  const std::string file = name + ".toml";
  if (!shipped.folder.empty()) return read_pack(shipped.folder / file, file);
  const auto is_it = [&name](const BuiltInPack& pack) { return pack.name == name; };
  return pack_of(std::find_if(shipped.texts.begin(), shipped.texts.end(), is_it)->text, file);
}

Result<Pack> shipped_pack(const std::string& name, const ShippedPacks& shipped, const Place& named_at) {
  std::error_code failure;
  const std::vector<std::string> known = names_of(shipped, failure);
  if (failure) {
    return error(
        "rules/unknown-pack", named_at,
        "the pack " + in_quotes(name) + " can't be looked for in " + shipped.folder.string() + ": " + failure.message(),
        "the folder belongs to the program; install it again");
  }
  if (std::find(known.begin(), known.end(), name) != known.end()) return pack_named(name, shipped);
  return error("rules/unknown-pack", named_at, "no pack " + in_quotes(name) + " is shipped",
               did_you_mean(name, known) + "; a pack of your own is named by its file, as in \"house.toml\"");
}

Result<Pack> named_pack(const Book& book, std::size_t number, const ShippedPacks& shipped) {
  const std::string& name = book.settings.packs[number];
  if (name.ends_with(".toml")) return read_pack(book.folder / name, name);
  return shipped_pack(name, shipped, book.settings.pack_places[number]);
}

Result<Pack> other_pack(const Book& book, const std::string& name, const ShippedPacks& shipped) {
  if (!name.ends_with(".toml")) return shipped_pack(name, shipped, {"command line", 0, 0});
  std::error_code ignored;
  return read_pack(fs::exists(name, ignored) ? fs::path(name) : book.folder / name, name);
}

void keep(Result<Pack> pack, std::vector<Pack>& packs, Diagnostics& faults) {
  if (pack) {
    packs.push_back(*std::move(pack));
  } else {
    faults.insert(faults.end(), pack.faults().begin(), pack.faults().end());
  }
}

bool is_in(const std::vector<Pack>& packs, const std::string& rule) {
  return std::any_of(packs.begin(), packs.end(), [&rule](const Pack& pack) {
    return std::any_of(pack.rules.begin(), pack.rules.end(),
                       [&rule](const Rule& one) { return one.full_name() == rule; });
  });
}

Diagnostics set_aside_idle_overrides(HouseRules& house, const std::vector<Pack>& packs) {
  Diagnostics remarks;
  std::erase_if(house.overrides, [&](const Override& change) {
    if (is_in(packs, change.rule) || change.rule.starts_with(std::string(own_pack) + "/")) return false;
    remarks.push_back(remark(
        "rules/override-set-aside", change.place,
        "the override of " + in_quotes(change.rule) + " is set aside: the rules compared with don't have that rule"));
    return true;
  });
  return remarks;
}

}  // namespace

Result<Pack> read_pack(const fs::path& file, const std::string& shown) {
  Result<HeldFile> text = HeldFile::open(file, shown);
  if (!text) return text.faults();
  return pack_of(text->bytes(), shown);
}

std::vector<std::string> shipped_packs(const fs::path& folder) {
  std::error_code ignored;
  return packs_in(folder, ignored);
}

Result<RuleSet> read_rules(const Book& book, const ShippedPacks& shipped) {
  Diagnostics faults;
  std::vector<Pack> packs;
  for (std::size_t number = 0; number < book.settings.packs.size(); ++number) {
    keep(named_pack(book, number, shipped), packs, faults);
  }
  const Result<HouseRules> house = parse_house_rules(book.settings_text, "book.toml");
  if (!house) faults.insert(faults.end(), house.faults().begin(), house.faults().end());
  if (!faults.empty()) return faults;
  return combine(std::move(packs), *house);
}

Result<RuleSet> read_other_rules(const Book& book, const std::vector<std::string>& names, const ShippedPacks& shipped) {
  Diagnostics faults;
  std::vector<Pack> packs;
  for (const std::string& name : names) keep(other_pack(book, name, shipped), packs, faults);
  Result<HouseRules> house = parse_house_rules(book.settings_text, "book.toml");
  if (!house) faults.insert(faults.end(), house.faults().begin(), house.faults().end());
  if (!faults.empty()) return faults;
  Diagnostics remarks = set_aside_idle_overrides(*house, packs);
  Result<RuleSet> rules = combine(std::move(packs), *house);
  if (rules) rules->remarks.insert(rules->remarks.begin(), remarks.begin(), remarks.end());
  return rules;
}

}  // namespace driftwarden
