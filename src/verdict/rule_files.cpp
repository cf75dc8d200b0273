// SPDX-License-Identifier: MIT
#include "driftwarden/verdict/rule_files.hpp"

#include <algorithm>
#include <system_error>

#include "driftwarden/book/digest.hpp"
#include "driftwarden/book/mapped_file.hpp"
#include "driftwarden/diagnostic/suggestion.hpp"
#include "driftwarden/rule/house_rules.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

Result<Pack> named_pack(const Book& book, std::size_t number, const fs::path& shipped) {
  const std::string& name = book.settings.packs[number];
  if (name.ends_with(".toml")) return read_pack(book.folder / name, name);
  const std::vector<std::string> known = shipped_packs(shipped);
  if (std::find(known.begin(), known.end(), name) != known.end()) {
    return read_pack(shipped / (name + ".toml"), name + ".toml");
  }
  return error("rules/unknown-pack", book.settings.pack_places[number], "no pack " + in_quotes(name) + " is shipped",
               did_you_mean(name, known) + "; a pack of your own is named by its file, as in \"house.toml\"");
}

}  // namespace

Result<Pack> read_pack(const fs::path& file, const std::string& shown) {
  Result<MappedFile> text = MappedFile::open(file, shown);
  if (!text) return text.faults();
  Result<Pack> pack = parse_pack(text->bytes(), shown);
  if (pack) pack->sha256 = sha256_of(text->bytes());
  return pack;
}

std::vector<std::string> shipped_packs(const fs::path& folder) {
  std::vector<std::string> names;
  std::error_code ignored;
  for (const fs::directory_entry& entry : fs::directory_iterator(folder, ignored)) {
    if (entry.path().extension() == ".toml") names.push_back(entry.path().stem().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

Result<RuleSet> read_rules(const Book& book, const fs::path& shipped) {
  Diagnostics faults;
  std::vector<Pack> packs;
  for (std::size_t number = 0; number < book.settings.packs.size(); ++number) {
    Result<Pack> pack = named_pack(book, number, shipped);
    if (pack) {
      packs.push_back(*std::move(pack));
    } else {
      faults.insert(faults.end(), pack.faults().begin(), pack.faults().end());
    }
  }
  const Result<HouseRules> house = parse_house_rules(book.settings_text, "book.toml");
  if (!house) faults.insert(faults.end(), house.faults().begin(), house.faults().end());
  if (!faults.empty()) return faults;
  return combine(std::move(packs), *house);
}

}  // namespace driftwarden
