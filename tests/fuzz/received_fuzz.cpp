// SPDX-License-Identifier: MIT
// Any bytes as received.csv: which files of rows were taken in. Nothing may crash, and what is kept of a row can be
// used.
#include <cstdint>

#include "fuzz/sound_book.hpp"

namespace driftwarden {
namespace {

void receipts_can_be_used(const Book& book) {
  for (const Receipt& receipt : book.receipts) {
    require(receipt.received != no_moment, "a receipt says when");
    require(!receipt.by.empty() && !receipt.file.empty(), "and by whom, and which file");
    require(receipt.place.file < book.files.received.size() && receipt.place.line > 1, "a receipt has a place");
  }
}

}  // namespace
}  // namespace driftwarden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  return driftwarden::read_as("received.csv", data, size, driftwarden::receipts_can_be_used);
}
