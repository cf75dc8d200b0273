// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <string_view>

#include "book/book.hpp"
#include "book/scratch_folder.hpp"

namespace driftwarden {

// Diagnostics as they are printed, one a line.
inline std::string told(const Diagnostics& diagnostics) {
  std::string lines;
  for (const Diagnostic& diagnostic : diagnostics) lines += to_text(diagnostic) + '\n';
  return lines;
}

// A book that a test writes file by file. What it does not write is sound and small: a pump, a calibrator, a sample.
class WrittenBook {
 public:
  WrittenBook() {
    file("book.toml", "time_zone = \"UTC\"\n");
    file("instruments.csv", "instrument,kind,principle\nPUMP-1,pump,\nVOL-1,calibrator,volumetric\n");
    file("samples.csv", "sample,pump,started,stopped\nS-1,PUMP-1,2026-05-01T08:00,2026-05-01T16:00\n");
    file("readings.csv", "taken,stage,sample,calibrator,reading [L/min]\n");
  }

  WrittenBook& file(const std::string& name, std::string_view text) {
    const std::filesystem::path path = folder() / name;
    std::filesystem::create_directories(path.parent_path());
    std::ofstream out(path, std::ios::binary | std::ios::trunc);
    out << text;
    if (!out.flush()) throw std::runtime_error("can't write " + path.string());
    return *this;
  }
  WrittenBook& without(const std::string& name) {
    std::filesystem::remove_all(folder() / name);
    return *this;
  }

  Book read(unsigned threads = 1) const {
    Result<Book> book = read_book(folder(), threads);
    if (!book) throw std::runtime_error(told(book.faults()));
    return *std::move(book);
  }
  std::string faults() const { return told(read().problems); }

  const std::filesystem::path& folder() const { return scratch_.path(); }

 private:
  ScratchFolder scratch_;
};

// The problem by its number, as it is printed; "" for no_problem.
inline std::string problem_text(const Book& book, ProblemNumber number) {
  return number == no_problem ? "" : to_text(book.problems.at(number - 1));
}

}  // namespace driftwarden
