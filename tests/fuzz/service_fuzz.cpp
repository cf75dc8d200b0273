// SPDX-License-Identifier: MIT
// Any bytes as service.csv: what was done to instruments. Nothing may crash, and what is kept of a row can be used.
#include <cstdint>

#include "fuzz/sound_book.hpp"

namespace driftwarden {
namespace {

void services_can_be_used(const Book& book) {
  for (const Service& service : book.services) {
    require(service.instrument < book.instruments.size(), "a service is of an instrument there is");
    require(service.serviced != no_moment && !service.what.empty(), "a service says when and what");
    require(service.place.file < book.files.service.size() && service.place.line > 1, "a service has a place");
  }
}

}  // namespace
}  // namespace driftwarden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  return driftwarden::read_as("service.csv", data, size, driftwarden::services_can_be_used);
}
