// SPDX-License-Identifier: MIT
#pragma once

#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "diagnostic/diagnostic.hpp"
#include "record/instrument.hpp"

namespace driftwarden {

// What is found wrong with a book, while several threads read it. A problem's number is its place in the list, from 1.
class ProblemList {
 public:
  ProblemNumber add(Diagnostic problem);
  void add(const Diagnostics& problems);
  void set_hint(ProblemNumber problem, std::string hint);

  // An instrument that is not in the book, and the problem by which that was told. Which one may have been meant is
  // looked for when all is read (hint_at_instruments).
  struct Unknown {
    ProblemNumber problem = no_problem;
    std::string name;
    std::optional<InstrumentKind> kind;  // none: of any kind
  };
  void add_unknown(Unknown unknown);
  const std::vector<Unknown>& unknown() const { return unknown_; }

  // To read a file again from its start: forget what was added since.
  std::size_t mark() const { return problems_.size(); }
  void back_to(std::size_t mark);

  // The problems in order of the files' names, line and column, and for each old number the new one.
  struct Sorted {
    Diagnostics problems;
    std::vector<ProblemNumber> new_number;  // by old number; [0] is 0
  };
  Sorted sorted() const;

 private:
  mutable std::mutex mutex_;
  Diagnostics problems_;
  std::vector<Unknown> unknown_;
};

}  // namespace driftwarden
