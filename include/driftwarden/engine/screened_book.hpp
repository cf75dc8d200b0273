// SPDX-License-Identifier: MIT
// The engine for other programs: open a book, judge its samples, read figures and findings, have one explained. This
// header is all that is installed, and what it promises is kept within a minor version. It needs nothing but the
// standard library; link `driftwarden::engine`.
//
//   driftwarden::ScreenedBook book("tunnel-2026");
//   for (const std::string& name : book.samples()) std::cout << name << ' ' << book.judge(name).verdict << '\n';
#pragma once

#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace driftwarden {

// What has to be shown with every verdict that leaves the desk: a verdict is about the air volume, not about safety.
std::string_view cautions_text();

// How a book is opened.
struct ScreeningOptions {
  std::string as_of;         // the day that stands for today, "2026-11-16"; empty: today by this machine's clock
  std::string packs_folder;  // of the rule packs that are shipped; empty: those built into the engine
  unsigned threads = 1;
};

// A book that can't be used at all. what() holds a line for each reason, with its place and a way out.
class UnusableBook : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

// A rule that was not met, or could not be decided.
struct ScreenedFinding {
  std::string rule;                 // its full name, "common-practice/drift"
  std::string verdict;              // what it makes of the sample: "qualified", "undecided" or "void"
  std::string message;              // the finding in words
  std::string decision;             // who ruled on it, and how; empty: nobody
  std::vector<std::string> places;  // where its figures were written, "readings.csv:17"
};

// A sample and what it came to. Figures are not a number (NaN) where they are missing.
struct ScreenedSample {
  std::string name;
  std::string verdict;   // "valid", "qualified", "undecided" or "void"
  std::string standing;  // the same where findings that somebody overruled do not count
  double pre_l_min = 0;
  double post_l_min = 0;
  double drift = 0;  // a ratio, from pre to post: -0.05 is a fall by 5 %
  double minutes = 0;
  double volume_l = 0;
  double volume_u_l = 0;  // the volume's expanded uncertainty at 95 %
  double volume_reference_l = 0;
  std::vector<ScreenedFinding> findings;
};

// A book of plain files, read once. Its results are the same as the program's.
class ScreenedBook {
 public:
  // `folder`: as the program takes it. Throws UnusableBook.
  explicit ScreenedBook(const std::string& folder, const ScreeningOptions& options = {});
  ScreenedBook(ScreenedBook&&) noexcept;
  ScreenedBook& operator=(ScreenedBook&&) noexcept;
  ~ScreenedBook();

  const std::vector<std::string>& samples() const;  // in the book's order
  // Faults and remarks about its files, a line each: "readings.csv:17:4: error: …". A sample that leans on a faulty
  // record is undecided.
  const std::vector<std::string>& problems() const;
  bool has_faults() const;

  // Both throw std::out_of_range where there is no sample of that name.
  ScreenedSample judge(const std::string& sample) const;
  // The whole working, from the readings to the verdict, for people to read.
  std::string explain(const std::string& sample) const;

 private:
  struct Contents;
  std::unique_ptr<Contents> contents_;
};

}  // namespace driftwarden
