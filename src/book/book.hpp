// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "book/file_as_read.hpp"
#include "book/settings.hpp"
#include "diagnostic/result.hpp"
#include "record/assignment.hpp"
#include "record/bench_check.hpp"
#include "record/decision.hpp"
#include "record/handed_scatter.hpp"
#include "record/instrument.hpp"
#include "record/issue.hpp"
#include "record/laboratory_result.hpp"
#include "record/planned_sample.hpp"
#include "record/reading.hpp"
#include "record/receipt.hpp"
#include "record/sample.hpp"
#include "record/service.hpp"
#include "record/text_pool.hpp"
#include "system/held_file.hpp"

namespace driftwarden {

// The files of a book, by the table they hold, named from the book's folder ("readings/week-40.csv").
struct BookFiles {
  std::vector<std::string> instruments;
  std::vector<std::string> certificates;
  std::vector<std::string> samples;
  std::vector<std::string> readings;
  std::vector<std::string> decisions;
  std::vector<std::string> actions;
  std::vector<std::string> service;
  std::vector<std::string> checks;
  std::vector<std::string> plan;
  std::vector<std::string> received;
  std::vector<std::string> kits;
  std::vector<std::string> issues;
  std::vector<std::string> results;
  std::vector<std::string> pooled;
};

// Everything that a folder of records says, as records. What could not be understood is among the problems; rows it
// spoils stay in their tables and carry the problem's number.
struct Book {
  std::filesystem::path folder;
  std::string settings_text;  // book.toml as written
  Settings settings;
  BookFiles files;
  std::vector<FileAsRead> seen;  // book.toml and the files of the tables, as they were read
  TextPool texts;
  std::vector<Instrument> instruments;
  std::vector<Certificate> certificates;
  SampleTable samples;
  ReadingTable readings;
  std::vector<Decision> decisions;
  std::vector<Assignment> assignments;          // in the order of the files
  std::vector<HandedScatter> handed_scatter;    // of a part of a split book
  std::vector<Service> services;                // in the order of the files
  std::vector<BenchCheck> checks;               // the same
  std::vector<PlannedSample> plan;              // the same
  std::map<std::string, RowPlace> faulty_plan;  // by sample: rows of the plan with a fault, which are not among those
  std::vector<Receipt> receipts;                // the same
  std::vector<KitItem> kit_items;               // the same
  std::vector<Issue> issues;                    // the same
  std::vector<LaboratoryResult> results;        // the same; of samples that there are
  std::vector<ControlFilter> controls;          // the same; from the same files
  // The first problem by which readings were lost: of a file of them that can't be read at all, of a quote that
  // swallows rows, of a reading that names no sample and no pump known. A sample without readings may have lost them.
  ProblemNumber lost_readings = no_problem;
  ProblemNumber lost_results = no_problem;  // the same of results: those of blanks may be among them
  Diagnostics problems;  // errors and remarks, in order of place; problem number n is problems[n - 1]

  Place place(const std::vector<std::string>& table_files, RowPlace place) const;
  std::string place_text(const std::vector<std::string>& table_files, RowPlace place) const;
};

// Told now and then, by any thread, how far a long piece of work has come: "reading readings", bytes done, bytes in
// all.
using Advance = std::function<void(std::string_view work, std::size_t done, std::size_t of)>;

// Reads a whole book. Fails only where there is nothing to go on: no folder, no book.toml, or one that can't be used.
// Sample and reading rows keep their order; the result is the same with any number of threads.
// All of it is read as of one moment, at which the sizes of its files are taken: a file that changes before it is read
// ends the reading (file/changed), rows that are added behind are left for another run (file/grown).
Result<Book> read_book(const std::filesystem::path& folder, unsigned threads, const Advance& advance = {});

// Whether a file was read to its end, faults in it or not.
bool was_read(const Book& book, const std::string& name);

// A file of the book again, with the bytes it was read with. Fault: file/changed, file/unreadable.
Result<HeldFile> read_again(const Book& book, const std::string& name);

}  // namespace driftwarden
