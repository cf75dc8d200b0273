// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "book/consignment.hpp"
#include "report/said_of_all.hpp"
#include "verdict/sample_judge.hpp"

namespace driftwarden {

// What a laboratory is told of one sample or blank, as a person reads it; "" where there is nothing to say.
struct CustodyLine {
  std::string sample;
  bool is_blank = false;
  Verdict verdict = Verdict::valid;
  Verdict standing = Verdict::valid;  // as void, its flow and volumes are left out
  std::string date;                   // of the start, in the book's zone
  std::string start;
  std::string stop;  // with its date where it is another, with offsets where the clocks were changed
  std::string minutes;
  std::string flow;
  std::string volume;
  std::string volume_reference;
  std::string pump;
  std::string medium;  // cassette, filter or tube, by its number
  std::string analysis;
  std::string method;
  std::string sampler;
  std::string taken_by;
  std::vector<std::string> remarks;  // the note, what qualifies it, what was decided
  std::vector<std::string> reasons;  // why it is void
  // The same figures in full, missing as above, and the times with their offsets.
  std::string started;
  std::string stopped;
  double minutes_min = missing;
  double flow_l_min = missing;
  double volume_l = missing;
  double volume_reference_l = missing;
  std::string volume_is;               // measured or conventional
  double measured_volume_l = missing;  // another than the volume where that is a convention
  double measured_expanded_l = missing;
};

// What is mostly one and the same for a whole batch, and is then said once.
struct SharedParticular {
  std::string_view name;
  std::string_view on_a_form;
  std::string CustodyLine::*text;
  bool is_of_samples_only = false;  // a blank may well have none
};
inline constexpr std::array<SharedParticular, 4> shared_particulars{
    {{"analysis", "Analysis wanted", &CustodyLine::analysis},
     {"method", "Method", &CustodyLine::method},
     {"sampler", "Sampler", &CustodyLine::sampler, true},
     {"taken by", "Taken by", &CustodyLine::taken_by, true}}};
// What a sheet says where a book says nothing.
inline constexpr std::string_view not_said = "not said";

// What goes with a batch to the laboratory. Those that are void, and no decision says otherwise, stand apart.
struct CustodySheet {
  std::string title;  // of the book
  std::string batch;
  std::string zone;
  std::string reference;  // "25 °C, 101.325 kPa"
  std::string as_of;
  std::string version;
  std::string paper;  // CSS size of the sheet, "A4"; "" leaves it to the printer
  Settings::Consignment consignment;
  std::vector<CustodyLine> lines;
  std::vector<CustodyLine> voids;

  std::size_t blanks() const;     // of the lines
  std::size_t undecided() const;  // of the lines
  void add(CustodyLine line);

  // What most lines have, void ones among them; of as many what comes to be so many first; "" where none has any.
  std::string usual(const SharedParticular& particular) const;
  // Where a line has another: "analysis: fume; method: 12".
  std::string unlike_usual(const CustodyLine& line) const;
  // The remarks that every sample listed has, two or more of them: they are said once.
  Sayings common_remarks() const;
};

CustodyLine custody_line(const Screening& screening, const SampleResult& result);

// Lines to be signed.
inline constexpr int hand_overs = 4;

// The sheet for people at a terminal, at most 80 columns wide; as CSV, void samples among the others; and as a page to
// be printed on A4 or Letter and signed at each hand-over.
std::string custody_table(const CustodySheet& sheet);
std::string custody_csv(const CustodySheet& sheet);
std::string custody_page(const CustodySheet& sheet);

}  // namespace driftwarden
