// SPDX-License-Identifier: MIT
#include "workshop/book_parts.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <memory>
#include <numeric>
#include <span>
#include <string>
#include <unordered_map>

#include "book/book_table.hpp"
#include "book/table_files.hpp"
#include "outside/output_stream.hpp"
#include "outside/write_fault.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

// Pumps that stay together: each by itself, but for those of a batch with results of the laboratory, where the blanks
// speak of all its samples.
class PumpGroups {
 public:
  explicit PumpGroups(const Book& book) : book_(book), one_of_(book.instruments.size()) {
    std::iota(one_of_.begin(), one_of_.end(), Row{0});
    for (const LaboratoryResult& result : book.results) pump_of_batch_.try_emplace(batch_of(result.sample), no_row);
    pump_of_batch_.erase(TextId{0});
    for (Row row = 0; row < book.samples.size() && !pump_of_batch_.empty(); ++row) unite(row);
  }

  // The pump that stands for all that a sample or blank stays with; no_row: it may go anywhere.
  Row pump_of(Row sample) const {
    const Row own = book_.samples.pump[sample];
    const auto batch = pump_of_batch_.find(batch_of(sample));
    const Row pump = own == no_row && batch != pump_of_batch_.end() ? batch->second : own;
    return pump == no_row ? no_row : first_of(pump);
  }

 private:
  TextId batch_of(Row sample) const { return field(book_.samples.batch, sample, TextId{0}); }
  Row first_of(Row pump) const {
    while (one_of_[pump] != pump) pump = one_of_[pump];
    return pump;
  }
  void unite(Row sample) {
    const Row pump = book_.samples.pump[sample];
    const auto batch = pump_of_batch_.find(batch_of(sample));
    if (pump == no_row || batch == pump_of_batch_.end()) return;
    if (batch->second == no_row) batch->second = pump;
    one_of_[first_of(pump)] = first_of(batch->second);
  }

  const Book& book_;
  std::vector<Row> one_of_;              // another of its group, by pump; itself of the one that stands for all
  std::map<TextId, Row> pump_of_batch_;  // of batches with results
};

std::vector<std::uint32_t> dealt_samples(const Book& book, std::uint32_t parts) {
  constexpr std::uint32_t none = UINT32_MAX;
  const PumpGroups groups(book);
  std::vector<std::uint32_t> of_pump(book.instruments.size(), none);
  std::vector<std::uint32_t> of_sample(book.samples.size(), 0);
  std::uint32_t next = 0;
  for (Row row = 0; row < book.samples.size(); ++row) {
    const Row pump = groups.pump_of(row);
    if (pump == no_row) continue;  // a blank
    if (of_pump[pump] == none) of_pump[pump] = next++ % parts;
    of_sample[row] = of_pump[pump];
  }
  return of_sample;
}

// In the order of the rows. A control filter goes where the results of its batch are.
std::vector<std::uint32_t> dealt_results(const Book& book, const std::vector<std::uint32_t>& of_sample) {
  std::map<std::pair<std::uint32_t, std::uint32_t>, std::uint32_t> of_row;
  std::map<TextId, std::uint32_t> of_batch;
  const auto put = [&of_row](RowPlace place, std::uint32_t part) { of_row[{place.file, place.line}] = part; };
  for (const LaboratoryResult& result : book.results) {
    const std::uint32_t part = of_sample[result.sample];
    put(result.place, part);
    of_batch.try_emplace(field(book.samples.batch, result.sample, TextId{0}), part);
  }
  for (const ControlFilter& control : book.controls) {
    const auto batch = of_batch.find(control.batch);
    put(control.place, batch == of_batch.end() ? 0 : batch->second);
  }
  std::vector<std::uint32_t> of_result;
  for (const auto& [place, part] : of_row) of_result.push_back(part);
  return of_result;
}

std::vector<std::uint32_t> dealt_readings(const Book& book, const std::vector<std::uint32_t>& of_sample) {
  std::vector<std::uint32_t> of_pump(book.instruments.size(), 0);
  for (Row row = 0; row < book.samples.size(); ++row) {
    if (book.samples.pump[row] != no_row) of_pump[book.samples.pump[row]] = of_sample[row];
  }
  std::vector<std::uint32_t> of_reading(book.readings.size());
  for (Row row = 0; row < book.readings.size(); ++row) {
    const Row sample = field(book.readings.sample, row, no_row);
    of_reading[book.readings.place.as_written(row)] =
        sample != no_row ? of_sample[sample] : of_pump[field(book.readings.pump, row, no_row)];
  }
  return of_reading;
}

std::vector<std::uint32_t> dealt_decisions(const Book& book, const std::vector<std::uint32_t>& of_sample) {
  std::vector<std::uint32_t> of_decision;
  if (book.decisions.empty()) return of_decision;
  std::unordered_map<std::string_view, std::uint32_t> by_name;
  for (Row row = 0; row < book.samples.size(); ++row) by_name.emplace(book.samples.name[row], of_sample[row]);
  for (const Decision& decision : book.decisions) {
    const auto found = by_name.find(decision.subject);
    of_decision.push_back(found == by_name.end() ? 0 : found->second);
  }
  return of_decision;
}

// Writes the rows of one table's files to the parts.
class RowDealer {
 public:
  RowDealer(const Book& book, const TableSpec& spec, std::span<const std::uint32_t> part_of_row, std::uint32_t parts,
            const fs::path& folder)
      : book_(book), spec_(spec), part_of_row_(part_of_row), parts_(parts), folder_(folder) {}

  // The faults, or none. The rows of the files come one after another.
  Diagnostics deal(const std::vector<std::string>& files) {
    std::size_t row = 0;
    for (const std::string& name : files) {
      if (!split_sheet(name).sheet.empty()) {
        return {error("parts/workbook", {name, 0, 0}, "the rows of a workbook can't be dealt out to parts",
                      "save the sheet as CSV, and take the workbook out of the folder")};
      }
      const Result<HeldFile> file = read_again(book_, name);
      if (!file) return file.faults();
      Diagnostics faults;
      const FileManner manner = manner_of(book_.settings, name);
      if (manner.ignored.go_by_line()) {
        return {error("parts/ignored-lines", {name, 0, 0},
                      "lines of it are ignored by their numbers, which parts change",
                      "name those rows in book.toml by what they begin with")};
      }
      auto layout = read_layout({file->bytes(), name, 0, manner.heading_line}, spec_,
                                owners_headings(book_.settings, spec_.table), faults);
      if (!layout) return faults;
      layout->ignored = manner.ignored;
      const int reason = deal_file(*file, *layout, name, row);
      if (reason != 0) return {unwritable(folder_, reason)};
    }
    return {};
  }

 private:
  // The reason for which a part could not be written, or 0.
  int deal_file(const HeldFile& file, const TableLayout& layout, const std::string& name, std::size_t& row) {
    std::vector<std::unique_ptr<OutputStream>> outs;
    for (std::uint32_t part = 0; part < parts_; ++part) {
      outs.push_back(std::make_unique<OutputStream>(part_folder(part) / name));
      *outs.back() << file.bytes().substr(0, layout.rows_begin);
    }
    CsvScanner scanner(file.bytes().substr(layout.rows_begin), layout.separator);
    // The bytes are those that were read: there are no more rows than parts were told for.
    while (row < part_of_row_.size() && scanner.next()) {
      if (!is_of_table(scanner, 0, layout)) continue;
      OutputStream& out = *outs[part_of_row_[row++]];
      out.write(scanner.row_begin(), scanner.position() - scanner.row_begin());
      if (scanner.position()[-1] != '\n') out << '\n';
    }
    int reason = 0;
    for (const std::unique_ptr<OutputStream>& out : outs) {
      const int other = out->finish(false);
      if (reason == 0) reason = other;
    }
    return reason;
  }
  fs::path part_folder(std::uint32_t part) const { return folder_ / part_name(part); }

  const Book& book_;
  const TableSpec& spec_;
  std::span<const std::uint32_t> part_of_row_;
  std::uint32_t parts_;
  const fs::path& folder_;
};

// The tables whose rows are dealt out, and by what. Every part has the others whole.
struct DealtTable {
  std::vector<std::string> BookFiles::*files;
  std::vector<std::uint32_t> BookShares::*part_of_row;
};
constexpr std::array<DealtTable, 4> dealt_tables{{{&BookFiles::samples, &BookShares::samples},
                                                  {&BookFiles::readings, &BookShares::readings},
                                                  {&BookFiles::decisions, &BookShares::decisions},
                                                  {&BookFiles::results, &BookShares::results}}};

const DealtTable* how_dealt(const BookTable& table) {
  const auto* const found = std::find_if(dealt_tables.begin(), dealt_tables.end(),
                                         [&table](const DealtTable& dealt) { return dealt.files == table.files; });
  return found == dealt_tables.end() ? nullptr : found;
}

// Files that every part has whole: settings, packs of the house, tables that aren't dealt out.
std::vector<std::string> common_files(const Book& book) {
  std::vector<std::string> names{"book.toml"};
  for (const std::string& pack : book.settings.packs) {
    if (pack.ends_with(".toml") && fs::path(pack).is_relative()) names.push_back(pack);
  }
  for (const BookTable& table : book_tables()) {
    if (how_dealt(table) != nullptr || table.is_of_parts) continue;
    for (const std::string& source : book.files.*table.files) names.emplace_back(split_sheet(source).file);
  }
  std::sort(names.begin(), names.end());  // a workbook may hold several tables
  names.erase(std::unique(names.begin(), names.end()), names.end());
  return names;
}

bool leads_outside(const std::string& name) {
  const fs::path normal = fs::path(name).lexically_normal();
  return !normal.empty() && *normal.begin() == "..";
}

Diagnostics copy_common_files(const Book& book, const fs::path& part) {
  for (const std::string& name : common_files(book)) {
    if (leads_outside(name)) {
      return {error("parts/pack-outside", {"book.toml", 0, 0},
                    "the rule pack " + in_quotes(name) + " lies outside of the book",
                    "copy it into the book's folder, or name it by its whole path")};
    }
    const Result<HeldFile> file = read_again(book, name);
    if (!file) return file.faults();
    const int reason = write_new(part / name, file->bytes());
    if (reason != 0) return {unwritable(part / name, reason)};
  }
  return {};
}

}  // namespace

std::string part_name(std::uint32_t part) { return "part-" + std::to_string(part + 1); }

BookShares shares_of(const Book& book, std::uint32_t parts) {
  BookShares shares;
  shares.parts = parts;
  shares.samples = dealt_samples(book, parts);
  shares.readings = dealt_readings(book, shares.samples);
  shares.decisions = dealt_decisions(book, shares.samples);
  shares.results = dealt_results(book, shares.samples);
  return shares;
}

Result<std::uint32_t> write_parts(const Book& book, const BookShares& shares, const fs::path& folder) {
  for (std::uint32_t part = 1; part <= shares.parts; ++part) {
    Diagnostics faults = copy_common_files(book, folder / part_name(part - 1));
    if (!faults.empty()) return faults;
  }
  for (const BookTable& table : book_tables()) {
    const DealtTable* how = how_dealt(table);
    if (how == nullptr) continue;
    Diagnostics faults =
        RowDealer(book, *table.spec, shares.*how->part_of_row, shares.parts, folder).deal(book.files.*table.files);
    if (!faults.empty()) return faults;
  }
  return shares.parts;
}

}  // namespace driftwarden
