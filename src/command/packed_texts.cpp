// SPDX-License-Identifier: MIT
#include "command/packed_texts.hpp"

#include <algorithm>
#include <iterator>
#include <numeric>
#include <sstream>

#include "book/file_name.hpp"
#include "command/screen_results.hpp"
#include "command/selection.hpp"
#include "evidence/bag_layout.hpp"
#include "evidence/inputs.hpp"
#include "evidence/read_me.hpp"
#include "report/csv_text.hpp"
#include "report/explanation.hpp"
#include "report/history_csv.hpp"
#include "report/history_json.hpp"
#include "report/in_order.hpp"
#include "report/rows_used_csv.hpp"
#include "report/terminal_text.hpp"
#include "system/held_file.hpp"

namespace driftwarden {
namespace {

// A book out of a package must not have rules read from the reader's own disk.
bool stays_inside(const std::filesystem::path& book, Surroundings& surroundings) {
  const Result<HeldFile> text = HeldFile::open(book / "book.toml", "book.toml");
  if (!text) return true;  // opening the book tells
  const Result<Settings> settings = parse_settings(text->bytes(), "book.toml");
  const Diagnostics faults = settings ? packs_outside(*settings) : Diagnostics{};
  tell(surroundings.err, faults);
  return faults.empty();
}

// What could not be read this time. All else that is wrong with a book was told when it was packed.
Diagnostics unread(const Book& book) {
  Diagnostics faults;
  std::copy_if(book.problems.begin(), book.problems.end(), std::back_inserter(faults),
               [](const Diagnostic& problem) { return problem.id == "file/unreadable"; });
  return faults;
}

std::string screen_text(const PackedBook& packed, const char* format, const PackageNote& note, unsigned threads) {
  std::ostringstream out;
  write_screen(*packed.opened, packed.selected, {format, false, threads}, note.version, out);
  return out.str();
}

constexpr std::size_t workings_a_block = 64;

// One thread's part: the workings of a block, one behind another; where each ends is told by their lengths.
struct WorkingsWriter {
  const Screening& screening;
  const std::vector<Row>& samples;
  std::vector<std::size_t>& lengths;
  SampleJudge judge;

  void operator()(std::size_t first, std::size_t last, std::string& text) {
    for (std::size_t i = first; i < last; ++i) {
      const std::string working = explanation_of(screening, judge.judge(samples[i]), Paint(false));
      lengths[i] = working.size();
      text += working;
    }
  }
};

// The working of each sample, and a table that says which file it is in.
void make_workings(const PackedBook& packed, unsigned threads, const TakeText& take) {
  const Screening& screening = *packed.opened->screening;
  const std::vector<Row>& samples = packed.selected.samples;
  std::vector<std::size_t> lengths(samples.size());
  FreshNames names;
  std::string index = "sample,file\n";
  const auto take_block = [&](std::string_view text, std::size_t first, std::size_t last) {
    for (std::size_t i = first; i < last; ++i) {
      const std::string name(screening.book().samples.name[samples[i]]);
      const std::string file = names.name(as_file_name(name), ".txt");
      append_csv(index, name);
      index += ',' + file + '\n';
      take(std::string(packed_workings) + file, text.substr(0, lengths[i]));
      text.remove_prefix(lengths[i]);
    }
  };
  const auto make_writer = [&] { return WorkingsWriter{screening, samples, lengths, SampleJudge(screening, true)}; };
  write_in_order(samples.size(), workings_a_block, threads, make_writer, take_block);
  take(std::string(packed_workings) + "index.csv", index);
}

ReadMe read_me_of(const PackedBook& packed, const PackageNote& note) {
  const Book& book = packed.opened->book;
  ReadMe read_me{
      book.settings.title, note, packed.totals, 0, asked_records(*packed.opened->screening, packed.used, note),
      packed.altered};
  for (const Diagnostic& problem : book.problems) read_me.faults += is_error(problem) ? 1U : 0U;
  return read_me;
}

// The texts of the rule packs that the book is judged by, as they lie in the package.
std::vector<std::string> texts_of_packs(const Settings& settings, const std::filesystem::path& folder) {
  std::vector<std::string> texts;
  for (const std::string& pack : settings.packs) {
    const bool is_own = pack.ends_with(".toml");
    const std::filesystem::path file = is_own ? folder / packed_book / pack : folder / packed_rules / (pack + ".toml");
    const Result<HeldFile> text = HeldFile::open(file, pack);
    if (text) texts.emplace_back(text->bytes());  // else no rules could be read, which is told
  }
  return texts;
}

void note_what_is_used(PackedBook& packed) {
  const Screening& screening = *packed.opened->screening;
  SampleJudge judge(screening);
  for (const Row sample : packed.selected.samples) {
    const SampleResult& result = judge.judge(sample);
    packed.totals.count(result.verdict, result.standing);
    packed.used.note(screening, result);
  }
  packed.used.follow(screening);
}

// Those whose histories are in the package.
std::vector<Row> instruments_shown(const PackedBook& packed, ChartsOf charts_of) {
  if (charts_of != ChartsOf::all) return {packed.used.instruments.begin(), packed.used.instruments.end()};
  std::vector<Row> all(packed.opened->book.instruments.size());
  std::iota(all.begin(), all.end(), Row{0});
  return all;
}

}  // namespace

std::optional<PackedBook> open_packed(const std::filesystem::path& folder, const PackageNote& note, unsigned threads,
                                      Surroundings& surroundings) {
  const std::filesystem::path book = folder / packed_book;
  if (!stays_inside(book, surroundings)) return std::nullopt;
  std::ostringstream remarks;
  Surroundings inside{surroundings.out,    remarks, false, false, surroundings.now, folder / payload_folder,
                      surroundings.version};
  PackedBook packed;
  ScreenOptions options;
  options.book = {book.string(), note.as_of, threads};
  options.batches = note.batches;
  packed.opened = open_book(options.book, inside);
  std::optional<Selection> selected =
      packed.opened == nullptr ? std::nullopt : selected_samples(*packed.opened, options, inside);
  Result<ChartChoices> choices =
      selected ? chart_choices(packed.opened->book.settings.history) : Result<ChartChoices>(ChartChoices{});
  if (!choices) tell(inside.err, choices.faults());
  if (!selected || !choices) {
    surroundings.err << remarks.str();
    return std::nullopt;
  }
  if (const Diagnostics faults = unread(packed.opened->book); !faults.empty()) {
    tell(surroundings.err, faults);
    return std::nullopt;
  }
  packed.selected = *std::move(selected);
  packed.altered = altered_packs(texts_of_packs(packed.opened->book.settings, folder), packs_as_shipped());
  packed.choices = *choices;
  if (note.batches.empty()) tell_doubts(*packed.opened, inside);
  note_what_is_used(packed);
  packed.histories = histories_of(*packed.opened->screening, instruments_shown(packed, note.charts_of),
                                  packed.opened->as_of, packed.choices);
  return packed;
}

ReviewCharts review_charts(const PackageNote& note, bool can_be_drawn) {
  if (note.charts_of == ChartsOf::none) return ReviewCharts::unasked;
  if (!note.has_charts) return ReviewCharts::none;
  return can_be_drawn ? ReviewCharts::drawn : ReviewCharts::left_out;
}

void make_texts(const PackedBook& packed, const PackageNote& note, unsigned threads, const TakeText& taker) {
  const TakeText take = [&taker](const std::string& name, std::string_view text) {
    taker(name, name.ends_with(".txt") ? safe_text(text, false) : text);
  };
  const std::string results(packed_results);
  const Screening& screening = *packed.opened->screening;
  take(std::string(package_note_file), package_note_text(note));
  take(results + "screen.txt", screen_text(packed, "table", note, threads));
  take(results + "screen.csv", screen_text(packed, "csv", note, threads));
  take(results + "screen.json", screen_text(packed, "json", note, threads));
  take(results + "history.csv", history_csv(screening, packed.histories));
  take(results + "history.json", history_json(screening, packed.histories, packed.opened->as_of, packed.choices));
  take(std::string(rows_used_file), rows_used_csv(screening.book(), packed.used));
  make_workings(packed, threads, take);
  take(std::string(read_me_file), read_me_text(read_me_of(packed, note)));
}

}  // namespace driftwarden
