// SPDX-License-Identifier: MIT
#include <functional>
#include <optional>
#include <ostream>

#include "command/output.hpp"
#include "command/progress.hpp"
#include "command/screen_results.hpp"
#include "command/selection.hpp"
#include "outside/whole_file.hpp"
#include "report/terminal_text.hpp"

namespace driftwarden {

int run_screen(const ScreenOptions& options, Surroundings& surroundings) {
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  const std::optional<Selection> selected = selected_samples(*opened, options, surroundings);
  if (!selected) return cannot_be_used;
  if (tell_over_the_book(opened->book, options.out, surroundings)) return cannot_be_used;
  const std::optional<std::string> format =
      format_meant(options.format, options.out, {"table", "csv", "json", "sarif", "results"}, surroundings);
  if (!format) return cannot_be_used;
  const bool is_whole_book = selected->samples.size() == opened->book.samples.size();
  if (is_whole_book) tell_doubts(*opened, surroundings);
  std::optional<WholeFile> file;
  if (!options.out.empty()) {
    Result<WholeFile> begun = WholeFile::beside(options.out);
    if (!begun) return refuse(begun.faults(), surroundings);
    file = *std::move(begun);
  }
  std::ostream& behind = file ? file->out() : surroundings.out;
  const bool is_table = is_for_people(*format);
  std::optional<SafeText> safe;
  if (file && is_table) safe.emplace(behind, false);
  std::ostream* out = safe ? &*safe : is_table ? &behind : &exactly(behind);
  const bool has_colour = options.out.empty() && surroundings.out_is_terminal;
  // Where the results go to a terminal too, they show by themselves how far the work has come.
  std::optional<Progress> progress(std::in_place, surroundings, !surroundings.out_is_terminal || !options.out.empty());
  const Totals totals = write_screen(*opened, *selected, {*format, has_colour, threads_of(options.book)},
                                     surroundings.version, *out, std::ref(*progress));
  out->flush();
  progress.reset();
  const Diagnostics unwritten = file ? file->put_in_place() : Diagnostics{};
  if (!unwritten.empty()) return refuse(unwritten, surroundings);
  if (opened->has_faults()) return cannot_be_used;
  return totals.open > 0 ? something_is_amiss : all_is_well;
}

}  // namespace driftwarden
