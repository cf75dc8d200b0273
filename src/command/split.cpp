// SPDX-License-Identifier: MIT
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <ostream>
#include <system_error>

#include "command/opened_book.hpp"
#include "driftwarden/book/book_parts.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

bool has_faults(const Book& book) {
  return std::any_of(book.problems.begin(), book.problems.end(),
                     [](const Diagnostic& problem) { return problem.severity == Severity::error; });
}

// For each sample the part it is in, counted from 1, one a line.
bool write_order(const BookShares& shares, const fs::path& folder) {
  std::ofstream out(folder / "order", std::ios::binary);
  for (const std::uint32_t part : shares.samples) out << part + 1 << '\n';
  return bool(out.flush());
}

}  // namespace

int run_split(const SplitOptions& options, Surroundings& surroundings) {
  const fs::path folder = options.out;
  std::error_code failure;
  if (fs::exists(folder, failure)) {
    return refuse(
        {error("parts/refused", {options.out, 0, 0}, "something is there already", "name a folder that is new")},
        surroundings);
  }
  const Result<Book> book = read_watched(options.book, surroundings);
  tell(surroundings.err, book ? book->problems : book.faults());
  if (!book) return cannot_be_used;
  if (has_faults(*book)) {
    return refuse({error("parts/faulty", {"book.toml", 0, 0},
                         "a book with faults can't be split: nobody knows where its faulty rows belong",
                         "mend what 'driftwarden check' reports, or screen it whole")},
                  surroundings);
  }
  fs::create_directories(folder, failure);
  const BookShares shares = shares_of(*book, options.parts);
  const Result<std::uint32_t> written = write_parts(*book, shares, folder);
  if (!written) {
    tell(surroundings.err, written.faults());
    return cannot_be_used;
  }
  if (!write_order(shares, folder)) {
    return refuse({error("parts/unwritable", {(folder / "order").string(), 0, 0}, "the part can't be written",
                         "check rights and room")},
                  surroundings);
  }
  surroundings.out << *written << " books lie in " << options.out << ". Screen each with --format csv, then\n"
                   << "  driftwarden join " << (folder / "order").string() << " RESULT-1 ... RESULT-" << *written
                   << '\n';
  return all_is_well;
}

}  // namespace driftwarden
