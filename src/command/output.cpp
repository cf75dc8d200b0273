// SPDX-License-Identifier: MIT
#include "command/output.hpp"

#include <ostream>

#include "command/opened_book.hpp"
#include "driftwarden/outside/whole_file.hpp"
#include "driftwarden/report/terminal_text.hpp"

namespace driftwarden {

bool write_out(std::string_view text, const std::string& format, const std::string& file, Surroundings& surroundings) {
  if (file.empty()) {
    (is_for_people(format) ? surroundings.out : exactly(surroundings.out)) << text;
    return true;  // whether it can be written is asked at the end of every command
  }
  const Diagnostics faults =
      is_for_people(format) ? write_whole(file, safe_text(text, false)) : write_whole(file, text);
  tell(surroundings.err, faults);
  return faults.empty();
}

}  // namespace driftwarden
