// SPDX-License-Identifier: MIT
// Any bytes as issues.csv: what went out in which kit. Nothing may crash, and what is kept of a row can be used.
#include <cstdint>

#include "book/whereabouts.hpp"
#include "fuzz/sound_book.hpp"

namespace driftwarden {
namespace {

void issues_can_be_used(const Book& book) {
  for (const Issue& issue : book.issues) {
    require(!issue.kit.empty() && (issue.instrument != no_row || !issue.item.empty()), "an issue is of something");
    require(issue.instrument == no_row || issue.instrument < book.instruments.size(),
            "it is of an instrument there is");
    require(issue.back == no_day || (issue.out != no_day && issue.out <= issue.back), "it came back after it went out");
    require(issue.place.file < book.files.issues.size() && issue.place.line > 1, "an issue has a place");
  }
  const Whereabouts where(book);
  for (Row row = 0; row < book.instruments.size(); ++row) {
    for (const Issue* issue : where.issues_of(row)) {
      if (issue->out != no_day) require(!where.had_by(row, issue->out).empty(), "somebody had it when it went out");
    }
  }
}

}  // namespace
}  // namespace driftwarden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace driftwarden;
  static SoundBook book;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  book.read_with("issues.csv", text, issues_can_be_used);
  return 0;
}
