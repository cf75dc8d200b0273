// SPDX-License-Identifier: MIT
// Any bytes as a rule pack, and as the settings of a book. Nothing may crash; what is refused is refused with a message
// at a place; the examples of what is taken can be run.
#include <cstdint>
#include <string_view>

#include "book/settings.hpp"
#include "fuzz/require.hpp"
#include "rule/example.hpp"
#include "rule/pack.hpp"

namespace driftwarden {
namespace {

void has_reasons(const Diagnostics& faults) {
  require(!faults.empty(), "what is refused has a fault");
  for (const Diagnostic& fault : faults) {
    require(fault.place.file == "fuzz.toml", "a fault has a place: " + to_text(fault));
    require(!fault.id.empty() && !fault.message.empty(), "a fault says what is wrong");
  }
}

}  // namespace
}  // namespace driftwarden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace driftwarden;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const Result<Pack> pack = parse_pack(text, "fuzz.toml");
  if (pack) run_examples(*pack);
  if (!pack) has_reasons(pack.faults());
  const Result<Settings> settings = parse_settings(text, "fuzz.toml");
  if (!settings) has_reasons(settings.faults());
  return 0;
}
