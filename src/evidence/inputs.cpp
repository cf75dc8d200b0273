// SPDX-License-Identifier: MIT
#include "evidence/inputs.hpp"

#include <algorithm>

#include "book/book_table.hpp"
#include "evidence/bag_layout.hpp"
#include "evidence/bag_name.hpp"

namespace driftwarden {
namespace {

bool is_own(const std::string& pack) { return pack.ends_with(".toml"); }

class InputList {
 public:
  explicit InputList(const Book& book) : book_(book) {}

  void add_of_book(const std::string& name) {
    const std::string fault = fault_of_bag_name(name);
    if (!fault.empty()) {
      faults.push_back(error("evidence/name", {name, 0, 0}, "the name " + in_quotes(name) + " " + fault,
                             "rename the file; under such a name it can't be packed safely"));
    }
    add({std::string(packed_book) + name, book_.folder / name, name});
  }

  // Once, if it is named twice.
  void add(PackedInput input) {
    const auto is_it = [&input](const PackedInput& other) { return other.name == input.name; };
    if (std::none_of(inputs.begin(), inputs.end(), is_it)) inputs.push_back(std::move(input));
  }

  std::vector<PackedInput> inputs;
  Diagnostics faults;

 private:
  const Book& book_;
};

}  // namespace

Diagnostics packs_outside(const Settings& settings) {
  Diagnostics faults;
  for (std::size_t i = 0; i < settings.packs.size(); ++i) {
    if (!is_own(settings.packs[i])) continue;
    const std::string fault = fault_of_bag_name(settings.packs[i]);
    if (fault.empty()) continue;
    faults.push_back(error("evidence/pack-outside", settings.pack_places[i],
                           "the rule pack " + in_quotes(settings.packs[i]) + " " + fault,
                           "a package holds only what lies in the book's folder; copy the pack there and name it so"));
  }
  return faults;
}

Result<std::vector<PackedInput>> inputs_of(const Book& book, const std::filesystem::path& shipped_rules) {
  InputList list(book);
  list.faults = packs_outside(book.settings);
  for (const std::string& name : files_of(book)) list.add_of_book(name);
  for (const std::string& pack : book.settings.packs) {
    if (is_own(pack)) {
      list.add({std::string(packed_book) + pack, book.folder / pack, pack});
    } else {
      list.add({std::string(packed_rules) + pack + ".toml", shipped_rules / (pack + ".toml"), ""});
    }
  }
  if (!list.faults.empty()) return list.faults;
  return std::move(list.inputs);
}

Result<HeldFile> packed_bytes(const Book& book, const PackedInput& input) {
  return input.of_book.empty() ? HeldFile::open(input.file, input.file.string()) : read_again(book, input.of_book);
}

}  // namespace driftwarden
