// SPDX-License-Identifier: MIT
#include "command/output.hpp"

#include <fstream>
#include <ostream>

#include "command/opened_book.hpp"

namespace driftwarden {

bool write_out(std::string_view text, const std::string& file, Surroundings& surroundings) {
  if (file.empty()) {
    surroundings.out << text;
    return true;  // whether it can be written is asked at the end of every command
  }
  std::ofstream out(file, std::ios::binary);
  out << text << std::flush;
  if (out) return true;
  tell(surroundings.err, {error("output/unwritable", {file, 0, 0}, "the results could not be written",
                                "check the folder, its rights and the room on the disk")});
  return false;
}

}  // namespace driftwarden
