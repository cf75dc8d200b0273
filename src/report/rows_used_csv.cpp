// SPDX-License-Identifier: MIT
#include "report/rows_used_csv.hpp"

#include "report/csv_text.hpp"

namespace driftwarden {
namespace {

class Index {
 public:
  explicit Index(const Book& book) : book_(book) {}

  void add(const std::vector<std::string>& files, RowPlace place, std::string_view what, std::string_view name) {
    append_csv(text, files[place.file]);
    text += ',' + std::to_string(place.line) + ',' + std::string(what) + ',';
    append_csv(text, name);
    text += '\n';
  }
  void add(const Certificate& certificate) {
    if (certificate.points.empty()) add(book_.files.certificates, certificate.place, "certificate", certificate.name);
    for (const CertificatePoint& point : certificate.points)
      add(book_.files.certificates, point.place, "certificate", certificate.name);
    for (std::size_t i = 1; i < certificate.condition_points.size() && certificate.points.empty(); ++i)
      add(book_.files.certificates, certificate.condition_points[i].place, "certificate", certificate.name);
  }
  void add_reading(Row row) {
    const Row sample = field(book_.readings.sample, row, no_row);
    const Row pump = field(book_.readings.pump, row, no_row);
    std::string_view name;
    if (pump != no_row) name = book_.instruments[pump].name;
    if (sample != no_row) name = book_.samples.name[sample];
    add(book_.files.readings, book_.readings.place[row], "reading", name);
  }

  std::string text = "file,line,record,name\n";

 private:
  const Book& book_;
};

}  // namespace

std::string rows_used_csv(const Book& book, const RecordsUsed& used) {
  Index index(book);
  for (const Row row : used.instruments)
    index.add(book.files.instruments, book.instruments[row].place, "instrument", book.instruments[row].name);
  for (const Row row : used.certificates) index.add(book.certificates[row]);
  for (const Row row : used.samples)
    index.add(book.files.samples, book.samples.place[row], "sample", book.samples.name[row]);
  for (const Row row : used.readings) index.add_reading(row);
  for (const Row row : used.decisions)
    index.add(book.files.decisions, book.decisions[row].place, "decision", book.decisions[row].subject);
  for (const Row row : used.services) {
    const Service& service = book.services[row];
    index.add(book.files.service, service.place, "service", book.instruments[service.instrument].name);
  }
  for (const Row row : used.issues) {
    const Issue& issue = book.issues[row];
    index.add(book.files.issues, issue.place, "issue", book.instruments[issue.instrument].name);
  }
  for (const Row row : used.results) {
    const LaboratoryResult& result = book.results[row];
    index.add(book.files.results, result.place, "result", book.samples.name[result.sample]);
  }
  for (const Row row : used.controls)
    index.add(book.files.results, book.controls[row].place, "control filter", book.controls[row].name);
  return std::move(index.text);
}

}  // namespace driftwarden
