// SPDX-License-Identifier: MIT
#include <algorithm>
#include <filesystem>
#include <ostream>
#include <system_error>

#include "command/opened_book.hpp"
#include "driftwarden/outside/output_stream.hpp"
#include "driftwarden/outside/whole_folder.hpp"
#include "driftwarden/outside/write_fault.hpp"
#include "driftwarden/workshop/book_parts.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

bool has_faults(const Book& book) {
  return std::any_of(book.problems.begin(), book.problems.end(),
                     [](const Diagnostic& problem) { return problem.severity == Severity::error; });
}

// For each sample the part it is in, counted from 1, one a line.
Diagnostics write_order(const BookShares& shares, const fs::path& folder) {
  OutputStream out(folder / "order");
  for (const std::uint32_t part : shares.samples) out << part + 1 << '\n';
  const int reason = out.finish(false);
  return reason == 0 ? Diagnostics{} : Diagnostics{unwritable(folder / "order", reason)};
}

}  // namespace

int run_split(const SplitOptions& options, Surroundings& surroundings) {
  std::error_code ignored;
  if (fs::exists(fs::symlink_status(options.out, ignored))) return refuse({already_there(options.out)}, surroundings);
  const Result<Book> book = read_watched(options.book, surroundings);
  tell_first(surroundings.err, book ? book->problems : book.faults());
  if (!book || tell_over_the_book(*book, options.out, surroundings)) return cannot_be_used;
  if (has_faults(*book)) {
    return refuse({error("parts/faulty", {"book.toml", 0, 0},
                         "a book with faults can't be split: nobody knows where its faulty rows belong",
                         "mend what 'driftwarden check' reports, or screen it whole")},
                  surroundings);
  }
  Result<WholeFolder> folder = WholeFolder::beside(options.out);
  if (!folder) return refuse(folder.faults(), surroundings);
  const BookShares shares = shares_of(*book, options.parts);
  const Result<std::uint32_t> written = write_parts(*book, shares, folder->path());
  if (!written) return refuse(written.faults(), surroundings);
  Diagnostics unwritten = write_order(shares, folder->path());
  if (unwritten.empty()) unwritten = folder->put_in_place();
  if (!unwritten.empty()) return refuse(unwritten, surroundings);
  surroundings.out << *written << " books lie in " << options.out << ". Screen each with --format csv, then\n"
                   << "  driftwarden join " << (fs::path(options.out) / "order").string() << " RESULT-1 ... RESULT-"
                   << *written << '\n';
  return all_is_well;
}

}  // namespace driftwarden
