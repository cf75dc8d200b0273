// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "verdict/measured.hpp"

namespace driftwarden {

// A look at the records that one "record." measure is about, one after another.
class RecordLook {
 public:
  // The line is of the table whose files are given.
  void sees(bool is_as_asked, const std::vector<std::string>& table, RowPlace line);

  // Missing where there was nothing to look at.
  MeasureValue value() const { return is_any_ ? yes_no_value(lacking_.empty()) : MeasureValue{}; }
  // The lines that lack what is asked for, each once.
  std::vector<Place> lines(const Book& book) const;

 private:
  struct Line {
    const std::vector<std::string>* table;
    RowPlace place;
  };
  bool is_any_ = false;
  std::vector<Line> lacking_;
};

// One function a measure: whether something was written down.
void look_at_pump_serial(const SampleContext& context, RecordLook& look);
void look_at_by(const SampleContext& context, RecordLook& look);
void look_at_conditions(const SampleContext& context, RecordLook& look);
void look_at_sampling_conditions(const SampleContext& context, RecordLook& look);
void look_at_calibrator_serial(const SampleContext& context, RecordLook& look);
void look_at_certificate_uncertainty(const SampleContext& context, RecordLook& look);
void look_at_certificate_issuer(const SampleContext& context, RecordLook& look);
void look_at_certificate_standard(const SampleContext& context, RecordLook& look);
void look_at_chain(const SampleContext& context, RecordLook& look);
void look_at_void_reasons(const SampleContext& context, RecordLook& look);
void look_at_method(const SampleContext& context, RecordLook& look);
void look_at_fault(const SampleContext& context, RecordLook& look);

// Whether it is a certificate of this set, or the chain behind its calibrator, that lacks something.
bool lacks_certificate_uncertainty(const SampleContext& context, const ReadingSet& set);
bool lacks_certificate_issuer(const SampleContext& context, const ReadingSet& set);
bool lacks_certificate_standard(const SampleContext& context, const ReadingSet& set);
bool has_a_gap_behind_it(const SampleContext& context, const ReadingSet& set);

}  // namespace driftwarden
