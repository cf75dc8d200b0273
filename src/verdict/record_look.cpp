// SPDX-License-Identifier: MIT
#include "verdict/record_look.hpp"

#include <algorithm>

#include "assessment/traceability.hpp"
#include "book/stamp_text.hpp"

namespace driftwarden {
namespace {

const Book& book_of(const SampleContext& context) { return context.basis.book; }

template <class Figures>
bool is_given(const Figures& column, Row row) {
  return !is_missing(field(column, row));
}

void look_at_reading(const Book& book, Row reading, bool is_as_asked, RecordLook& look) {
  look.sees(is_as_asked, book.files.readings, book.readings.place[reading]);
}

void look_at_instrument(const Book& book, Row instrument, bool is_as_asked, RecordLook& look) {
  look.sees(is_as_asked, book.files.instruments, book.instruments[instrument].place);
}

void look_at_sample(const SampleContext& context, bool is_as_asked, RecordLook& look) {
  const Book& book = book_of(context);
  look.sees(is_as_asked, book.files.samples, book.samples.place[context.figures.sample]);
}

// All readings that count, or all that don't.
template <class IsSo>
void every_reading(const SampleContext& context, bool are_void, RecordLook& look, IsSo is_so) {
  const Book& book = book_of(context);
  for (const Row reading : context.figures.rows) {
    if (book.readings.is_void(reading) == are_void) look_at_reading(book, reading, is_so(book.readings, reading), look);
  }
}

template <class Look>
void every_set_with_a_calibrator(const SampleContext& context, Look look_at) {
  for (const ReadingSet& set : context.figures.sets) {
    if (set.rows.calibrator != no_row) look_at(set);
  }
}

template <class Look>
void every_certificate_of(const SampleContext& context, const ReadingSet& set, Look look_at) {
  for (const std::int32_t used : context.basis.calibrators.certificates_of(context.figures.rows_of(set))) {
    if (used >= 0) look_at(book_of(context).certificates[static_cast<std::size_t>(used)]);
  }
}

template <class Look>
void every_certificate(const SampleContext& context, Look look_at) {
  for (const ReadingSet& set : context.figures.sets) every_certificate_of(context, set, look_at);
}

template <class Lacks>
bool any_certificate_lacks(const SampleContext& context, const ReadingSet& set, Lacks lacks) {
  bool any = false;
  every_certificate_of(context, set, [&](const Certificate& certificate) { any |= lacks(lacks_of(certificate)); });
  return any;
}

Chain chain_behind(const SampleContext& context, const ReadingSet& set) {
  const Book& book = book_of(context);
  const Day day = local_day(set.rows.last, book.settings.zone);
  return chain_of(book, context.basis.calibrators, context.basis.standards, set.rows.calibrator, day);
}

// Their first lines say who issued them and against what.
void every_head_of_a_certificate(const SampleContext& context, RecordLook& look, bool CertificateLacks::*lack) {
  every_certificate(context, [&](const Certificate& certificate) {
    look.sees(!(lacks_of(certificate).*lack), book_of(context).files.certificates, certificate.place);
  });
}

// Where a chain breaks it is at a certificate, or at an instrument without one.
void look_at_link(const Book& book, const Chain& chain, const ChainLink& link, RecordLook& look) {
  if (link.certificate < 0) return look_at_instrument(book, link.instrument, false, look);
  const Certificate& certificate = book.certificates[static_cast<std::size_t>(link.certificate)];
  look.sees(is_sound(link, chain, book), book.files.certificates, certificate.place);
}

}  // namespace

void RecordLook::sees(bool is_as_asked, const std::vector<std::string>& table, RowPlace line) {
  is_any_ = true;
  if (!is_as_asked) lacking_.push_back({&table, line});
}

std::vector<Place> RecordLook::lines(const Book& book) const {
  std::vector<Place> lines;
  for (const Line& line : lacking_) {
    Place place = book.place(*line.table, line.place);
    if (std::ranges::find(lines, place) == lines.end()) lines.push_back(std::move(place));
  }
  return lines;
}

void look_at_pump_serial(const SampleContext& context, RecordLook& look) {
  const Book& book = book_of(context);
  const Row pump = book.samples.pump[context.figures.sample];
  if (pump != no_row) look_at_instrument(book, pump, !book.instruments[pump].serial.empty(), look);
}

void look_at_by(const SampleContext& context, RecordLook& look) {
  every_reading(context, false, look,
                [](const ReadingTable& readings, Row row) { return field(readings.by, row, TextId{0}) != 0; });
}

void look_at_conditions(const SampleContext& context, RecordLook& look) {
  every_reading(context, false, look, [](const ReadingTable& readings, Row row) {
    return is_given(readings.temperature_k, row) && is_given(readings.pressure_kpa, row);
  });
}

void look_at_sampling_conditions(const SampleContext& context, RecordLook& look) {
  const SampleTable& samples = book_of(context).samples;
  const Row sample = context.figures.sample;
  look_at_sample(context, is_given(samples.temperature_k, sample) && is_given(samples.pressure_kpa, sample), look);
}

void look_at_calibrator_serial(const SampleContext& context, RecordLook& look) {
  const Book& book = book_of(context);
  every_set_with_a_calibrator(context, [&](const ReadingSet& set) {
    look_at_instrument(book, set.rows.calibrator, !book.instruments[set.rows.calibrator].serial.empty(), look);
  });
}

void look_at_certificate_uncertainty(const SampleContext& context, RecordLook& look) {
  every_certificate(context, [&](const Certificate& certificate) {
    for (const CertificatePoint& point : certificate.points)
      look.sees(point.expanded_uncertainty_l_min.has_value(), book_of(context).files.certificates, point.place);
  });
}

void look_at_certificate_issuer(const SampleContext& context, RecordLook& look) {
  every_head_of_a_certificate(context, look, &CertificateLacks::issuer);
}

void look_at_certificate_standard(const SampleContext& context, RecordLook& look) {
  every_head_of_a_certificate(context, look, &CertificateLacks::standard);
}

void look_at_chain(const SampleContext& context, RecordLook& look) {
  const Book& book = book_of(context);
  every_set_with_a_calibrator(context, [&](const ReadingSet& set) {
    const Chain chain = chain_behind(context, set);
    for (const ChainLink& link : chain.links) look_at_link(book, chain, link, look);
  });
}

void look_at_void_reasons(const SampleContext& context, RecordLook& look) {
  every_reading(context, true, look,
                [](const ReadingTable& readings, Row row) { return field(readings.note, row, TextId{0}) != 0; });
}

void look_at_method(const SampleContext& context, RecordLook& look) {
  look_at_sample(context, field(book_of(context).samples.method, context.figures.sample, TextId{0}) != 0, look);
}

void look_at_fault(const SampleContext& context, RecordLook& look) {
  const YesNo said = field(book_of(context).samples.fault, context.figures.sample, YesNo::unsaid);
  look_at_sample(context, said != YesNo::unsaid, look);
}

bool lacks_certificate_uncertainty(const SampleContext& context, const ReadingSet& set) {
  return any_certificate_lacks(context, set,
                               [](const CertificateLacks& lacks) { return lacks.points_without_uncertainty > 0; });
}

bool lacks_certificate_issuer(const SampleContext& context, const ReadingSet& set) {
  return any_certificate_lacks(context, set, [](const CertificateLacks& lacks) { return lacks.issuer; });
}

bool lacks_certificate_standard(const SampleContext& context, const ReadingSet& set) {
  return any_certificate_lacks(context, set, [](const CertificateLacks& lacks) { return lacks.standard; });
}

bool has_a_gap_behind_it(const SampleContext& context, const ReadingSet& set) {
  const Chain chain = chain_behind(context, set);
  return std::ranges::any_of(chain.links,
                             [&](const ChainLink& link) { return !is_sound(link, chain, book_of(context)); });
}

}  // namespace driftwarden
