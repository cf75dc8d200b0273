// SPDX-License-Identifier: MIT
// Any bytes as a digital calibration certificate. Nothing may crash; what is told has a place in the document, and a
// certificate that nothing is wrong with has an instrument, a day, and points that can be.
#include <algorithm>
#include <cmath>
#include <cstdint>

#include "book/written_book.hpp"
#include "diagnostic/characters.hpp"
#include "fuzz/require.hpp"

namespace driftwarden {
namespace {

void points_can_be(const Certificate& certificate) {
  const auto can_be = [](double figure) { return std::isfinite(figure) && figure >= 0; };
  const auto may_be = [&](const std::optional<double>& figure) { return !figure || can_be(*figure); };
  for (const CertificatePoint& it : certificate.points) {
    require(can_be(it.nominal_l_min), "a nominal flow can be");
    require(can_be(it.reference_l_min) && it.reference_l_min > 0, "a point has a flow");
    require(may_be(it.as_found_l_min) && may_be(it.as_left_l_min), "an indication can be");
    require(may_be(it.expanded_uncertainty_l_min), "an uncertainty can be");
  }
  for (const ConditionPoint& it : certificate.condition_points) {
    require(can_be(it.reference) && may_be(it.as_found) && may_be(it.as_left), "a condition can be");
    require(may_be(it.expanded_uncertainty), "an uncertainty can be");
  }
}

// XML ends a line at a carriage return, too.
void problems_have_lines(const Book& book, std::string_view document) {
  const auto is_line_end = [](char c) { return c == '\n' || c == '\r'; };
  const auto lines = 1 + std::count_if(document.begin(), document.end(), is_line_end);
  for (const Diagnostic& problem : book.problems) {
    require(!problem.message.empty() && !problem.id.empty(), "a problem says what is wrong");
    require(is_utf8(to_text(problem)), "a problem can be shown");
    require(problem.place.line <= lines, "a line there is: " + to_text(problem));
  }
}

void certificates_can_be(const Book& book) {
  require(book.certificates.size() <= 1, "a document is one certificate");
  for (const Certificate& certificate : book.certificates) {
    require(!certificate.name.empty() && certificate.calibrated != no_day, "a certificate has a name and a day");
    if (certificate.problem != no_problem) continue;
    require(certificate.instrument != no_row, "a certificate has an instrument");
    require(!certificate.points.empty() || !certificate.condition_points.empty(), "a certificate has points");
    const double k = certificate.coverage_factor.value_or(2);
    require(k >= 1 && k <= 10, "a coverage factor can be");
    points_can_be(certificate);
  }
}

}  // namespace
}  // namespace driftwarden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace driftwarden;
  static WrittenBook book;
  static const bool is_written = [] {
    book.file("instruments.csv",
              "instrument,kind,principle,serial\nPUMP-1,pump,,P-1\nVOL-1,calibrator,volumetric,VOL-1-5335\n"
              "THERM-1,thermometer,,T-6120\nBARO-1,barometer,,B-2214\n");
    return true;
  }();
  require(is_written, "the book has instruments");
  const std::string_view document(reinterpret_cast<const char*>(data), size);
  book.file("certificates/c.xml", document);
  const Book read = book.read(1);
  problems_have_lines(read, document);
  certificates_can_be(read);
  return 0;
}
