// SPDX-License-Identifier: MIT
#include "command/output.hpp"

#include <ostream>

#include "command/opened_book.hpp"
#include "outside/scratch_place.hpp"
#include "outside/whole_file.hpp"
#include "outside/write_fault.hpp"
#include "report/terminal_text.hpp"
#include "workshop/pdf_print.hpp"

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

Diagnostics write_page(const std::string& html, const std::string& format, const std::string& file, Day as_of) {
  if (format != "pdf") return write_whole(file, html);
  const ScratchPlace place;
  if (place.path().empty()) return {place.fault()};
  const int reason = write_new(place.path() / "page.html", html);
  if (reason != 0) return {unwritable(place.path(), reason)};
  return print_to_pdf(place.path() / "page.html", file, place.path(), as_of);
}

}  // namespace driftwarden
