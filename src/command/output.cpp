// SPDX-License-Identifier: MIT
#include "command/output.hpp"

#include <cerrno>
#include <ostream>

#include "command/opened_book.hpp"
#include "command/output_file.hpp"

namespace driftwarden {

bool write_out(std::string_view text, const std::string& file, Surroundings& surroundings) {
  if (file.empty()) {
    surroundings.out << text;
    return true;  // whether it can be written is asked at the end of every command
  }
  if (is_written(file, text)) return true;
  tell(surroundings.err, {unwritable(file, errno)});
  return false;
}

}  // namespace driftwarden
