// SPDX-License-Identifier: MIT
#include "command/output.hpp"

#include <algorithm>
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

std::optional<std::string> format_meant(const std::string& said, const std::string& file,
                                        std::initializer_list<std::string_view> formats, Surroundings& surroundings) {
  const std::string ending = file.substr(std::min(file.size(), file.rfind('.') + 1));
  const bool is_known = std::find(formats.begin(), formats.end(), ending) != formats.end();
  const std::string format = !said.empty() ? said : is_known ? ending : std::string(*formats.begin());
  const auto refuse = [&](const std::string& message, const std::string& hint) {
    tell(surroundings.err, {error("command/refused", {"command line", 0, 0}, message, hint)});
    return std::nullopt;
  };
  if (format == "pdf" && file.empty()) return refuse("a PDF is not written to a terminal", "name a file with --out");
  if (ending == "pdf" && format != "pdf")
    return refuse("--out is called .pdf, and --format is " + format, "leave --format out, or name the file otherwise");
  return format;
}

std::string paper_of(std::string_view format, const std::string& paper) { return format == "pdf" ? paper : ""; }

bool write_result(const ResultText& result, Surroundings& surroundings) {
  if (result.format != "pdf") return write_out(result.text, result.format, result.file, surroundings);
  const Diagnostics faults = write_page(result.text, result.format, result.file, result.as_of);
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
