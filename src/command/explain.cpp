// SPDX-License-Identifier: MIT
#include <filesystem>
#include <ostream>

#include "command/opened_book.hpp"
#include "command/selection.hpp"
#include "outside/write_fault.hpp"
#include "plot/mass_pictures.hpp"
#include "report/explanation.hpp"
#include "report/terminal_text.hpp"
#include "workshop/gnuplot_run.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

// The pictures of the sampler of a sample. Told where they can't be drawn.
bool draw_charts(const ExplainOptions& options, const Screening& screening, const SampleResult& result,
                 Surroundings& surroundings) {
  const auto told = [&](const Diagnostics& faults) {
    tell(surroundings.err, faults);
    return faults.empty();
  };
  const Result<Theme> theme = read_theme(surroundings.share, options.theme);
  if (!theme) return told(theme.faults());
  const Pictures pictures = mass_pictures(screening, *result.figures, *theme, format_named(options.format));
  if (pictures.files.empty())
    return told(
        {error("command/no-curve", {"command line", 0, 0},
               "there is nothing to draw of the sampler of " + in_quotes(options.sample),
               "describe its penetration curve, in a range of flows that the sample's lies in (docs/mass.md)")});
  std::error_code failure;
  fs::create_directories(options.charts, failure);
  if (failure) return told({unwritable(options.charts, failure.value())});
  if (!told(draw_pictures(pictures.script, pictures.files, options.charts))) return false;
  surroundings.out << "\nPictures in " << options.charts << ":";
  for (const std::string& file : pictures.files) surroundings.out << " " << file;
  surroundings.out << "\n";
  return true;
}

}  // namespace

int run_explain(const ExplainOptions& options, Surroundings& surroundings) {
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  const std::optional<Row> row = sample_named(opened->book, options.sample, surroundings);
  if (!row) return cannot_be_used;
  if (!options.charts.empty() &&
      tell_over_the_book(opened->book, (fs::path(options.charts) / "").string(), surroundings))
    return cannot_be_used;
  SampleJudge judge(*opened->screening, true);
  const SampleResult& result = judge.judge(*row);
  surroundings.out << explanation_of(*opened->screening, result, Paint(surroundings.out_is_terminal),
                                     surroundings.out_is_terminal ? surroundings.columns : no_terminal);
  if (!options.charts.empty() && !draw_charts(options, *opened->screening, result, surroundings)) return cannot_be_used;
  if (opened->has_faults()) return cannot_be_used;
  return result.standing >= Verdict::undecided ? something_is_amiss : all_is_well;
}

}  // namespace driftwarden
