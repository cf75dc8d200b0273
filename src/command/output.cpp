// SPDX-License-Identifier: MIT
#include "command/output.hpp"

#include <algorithm>
#include <filesystem>
#include <ostream>

#include "book/row_reader.hpp"
#include "command/opened_book.hpp"
#include "diagnostic/letters.hpp"
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

namespace {

using Formats = std::initializer_list<std::string_view>;

bool has_format(Formats formats, std::string_view format) {
  return std::ranges::find(formats, format) != formats.end();
}

// What the end of a file's name stands for: "pdf"; "" without one.
std::string format_called(const std::string& file, Formats formats) {
  std::string ending = std::filesystem::path(file).extension().string();
  if (!ending.empty()) ending.erase(0, 1);
  for (char& c : ending) c = small_letter(c);
  if (ending == "htm") return "html";
  if (ending != "txt") return ending;
  return has_format(formats, "text") ? "text" : has_format(formats, "table") ? "table" : ending;
}

// "html, pdf or json"
std::string listed(Formats formats) { return list_of({formats.begin(), formats.size()}); }

}  // namespace

std::optional<std::string> format_meant(const std::string& said, const std::string& file, Formats formats,
                                        Surroundings& surroundings) {
  const std::string called = format_called(file, formats);
  const std::string format = !said.empty() ? said : called.empty() ? std::string(*formats.begin()) : called;
  const auto refuse = [&](const std::string& message, const std::string& hint) {
    tell(surroundings.err, {error("command/refused", {"command line", 0, 0}, message, hint)});
    return std::nullopt;
  };
  if (said.empty() && !has_format(formats, format))
    return refuse("--out ends in ." + called + ", and what is written is " + listed(formats),
                  formats.size() == 1 ? "end the file's name in ." + std::string(*formats.begin())
                                      : "end the file's name accordingly, or say with --format what is meant");
  if (format == "pdf" && file.empty()) return refuse("a PDF is not written to a terminal", "name a file with --out");
  if (called == "pdf" && format != "pdf")
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
