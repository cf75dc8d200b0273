// SPDX-License-Identifier: MIT
#pragma once

#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

#include "book/scratch_folder.hpp"
#include "evidence/keys.hpp"
#include "workshop/bag_writer.hpp"

namespace driftwarden {

inline std::string bytes_of_file(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

inline void write_file(const std::filesystem::path& file, std::string_view bytes) {
  std::filesystem::create_directories(file.parent_path());
  std::ofstream(file, std::ios::binary | std::ios::trunc)
      .write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
}

inline BagInfo small_info() { return {"0.1.0", "Quarry", day_from({2026, 11, 16})}; }

// A sound bag of a few small files, in a folder of its own.
class SmallBag {
 public:
  explicit SmallBag(bool is_signed = false) {
    Result<BagWriter> bag = BagWriter::begin(path());
    if (!bag) throw std::runtime_error(to_text(bag.faults().front()));
    bag->add("data/book/book.toml", "title = \"Quarry\"\n");
    bag->add("data/book/readings/1.csv", "taken\n");
    bag->add("data/empty", "");
    bag->add("READ-ME-FIRST.txt", "Read me.\n");
    const Ed25519Key key = *Ed25519Key::private_key(private_pem_1, "key");
    const Diagnostics faults = bag->finish(small_info(), is_signed ? &key : nullptr);
    if (!faults.empty()) throw std::runtime_error(to_text(faults.front()));
  }
  std::filesystem::path path() const { return scratch_.path() / "bag"; }
  std::filesystem::path operator/(const std::string& name) const { return path() / name; }

 private:
  ScratchFolder scratch_;
};

}  // namespace driftwarden
