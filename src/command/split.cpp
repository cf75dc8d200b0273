// SPDX-License-Identifier: MIT
#include <algorithm>
#include <filesystem>
#include <map>
#include <ostream>
#include <system_error>
#include <utility>
#include <vector>

#include "assessment/calibrator_scatter.hpp"
#include "book/one_cause.hpp"
#include "book/stamp_text.hpp"
#include "command/opened_book.hpp"
#include "outside/output_stream.hpp"
#include "outside/whole_folder.hpp"
#include "outside/write_fault.hpp"
#include "quantity/number.hpp"
#include "report/csv_text.hpp"
#include "workshop/book_parts.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

bool has_faults(const Book& book) { return std::any_of(book.problems.begin(), book.problems.end(), is_error); }

// For each sample the part it is in, counted from 1, one a line.
Diagnostics write_order(const BookShares& shares, const fs::path& folder) {
  OutputStream out(folder / "order");
  for (const std::uint32_t part : shares.samples) out << part + 1 << '\n';
  const int reason = out.finish(false);
  return reason == 0 ? Diagnostics{} : Diagnostics{unwritable(folder / "order", reason)};
}

using CalibratorAt = std::pair<Row, Moment>;

// What the samples of each part lean on where a set is a single reading: how calibrators scatter, pooled over the book.
std::vector<std::map<CalibratorAt, HandedScatter>> pooled_by_part(const AssessmentBasis& basis,
                                                                  const BookShares& shares) {
  std::vector<std::map<CalibratorAt, HandedScatter>> by_part(shares.parts);
  SampleAssessor assessor(basis);
  for (Row sample = 0; sample < basis.book.samples.size(); ++sample) {
    for (const HandedScatter& one : scatter_leaned_on(basis, assessor.assess(sample)))
      by_part[shares.samples[sample]].insert({{one.calibrator, one.before}, one});
  }
  return by_part;
}

// pooled.csv of every part, or of none where no sample of the book leans on it. A part whose samples lean on none gets
// the heading alone, lest it pool over itself.
Diagnostics write_pooled(const AssessmentBasis& basis, const BookShares& shares, const fs::path& folder) {
  const auto by_part = pooled_by_part(basis, shares);
  const bool is_needed = std::any_of(by_part.begin(), by_part.end(), [](const auto& part) { return !part.empty(); });
  if (!is_needed && basis.book.files.pooled.empty()) return {};
  for (std::uint32_t part = 0; part < shares.parts; ++part) {
    std::string text = "calibrator,before,s,degrees of freedom\n";
    for (const auto& [at, one] : by_part[part]) {
      append_csv(text, basis.book.instruments[one.calibrator].name);
      text += ',' + local_text(one.before, TimeZone::utc()) + ',' + shortest(one.s) + ',' + shortest(one.dof) + '\n';
    }
    const fs::path path = folder / part_name(part) / "pooled.csv";
    if (const int reason = write_new(path, text); reason != 0) return {unwritable(path, reason)};
  }
  return {};
}

Diagnostics write_all(const AssessmentBasis& basis, const BookShares& shares, WholeFolder& folder) {
  const Result<std::uint32_t> written = write_parts(basis.book, shares, folder.path());
  if (!written) return written.faults();
  Diagnostics faults = write_order(shares, folder.path());
  if (faults.empty()) faults = write_pooled(basis, shares, folder.path());
  return faults.empty() ? folder.put_in_place() : faults;
}

}  // namespace

int run_split(const SplitOptions& options, Surroundings& surroundings) {
  std::error_code ignored;
  if (fs::exists(fs::symlink_status(options.out, ignored))) return refuse({already_there(options.out)}, surroundings);
  const Result<Book> book = read_watched(options.book, surroundings);
  tell_first(surroundings.err, book ? told_by_cause(*book) : book.faults());
  if (!book || tell_over_the_book(*book, options.out, surroundings)) return cannot_be_used;
  if (has_faults(*book)) {
    return refuse({error("parts/faulty", {"book.toml", 0, 0},
                         "a book with faults can't be split: nobody knows where its faulty rows belong",
                         "mend what 'driftwarden check' reports, or screen it whole")},
                  surroundings);
  }
  // The book's rules say how flows are corrected, whose scatter is pooled.
  const Result<RuleSet> rules = read_rules(*book, surroundings.share / "rules");
  if (!rules) return refuse(rules.faults(), surroundings);
  Result<WholeFolder> folder = WholeFolder::beside(options.out);
  if (!folder) return refuse(folder.faults(), surroundings);
  const Screening screening(*book, *rules, SupposedErrors{}, threads_of(options.book));
  const BookShares shares = shares_of(*book, options.parts);
  const Diagnostics unwritten = write_all(screening.basis(), shares, *folder);
  if (!unwritten.empty()) return refuse(unwritten, surroundings);
  surroundings.out << shares.parts << " books lie in " << options.out << ". Screen each with --format csv, then\n"
                   << "  driftwarden join " << (fs::path(options.out) / "order").string() << " RESULT-1 ... RESULT-"
                   << shares.parts << '\n';
  return all_is_well;
}

}  // namespace driftwarden
