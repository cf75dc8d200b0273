// SPDX-License-Identifier: MIT
// Any bytes as a file of an evidence package. The first byte says which: all other files of the package are sound.
// Nothing may crash, every change is found, and nothing outside the package is read. The bytes are also read as a
// manifest, a package note, a key, and as two texts to be compared, whatever they are.
#include <algorithm>
#include <array>
#include <cstdint>

#include "diagnostic/characters.hpp"
#include "evidence/bag_check.hpp"
#include "evidence/bag_name.hpp"
#include "evidence/comparison.hpp"
#include "evidence/package_note.hpp"
#include "evidence/small_bag.hpp"
#include "fuzz/require.hpp"

namespace driftwarden {
namespace {

constexpr std::array<const char*, 8> files{"manifest-sha512.txt", "tagmanifest-sha512.txt",  "bag-info.txt",
                                           "bagit.txt",           "signed-by.pem",           "signature.ed25519",
                                           "READ-ME-FIRST.txt",   "data/book/readings/1.csv"};

bool is_amiss(const std::filesystem::path& folder) {
  const Result<BagCheck> check = check_bag(folder);
  if (!check || !check->faults.empty()) return true;
  const Result<Ed25519Key> key = Ed25519Key::public_key(check->signer, "signed-by.pem");
  return !key || !key->has_signed(check->tag_manifest, check->signature);
}

void every_change_is_found(const SmallBag& bag, const std::string& name, std::string_view text) {
  const std::string sound = bytes_of_file(bag / name);
  write_file(bag / name, text);
  require(is_amiss(bag.path()) == (text != sound), "a change of " + name + " is found");
  write_file(bag / name, sound);
}

void a_manifest_is_written_in_one_way(std::string_view text) {
  const Result<Manifest> manifest = parse_manifest(text, "m");
  if (!manifest) {
    require(!manifest.faults().empty(), "a fault is told");
    return;
  }
  require(manifest_text(*manifest) == text, "a manifest reads back");
  for (const auto& [name, digest] : *manifest) {
    const std::filesystem::path path(name);
    require(fault_of_bag_name(name).empty() && path.is_relative(), "a name stays inside");
    require(std::find(path.begin(), path.end(), "..") == path.end(), "no part leads out");
  }
}

void texts_are_compared(std::string_view text) {
  const std::string_view packed = text.substr(0, text.size() / 2);
  const std::string_view now = text.substr(text.size() / 2);
  for (const char* file : {"a.csv", "a.json", "a.txt"}) {
    const TextComparison comparison = compared(file, packed, now, 5);
    require((comparison.count == 0) == (packed == now), "texts that differ have a difference");
    require(comparison.differences.size() <= 5, "no more is listed than was asked for");
    for (const TextDifference& difference : comparison.differences)
      require(shows_itself(to_text(difference)), "a difference may be shown");
  }
}

}  // namespace
}  // namespace driftwarden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace driftwarden;
  static const SmallBag bag(true);
  if (size == 0) return 0;
  const std::string_view text(reinterpret_cast<const char*>(data) + 1, size - 1);
  every_change_is_found(bag, files[*data % files.size()], text);
  a_manifest_is_written_in_one_way(text);
  texts_are_compared(text);
  (void)parse_package_note(text);
  (void)Ed25519Key::public_key(text, "k");
  (void)Ed25519Key::private_key(text, "k");
  return 0;
}
