// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <unordered_map>

#include "book/table_files.hpp"

namespace driftwarden {
namespace {

enum Field : int {
  certificate,
  instrument,
  calibrated,
  due,
  issuer,
  standard,
  temperature,
  pressure,
  nominal,
  reference,
  as_found,
  as_left,
  expanded_uncertainty,
  coverage_factor,
  tolerance
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

// What certificates are known by, over all files.
struct Known {
  InstrumentIndex instruments;
  std::unordered_map<std::string, std::size_t> certificates;
};

// A certificate that can't be read may have been the one in force.
void doubt(Instrument& instrument, ProblemNumber problem) {
  if (instrument.problem == no_problem) instrument.problem = problem;
}

// Where certificates are lost, with all that stood in them, they may be any calibrator's.
void doubt_all_calibrators(const BookInHand& hand) {
  const ProblemNumber problem = hand.lost["certificates"];
  if (problem == no_problem) return;
  for (Instrument& instrument : hand.book.instruments) {
    if (instrument.kind == InstrumentKind::calibrator) doubt(instrument, problem);
  }
}

// A certificate of nobody known may be that of a calibrator that has none.
void doubt_calibrators_without_certificate(Book& book) {
  const auto nobodys = std::find_if(book.certificates.begin(), book.certificates.end(),
                                    [](const Certificate& it) { return it.instrument == no_row; });
  if (nobodys == book.certificates.end()) return;
  std::vector<bool> has_one(book.instruments.size());
  for (const Certificate& certificate : book.certificates) {
    if (certificate.instrument != no_row) has_one[certificate.instrument] = true;
  }
  for (Row row = 0; row < book.instruments.size(); ++row) {
    const bool lacks_one = book.instruments[row].kind == InstrumentKind::calibrator && !has_one[row];
    if (lacks_one) doubt(book.instruments[row], nobodys->problem);
  }
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
  CertificateRows(const TableFile& file, const BookInHand& hand, Known& known)
      : file_(file), hand_(hand), known_(known), reader_(hand.context(file, certificates_spec)) {}

  void operator()(const CsvScanner& scanner, Row, std::uint32_t line) {
    reader_.start(scanner, line);
    const RowPlace place{file_.number, line};
    Certificate head = read_certificate(reader_, place);
    head.instrument = read_instrument();
    const CertificatePoint point = read_point(reader_, file_.layout, place);
    Certificate& whole = certificate_of(std::move(head));
    if (whole.problem == no_problem) whole.problem = reader_.problem();
    whole.points.push_back(point);
    if (reader_.problem() != no_problem && whole.instrument != no_row && whole.calibrated == no_day) {
      doubt(hand_.book.instruments[whole.instrument], reader_.problem());
    }
  }

 private:
  Row read_instrument() {
    const std::string_view name = reader_.text(instrument);
    const Row row = known_.instruments.find(name);
    if (row == no_row) fail_unknown(name);
    return row;
  }

  void fail_unknown(std::string_view name) {
    const ProblemNumber lost = hand_.lost["instruments"];
    if (lost != no_problem) return reader_.lean_on(lost);
    if (name.empty()) return;
    reader_.fail(instrument, "certificate/unknown-instrument",
                 "the instrument " + in_quotes(name) + " is not in instruments.csv",
                 instrument_hint(hand_.book, InstrumentKind::calibrator, name));
  }

  // The certificate that this row is a point of: known by its name, or new.
  Certificate& certificate_of(Certificate head) {
    std::vector<Certificate>& all = hand_.book.certificates;
    if (head.name.empty()) return all.emplace_back(std::move(head));
    const auto [place, is_new] = known_.certificates.try_emplace(head.name, all.size());
    if (is_new) return all.emplace_back(std::move(head));
    Certificate& known = all[place->second];
    if (is_torn(known, head)) {
      reader_.fail(certificate, "certificate/torn",
                   "the certificate " + in_quotes(head.name) + " has another instrument or date in " +
                       hand_.book.place_text(hand_.book.files.certificates, known.place),
                   "all rows of one certificate say the same; give another certificate another name");
    }
    if (known.instrument == no_row) known.instrument = head.instrument;
    if (known.calibrated == no_day) known.calibrated = head.calibrated;
    return known;
  }

  // An instrument or a date that can't be understood has been told as that.
  static bool is_torn(const Certificate& known, const Certificate& head) {
    const bool other_instrument =
        known.instrument != head.instrument && known.instrument != no_row && head.instrument != no_row;
    const bool other_date =
        known.calibrated != head.calibrated && known.calibrated != no_day && head.calibrated != no_day;
    return other_instrument || other_date;
  }

  const TableFile& file_;
  const BookInHand& hand_;
  Known& known_;
  RowReader reader_;
};

}  // namespace

const TableSpec certificates_spec{"certificates", fields};

void read_certificates(const std::vector<TableFile>& files, const BookInHand& hand) {
  Known known{index_of_instruments(hand.book.instruments), {}};
  for (const TableFile& file : files) {
    CertificateRows worker(file, hand, known);
    RowPlaces unused;
    read_rows_in_order(file.bytes, file.layout, file.number, 0, worker, unused);
  }
  doubt_all_calibrators(hand);
  doubt_calibrators_without_certificate(hand.book);
}

}  // namespace driftwarden
