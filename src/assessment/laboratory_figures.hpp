// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <map>
#include <span>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "assessment/budget.hpp"
#include "assessment/weighing.hpp"
#include "statistics/mean_and_spread.hpp"

namespace driftwarden {

// The field blanks of a batch that have a result of one analyte, and for how many samples they stand.
struct BatchBlanks {
  std::vector<std::uint32_t> results;  // their places among the book's
  std::size_t samples = 0;             // results of samples that are no blanks
  MeanAndSpread amounts;               // what was less than the limit counts as nothing
  std::size_t unseen = 0;              // how many of them that is
  double unseen_limit = missing;       // the largest limit of those
  std::size_t above_limit = 0;         // in how many more than their limit was found
  std::size_t without_limit = 0;       // of how many nobody can say
  ProblemNumber problem = no_problem;  // of one of their rows
};

// The control filters that were weighed with the media of a batch.
struct BatchControls {
  std::vector<std::uint32_t> filters;  // their places among the book's
  MeanAndSpread changes;               // mg
  double largest_mg = missing;         // the change farthest from none
  ProblemNumber problem = no_problem;  // of one of their rows
};

// Of the mean of blanks: they scatter, and those in which less than the limit was found may be anything up to it.
FigureUncertainty uncertainty_of_mean(const BatchBlanks& blanks);

// Whether more was found than the limit that the laboratory states, unrounded; not where either is missing.
bool is_above_limit(const LaboratoryResult& result);

// Which results belong to a sample, and which blanks to a result. Made once a book; the book has to outlive it.
class ResultIndex {
 public:
  explicit ResultIndex(const Book& book);

  // Whether the book says nothing of results, and lost none.
  bool empty() const { return of_samples_.empty() && book_.lost_results == no_problem; }
  // Places among the book's results, in its order.
  std::vector<std::uint32_t> of(Row sample) const;
  // Of a result: those of its sample's batch, none where the sample has no batch.
  const BatchBlanks& blanks_of(const LaboratoryResult& result) const;
  // Likewise, of what was weighed.
  const BatchControls& controls_of(const LaboratoryResult& result) const;
  // What keeps anybody from saying what was found: of the sample's results, of their blanks, or of a file that can't be
  // read at all; no_problem where nothing does.
  ProblemNumber problem_of(Row sample) const;

 private:
  using Batch = std::tuple<TextId, std::string, bool>;  // of an analyte, of fibres or not
  Batch batch_of(const LaboratoryResult& result) const;

  const Book& book_;
  std::vector<std::pair<Row, std::uint32_t>> of_samples_;  // sorted
  std::map<Batch, BatchBlanks> blanks_;
  std::map<Batch, BatchControls> controls_;
};

// What is taken off an amount, if anything: of a batch.
enum class TakenOff : std::uint8_t { nothing, blanks, controls };

// What a result comes to. Amounts in mg or fibres, concentrations in mg/m3 or fibres/cm3. Missing figures are NaN.
struct ResultFigures {
  std::uint32_t result = 0;  // its place among the book's
  const BatchBlanks* blanks = nullptr;
  const BatchControls* controls = nullptr;
  Weighing weighing;
  double overdue_min = missing;            // of the balance
  TakenOff taken_off = TakenOff::nothing;  // as the practice says; there may be none of them
  double net = missing;                    // what was found, less that
  bool is_less_than = false;       // the laboratory says so, or the amount, or what is left of it, lies below the limit
  double volume_l = missing;       // that the concentration is formed with
  double concentration = missing;  // where it is less than: the concentration that the limit means
  FigureUncertainty of_found;      // of `less than` none is stated
  bool is_by_balance = false;      // its uncertainty is that of the balance's certificates, for the row states none
  FigureUncertainty of_blank;      // what is taken off
  FigureUncertainty of_net;
  FigureUncertainty of_concentration;
  // The same by the volume as measured and by the nominal flow; missing where the book doesn't say.
  double by_measured_volume = missing;
  double by_nominal_flow = missing;
  FigureUncertainty of_measured;
};

// The figures of every result of an assessed sample. Of a blank nothing is taken off, and no concentration is formed.
std::vector<ResultFigures> laboratory_figures(const ResultIndex& index, const AssessmentBasis& basis,
                                              const SampleAssessment& figures, const Budget& budget);

}  // namespace driftwarden
