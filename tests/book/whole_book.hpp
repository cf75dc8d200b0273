// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "book/written_book.hpp"
#include "quantity/number.hpp"

namespace driftwarden {

// All rows of the samples and readings and all problems of a book, as text: what has to be the same with any number of
// threads. Texts stand for their numbers, and problems too.
class WholeBook {
 public:
  explicit WholeBook(const Book& book) : book_(book) {
    for (Row row = 0; row < book.samples.size(); ++row) add_sample(row);
    for (Row row = 0; row < book.readings.size(); ++row) add_reading(row);
    text_ += told(book.problems) + "lost: " + problem_text(book, book.lost_readings);
  }
  const std::string& text() const { return text_; }

 private:
  void add(const std::string& cell) { (text_ += cell) += '|'; }
  void add(double figure) { add(shortest(figure)); }
  void add(const Column<double>& column, Row row) { add(field(column, row)); }
  void add(const DecimalColumn& column, Row row) { add(field(column, row)); }
  void add(const Column<TextId>& column, Row row) { add(book_.texts.text(field(column, row, TextId{0}))); }
  void add_problem(ProblemNumber number) { text_ += problem_text(book_, number) + '\n'; }

  void add_sample(Row row) {
    const SampleTable& t = book_.samples;
    add(book_.place_text(book_.files.samples, t.place[row]));
    add(std::string(t.name[row]));
    add(std::string(to_text(t.kind[row])));
    add(std::to_string(t.pump[row]));
    for (const auto* column : {&t.batch, &t.sampler, &t.method, &t.analysis, &t.medium, &t.by, &t.note})
      add(*column, row);
    add(std::to_string(t.started[row]));
    add(std::to_string(t.stopped[row]));
    for (const auto* column :
         {&t.nominal_l_min, &t.paused_min, &t.warm_up_min, &t.vacuum_kpa, &t.leak_l_min, &t.interruptions,
          &t.pressure_drop_kpa, &t.pulsation, &t.temperature_k, &t.pressure_kpa}) {
      add(*column, row);
    }
    add(std::to_string(static_cast<int>(field(t.fault, row, YesNo::unsaid))));
    add_problem(t.problem[row]);
  }

  void add_reading(Row row) {
    const ReadingTable& t = book_.readings;
    add(book_.place_text(book_.files.readings, t.place[row]));
    add(std::to_string(t.taken[row]));
    add(std::string(to_text(t.stage[row])));
    add(std::to_string(t.flags[row]));
    add(std::to_string(field(t.sample, row, no_row)));
    add(std::to_string(field(t.pump, row, no_row)));
    add(std::to_string(t.calibrator[row]));
    for (const auto* column : {&t.indicated_l_min, &t.temperature_k, &t.pressure_kpa, &t.humidity}) add(*column, row);
    for (const auto* column : {&t.replicate, &t.set, &t.sampler, &t.by, &t.note}) add(*column, row);
    const auto problem = t.problem.find(row);
    add_problem(problem == t.problem.end() ? no_problem : problem->second);
  }

  const Book& book_;
  std::string text_;
};

}  // namespace driftwarden
