// SPDX-License-Identifier: MIT
#include <array>

#include "book/table_files.hpp"
#include "driftwarden/book/row_blocks.hpp"
#include "driftwarden/diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

enum Field : int {
  certificate, instrument, calibrated, due, issuer, standard, temperature, pressure, nominal, reference, as_found,
  as_left, expanded_uncertainty, coverage_factor, tolerance
};
using D = Dimension;
constexpr std::array<FieldSpec, 15> fields{{
    {"certificate", CellType::text, D::count, true},
    {"instrument", CellType::text, D::count, true},
    {"calibrated", CellType::date, D::count, true},
    {"due", CellType::date},
    {"issuer"},
    {"standard"},
    {"temperature", CellType::quantity, D::temperature, false, 180, 400},
    {"pressure", CellType::quantity, D::pressure, false, 10, 200},
    {"nominal", CellType::quantity, D::flow, true, 0, 1e5},
    {"reference", CellType::quantity, D::flow, true, 0, 1e5},
    {"as found", CellType::quantity, D::flow, false, 0, 1e5},
    {"as left", CellType::quantity, D::flow, false, 0, 1e5},
    {"expanded uncertainty", CellType::quantity, D::flow, false, 0, 1e5, D::ratio},
    {"coverage factor", CellType::number, D::count, false, 1, 10},
    {"tolerance", CellType::quantity, D::ratio, false, 0, 1},
}};

std::optional<double> optional(double figure) {
  return is_missing(figure) ? std::nullopt : std::optional<double>(figure);
}

Row instrument_named(const Book& book, std::string_view name) {
  for (Row row = 0; row < book.instruments.size(); ++row) {
    if (book.instruments[row].name == name) return row;
  }
  return no_row;
}

CertificatePoint read_point(RowReader& row, const TableLayout& layout, RowPlace place) {
  CertificatePoint point;
  point.place = place;
  point.nominal_l_min = row.quantity(nominal);
  point.reference_l_min = row.quantity(reference);
  if (point.reference_l_min == 0) {
    row.fail(reference, "certificate/no-flow", "a reference flow of 0 gives no relative error", "leave the point out");
  }
  point.as_found_l_min = optional(row.quantity(as_found));
  point.as_left_l_min = optional(row.quantity(as_left));
  point.expanded_uncertainty_l_min = optional(row.quantity(expanded_uncertainty));
  if (point.expanded_uncertainty_l_min && layout.unit_of_field[expanded_uncertainty].dimension == D::ratio) {
    *point.expanded_uncertainty_l_min *= point.reference_l_min;
  }
  return point;
}

Certificate read_certificate(RowReader& row, RowPlace place) {
  Certificate result;
  result.place = place;
  result.name = row.text(certificate);
  result.calibrated = row.date(calibrated);
  result.due = row.date(due);
  result.issuer = row.text(issuer);
  result.standard = row.text(standard);
  if (const double t = row.quantity(temperature); !is_missing(t)) result.temperature = Temperature(t);
  if (const double p = row.quantity(pressure); !is_missing(p)) result.pressure = Pressure(p);
  result.coverage_factor = optional(row.quantity(coverage_factor));
  result.tolerance = optional(row.quantity(tolerance));
  return result;
}

class CertificateRows {
 public:
  CertificateRows(const TableFile& file, const BookInHand& hand)
      : file_(file), hand_(hand), reader_(hand.context(file, certificates_spec)) {}

  void operator()(const CsvScanner& scanner, Row, std::uint32_t line) {
    reader_.start(scanner, line);
    const RowPlace place{file_.number, line};
    Certificate head = read_certificate(reader_, place);
    head.instrument = read_instrument();
    const CertificatePoint point = read_point(reader_, file_.layout, place);
    Certificate& whole = certificate_of(std::move(head));
    if (whole.problem == no_problem) whole.problem = reader_.problem();
    whole.points.push_back(point);
    // A row whose date or instrument is lost may have been the one in force: then its instrument can't be trusted.
    if (reader_.problem() != no_problem && whole.instrument != no_row && whole.calibrated == no_day) {
      ProblemNumber& of_instrument = hand_.book.instruments[whole.instrument].problem;
      if (of_instrument == no_problem) of_instrument = reader_.problem();
    }
  }

 private:
  Row read_instrument() {
    const std::string_view name = reader_.text(instrument);
    const Row row = instrument_named(hand_.book, name);
    if (row == no_row && !name.empty()) {
      reader_.fail(instrument, "certificate/unknown-instrument",
                   "the instrument " + in_quotes(name) + " is not in instruments.csv",
                   instrument_hint(hand_.book, InstrumentKind::calibrator, name));
    }
    return row;
  }

  // The certificate that this row is a point of: known by its name, or new.
  Certificate& certificate_of(Certificate head) {
    std::vector<Certificate>& all = hand_.book.certificates;
    for (Certificate& known : all) {
      if (known.name != head.name || head.name.empty()) continue;
      if (known.instrument != head.instrument || known.calibrated != head.calibrated) {
        reader_.fail(certificate, "certificate/torn",
                     "the certificate " + in_quotes(head.name) + " has another instrument or date in " +
                         hand_.book.place_text(hand_.book.files.certificates, known.place),
                     "all rows of one certificate say the same; give another certificate another name");
      }
      return known;
    }
    return all.emplace_back(std::move(head));
  }

  const TableFile& file_;
  const BookInHand& hand_;
  RowReader reader_;
};

}  // namespace

const TableSpec certificates_spec{"certificates", fields};

void read_certificates(const std::vector<TableFile>& files, const BookInHand& hand) {
  for (const TableFile& file : files) {
    CertificateRows worker(file, hand);
    RowPlaces unused;
    read_rows_in_order(file.bytes, file.layout, file.number, 0, worker, unused);
  }
}

}  // namespace driftwarden
