// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <mutex>
#include <set>
#include <string>

#include "book/padded_text.hpp"
#include "book/row_blocks.hpp"
#include "book/whole_book.hpp"
#include "fuzz/require.hpp"
#include "system/held_file.hpp"

namespace driftwarden {

// The first cell and the line of each row.
class Recorder {
 public:
  using Rows = std::map<Row, std::pair<std::uint32_t, std::string>>;
  Recorder(Rows& rows, std::mutex& mutex) : rows_(rows), mutex_(mutex) {}
  void operator()(const CsvScanner& scanner, Row row, std::uint32_t line) {
    const std::scoped_lock lock(mutex_);
    rows_[row] = {line, std::string(scanner.text(0))};
  }

 private:
  Rows& rows_;
  std::mutex& mutex_;
};

// Whether all of the file is kept, or it is read through windows.
inline void blocks_agree_with_order(const std::filesystem::path& path, std::size_t head_bytes) {
  const Result<PiecedFile> file = PiecedFile::open(path, "f.csv", *stamp_of(path), head_bytes);
  require(file.has_value(), "the file can be read");
  TableLayout layout;
  CsvScanner scanner(file->bytes(), ',');
  if (!scanner.next()) return;
  layout.columns = scanner.cell_count();
  layout.rows_begin = static_cast<std::size_t>(scanner.position() - file->bytes().data());
  std::mutex mutex;
  Recorder::Rows in_order;
  Recorder recorder(in_order, mutex);
  RowPlaces places;
  const std::size_t count = read_rows_in_order(*file, layout, 0, 0, recorder, places);
  for (const auto& [row, seen] : in_order) require(places[row].line == seen.first, "a row's place");
  require(count <= most_rows(*file, layout) + rows_beyond_most(*file, layout), "there is room for every row");
  for (const std::size_t block_bytes : {1U, 7U, 64U, 1000U}) {
    Recorder::Rows in_blocks;
    std::vector<std::unique_ptr<Recorder>> workers;
    for (int t = 0; t < 2; ++t) workers.push_back(std::make_unique<Recorder>(in_blocks, mutex));
    std::size_t rows = 0;
    if (!read_rows_in_blocks(
            *file, layout, 0, workers, rows, [](std::size_t) {}, block_bytes))
      continue;
    require(rows == count && in_blocks == in_order, "the rows in blocks of " + std::to_string(block_bytes));
  }
}

inline std::size_t lines_of(const std::filesystem::path& path) {
  const Result<HeldFile> file = HeldFile::open(path, "");
  return file ? 1 + count_line_ends(file->bytes()) : 0;
}

inline void problems_are_told_once_and_of_lines_there_are(const Book& book) {
  std::set<std::string> all;
  for (const Diagnostic& problem : book.problems) {
    require(all.insert(to_text(problem)).second, "told once: " + to_text(problem));
    require(problem.place.line <= lines_of(book.folder / problem.place.file), "a line there is: " + to_text(problem));
    require(!problem.message.empty() && !problem.id.empty(), "a problem says what is wrong");
  }
}

inline void rejected_readings_have_a_problem(const Book& book) {
  for (Row row = 0; row < book.readings.size(); ++row) {
    const bool is_rejected = (book.readings.flags[row] & reading_is_rejected) != 0;
    require(is_rejected == book.readings.problem.contains(row), "a reading is rejected for a problem");
  }
}

// A book whose files are sound but for one table, whatever that has in it.
class SoundBook {
 public:
  SoundBook() {
    book_.file("book.toml",
               "time_zone = \"MST7MDT,M3.2.0,M11.1.0\"\n[headings.readings]\n\"Flow LPM\" = \"reading [L/min]\"\n");
    for (const auto& [name, text] : sound_) book_.file(name, text);
  }

  void read_with(
      const std::string& name, std::string_view text, void (*holds)(const Book&) = [](const Book&) {}) {
    book_.file(name, text);
    for (const std::size_t head_bytes : {std::size_t{5}, PiecedFile::usual_head})
      blocks_agree_with_order(book_.folder() / name, head_bytes);
    const Book alone = book_.read(1);
    problems_are_told_once_and_of_lines_there_are(alone);
    rejected_readings_have_a_problem(alone);
    holds(alone);
    require(WholeBook(book_.read(3)).text() == WholeBook(alone).text(), name + " is the same with three threads");
    book_.file(name, sound_.at(name));
  }

  // The table whose first heading the text has; the readings, where it has none.
  std::string table_of(std::string_view text) const {
    const std::string_view line = text.substr(0, text.find('\n'));
    for (const auto& [name, sound] : sound_) {
      const std::string first_heading = sound.substr(0, sound.find(','));
      if (line.find(first_heading) < line.find(',')) return name;
    }
    return "readings.csv";
  }

 private:
  WrittenBook book_;
  const std::map<std::string, std::string> sound_{
      {"instruments.csv", "instrument,kind,principle\nPUMP-1,pump,\nVOL-1,calibrator,volumetric\n"},
      {"certificates.csv",
       "certificate,instrument,calibrated,nominal [L/min],reference [L/min]\nC-1,VOL-1,2026-01-05,2,2\n"},
      {"samples.csv",
       "sample,batch,kind,pump,started,stopped\nS-1,B,,PUMP-1,2026-05-01T08:00,2026-05-01T16:00\nBL-1,B,blank,,,\n"
       "BL-2,B,blank,,,\n"},
      {"readings.csv", "taken,stage,sample,calibrator,reading [L/min]\n2026-05-01T07:50,pre,S-1,VOL-1,2\n"},
      {"decisions.csv", "decided,by,subject,rule,ruling,reason\n2026-05-02T09:00,h,S-1,a/b,uphold,r\n"},
      {"service.csv", "serviced,instrument,what\n2026-04-01T09:00,PUMP-1,new battery\n"},
      {"plan.csv", "batch,sample,pump\nB-1,S-2,PUMP-1\n"},
      {"received.csv", "received,by,file\n"},
      {"issues.csv", "kit,instrument,out\nK-1,PUMP-1,2026-04-30\n"},
      {"results.csv", "analyte,sample,amount [mg]\ndust,S-1,0.5\n"}};
};

// Any bytes as one file of a sound book, which is then looked at.
template <class Look>
int read_as(const char* file, const std::uint8_t* data, std::size_t size, Look look) {
  static SoundBook book;
  book.read_with(file, std::string_view(reinterpret_cast<const char*>(data), size), look);
  return 0;
}

}  // namespace driftwarden
