// SPDX-License-Identifier: MIT
#include "verdict/formula_names.hpp"

#include <map>

#include "diagnostic/characters.hpp"

namespace driftwarden {
namespace {

// The names of one kind that a spreadsheet would run, each once, and where the first of them stands.
class NamesOfAKind {
 public:
  NamesOfAKind(const char* kind, const std::vector<std::string>& files) : kind_(kind), files_(files) {}

  void look_at(std::string_view name, RowPlace place) {
    if (!runs_in_a_spreadsheet(name)) return;
    if (names_.empty()) first_ = name;
    names_.emplace(name, place);
  }

  void tell(Diagnostics& remarks) const {
    if (names_.empty()) return;
    const RowPlace& at = names_.at(first_);
    const std::size_t more = names_.size() - 1;
    remarks.push_back(remark("name/formula", {files_[at.file], at.line, 0},
                             "the name of the " + std::string(kind_) + " " + in_quotes(first_) +
                                 (more == 0 ? "" : ", and " + std::to_string(more) + " more like it,") +
                                 " would be run as a formula by a spreadsheet that opens a CSV of results",
                             "let no name begin with '=', '+', '-' or '@', or have the spreadsheet read all as text"));
  }

 private:
  const char* kind_;
  const std::vector<std::string>& files_;
  std::map<std::string, RowPlace, std::less<>> names_;
  std::string first_;
};

}  // namespace

Diagnostics formula_names(const Book& book) {
  NamesOfAKind instruments("instrument", book.files.instruments);
  NamesOfAKind certificates("certificate", book.files.certificates);
  NamesOfAKind samples("sample", book.files.samples);
  NamesOfAKind batches("batch", book.files.samples);
  NamesOfAKind analytes("analyte", book.files.results);
  for (const Instrument& instrument : book.instruments) instruments.look_at(instrument.name, instrument.place);
  for (const Certificate& certificate : book.certificates) certificates.look_at(certificate.name, certificate.place);
  for (Row row = 0; row < book.samples.size(); ++row) {
    samples.look_at(book.samples.name[row], book.samples.place[row]);
    batches.look_at(book.texts.text(field(book.samples.batch, row, TextId{0})), book.samples.place[row]);
  }
  for (const LaboratoryResult& result : book.results) analytes.look_at(result.analyte, result.place);
  Diagnostics remarks;
  for (const NamesOfAKind* names : {&instruments, &certificates, &samples, &batches, &analytes}) names->tell(remarks);
  return remarks;
}

}  // namespace driftwarden
