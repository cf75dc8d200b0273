// SPDX-License-Identifier: MIT
#include "verdict/record_measure.hpp"

#include <algorithm>

#include "driftwarden/assessment/traceability.hpp"

namespace driftwarden {
namespace {

class Records {
 public:
  explicit Records(const SampleContext& context)
      : basis_(context.basis), book_(context.basis.book), figures_(context.figures) {}

  MeasureValue pump_serial() const {
    const Row pump = book_.samples.pump[figures_.sample];
    return pump == no_row ? MeasureValue{} : yes_no_value(!book_.instruments[pump].serial.empty());
  }

  // Whether all readings that count are so.
  template <class IsSo>
  MeasureValue every_reading(IsSo is_so) const {
    std::size_t count = 0;
    for (const Row reading : figures_.rows) {
      if ((book_.readings.flags[reading] & reading_is_void) != 0) continue;
      if (!is_so(book_.readings, reading)) return yes_no_value(false);
      ++count;
    }
    return count == 0 ? MeasureValue{} : yes_no_value(true);
  }

  template <class IsSo>
  MeasureValue every_calibrator(IsSo is_so) const {
    std::size_t count = 0;
    for (const ReadingSet& set : figures_.sets) {
      if (set.rows.calibrator == no_row) continue;
      if (!is_so(set)) return yes_no_value(false);
      ++count;
    }
    return count == 0 ? MeasureValue{} : yes_no_value(true);
  }

  template <class IsSo>
  MeasureValue every_certificate(IsSo is_so) const {
    std::size_t count = 0;
    for (const ReadingSet& set : figures_.sets) {
      for (const std::int32_t used : basis_.calibrators.certificates_of(figures_.rows_of(set))) {
        if (used < 0) continue;
        if (!is_so(lacks_of(book_.certificates[static_cast<std::size_t>(used)]))) return yes_no_value(false);
        ++count;
      }
    }
    return count == 0 ? MeasureValue{} : yes_no_value(true);
  }

  MeasureValue calibrator_serial() const {
    return every_calibrator(
        [this](const ReadingSet& set) { return !book_.instruments[set.rows.calibrator].serial.empty(); });
  }

  MeasureValue chain() const {
    return every_calibrator([this](const ReadingSet& set) {
      const Day day = local_day(set.rows.last, book_.settings.zone);
      return is_whole(chain_of(book_, basis_.calibrators, basis_.standards, set.rows.calibrator, day), book_);
    });
  }

  MeasureValue void_reasons() const {
    std::size_t count = 0;
    for (const Row reading : figures_.rows) {
      if ((book_.readings.flags[reading] & reading_is_void) == 0) continue;
      if (field(book_.readings.note, reading, TextId{0}) == 0) return yes_no_value(false);
      ++count;
    }
    return count == 0 ? MeasureValue{} : yes_no_value(true);
  }

 private:
  const AssessmentBasis& basis_;
  const Book& book_;
  const SampleAssessment& figures_;
};

template <class Figures>
bool is_given(const Figures& column, Row row) {
  return !is_missing(field(column, row));
}

}  // namespace

MeasureValue record_measure(const SampleContext& context, SampleMeasure measure) {
  const Records records(context);
  const SampleTable& samples = context.basis.book.samples;
  const Row sample = context.figures.sample;
  switch (measure) {
    case SampleMeasure::record_pump_serial:
      return records.pump_serial();
    case SampleMeasure::record_by:
      return records.every_reading(
          [](const ReadingTable& readings, Row row) { return field(readings.by, row, TextId{0}) != 0; });
    case SampleMeasure::record_conditions:
      return records.every_reading([](const ReadingTable& readings, Row row) {
        return is_given(readings.temperature_k, row) && is_given(readings.pressure_kpa, row);
      });
    case SampleMeasure::record_sampling_conditions:
      return yes_no_value(is_given(samples.temperature_k, sample) && is_given(samples.pressure_kpa, sample));
    case SampleMeasure::record_calibrator_serial:
      return records.calibrator_serial();
    case SampleMeasure::record_certificate_uncertainty:
      return records.every_certificate(
          [](const CertificateLacks& lacks) { return lacks.points_without_uncertainty == 0; });
    case SampleMeasure::record_certificate_issuer:
      return records.every_certificate([](const CertificateLacks& lacks) { return !lacks.issuer; });
    case SampleMeasure::record_certificate_standard:
      return records.every_certificate([](const CertificateLacks& lacks) { return !lacks.standard; });
    case SampleMeasure::record_chain:
      return records.chain();
    case SampleMeasure::record_void_reasons:
      return records.void_reasons();
    case SampleMeasure::record_method:
      return yes_no_value(field(samples.method, sample, TextId{0}) != 0);
    case SampleMeasure::record_fault:
      return yes_no_value(field(samples.fault, sample, YesNo::unsaid) != YesNo::unsaid);
    default:
      return {};
  }
}

}  // namespace driftwarden
