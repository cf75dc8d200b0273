// SPDX-License-Identifier: MIT
#include "workshop/rows_standing.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <tuple>

#include "book/stamp_text.hpp"
#include "book/table_files.hpp"
#include "quantity/number.hpp"
#include "quantity/rounding.hpp"

namespace driftwarden {
namespace {

// A column of a record, for a message and to be held against that of another.
struct Said {
  std::string_view field;
  std::string text;
  double figure = missing;  // in place of a text
  std::string_view unit = {};
};

bool is_same(const Said& one, const Said& other) {
  if (is_missing(one.figure) || is_missing(other.figure))
    return one.text == other.text && is_missing(one.figure) == is_missing(other.figure);
  const double hair = 1e-9 * std::max({1.0, std::abs(one.figure), std::abs(other.figure)});  // of another unit's factor
  return std::abs(one.figure - other.figure) <= hair;
}

std::string quoted(const Said& said) {
  if (!is_missing(said.figure)) return shortest(std::round(said.figure * 1e6) / 1e6) + std::string(said.unit);
  return said.text.empty() ? "nothing" : in_quotes(said.text);
}

constexpr const char* amend_there = "where the book's is wrong, amend it there, with the reason under note";

class RowsInBook {
 public:
  explicit RowsInBook(const BookWithRows& with)
      : with_(with),
        book_(with.book),
        came_samples_(with.came_in(book_.files.samples)),
        came_readings_(with.came_in(book_.files.readings)),
        faulty_(with.faulty_rows()) {
    standing_.unchanged.resize(with.rows.size());
  }

  RowsStanding look() {
    look_at_samples();
    look_at_readings();
    return std::move(standing_);
  }

 private:
  bool is_faulty(const std::vector<std::string>& files, RowPlace place) const {
    return faulty_.contains({files[place.file], place.line});
  }

  void pass_over(const RowsReceived& rows, RowPlace place) {
    standing_.unchanged[static_cast<std::size_t>(&rows - with_.rows.data())].insert(rows.row_on(place.line));
  }
  void refuse(Place place, std::string message, std::string hint) {
    standing_.differing.push_back(error("receive/differs", std::move(place), std::move(message), std::move(hint)));
  }
  std::string text(const Column<TextId>& column, Row row) const {
    return book_.texts.text(field(column, row, TextId{0}));
  }
  std::string instrument(Row row) const { return row == no_row ? "" : book_.instruments[row].name; }
  std::string moment(Moment at) const { return local_text(at, book_.settings.zone); }

  // --- samples ---
  std::vector<Said> said_of_sample(Row row) const {
    const SampleTable& all = book_.samples;
    return {{"batch", text(all.batch, row)},
            {"kind", std::string(to_text(all.kind[row]))},
            {"pump", instrument(all.pump[row])},
            {"sampler", text(all.sampler, row)},
            {"nominal", "", field(all.nominal_l_min, row), " L/min"},
            {"method", text(all.method, row)},
            {"analysis", text(all.analysis, row)},
            {"medium", text(all.medium, row)},
            {"started", moment(all.started[row])},
            {"stopped", moment(all.stopped[row])},
            {"paused", "", field(all.paused_min, row), " min"},
            {"warm-up", "", field(all.warm_up_min, row), " min"},
            {"vacuum", "", field(all.vacuum_kpa, row), " kPa"},
            {"leak", "", field(all.leak_l_min, row), " L/min"},
            {"interruptions", "", field(all.interruptions, row)},
            {"pressure drop", "", field(all.pressure_drop_kpa, row), " kPa"},
            {"pulsation", "", 100 * field(all.pulsation, row), " %"},
            {"temperature", "", field(all.temperature_k, row) - zero_celsius_in_kelvin, " °C"},
            {"pressure", "", field(all.pressure_kpa, row), " kPa"},
            {"fault", fault_of(row)},
            {"by", text(all.by, row)},
            {"note", text(all.note, row)}};
  }
  std::string fault_of(Row row) const {
    const YesNo fault = field(book_.samples.fault, row, YesNo::unsaid);
    return fault == YesNo::yes ? "yes" : fault == YesNo::no ? "no" : "";
  }

  void look_at_samples() {
    std::map<std::string_view, std::vector<Row>> rows_that_came;
    const SampleTable& all = book_.samples;
    for (Row row = 0; row < all.size(); ++row) {
      if (came_samples_[all.place[row].file] != nullptr) rows_that_came[all.name[row]].push_back(row);
    }
    if (rows_that_came.empty()) return;
    for (Row row = 0; row < all.size(); ++row) {
      const auto found = rows_that_came.find(all.name[row]);
      if (found == rows_that_came.end() || came_samples_[all.place[row].file] != nullptr) continue;
      for (const Row came : found->second) hold_sample(came, row);
      rows_that_came.erase(found);
    }
    for (const auto& [name, rows] : rows_that_came) {
      for (std::size_t i = 1; i < rows.size(); ++i) {
        refuse(place_of(book_.files.samples, all.place[rows[i]], "sample"),
               "the sample " + in_quotes(name) + " came already in " +
                   to_text(place_of(book_.files.samples, all.place[rows[0]])),
               "give each sample once");
      }
    }
  }

  void hold_sample(Row came, Row there) {
    const RowPlace place = book_.samples.place[came];
    if (is_faulty(book_.files.samples, place)) return;  // its fault is told, and nobody knows what the row says
    const std::vector<Said> here = said_of_sample(came);
    const std::vector<Said> in_book = said_of_sample(there);
    std::string differences;
    std::string_view first;
    for (std::size_t i = 0; i < here.size(); ++i) {
      if (is_same(here[i], in_book[i])) continue;
      if (first.empty()) first = here[i].field;
      differences += (differences.empty() ? ": " : "; ") + std::string(here[i].field) + " " + quoted(here[i]) +
                     " here, and " + quoted(in_book[i]) + " there";
    }
    if (differences.empty()) return pass_over(*came_samples_[place.file], place);
    refuse(place_of(book_.files.samples, place, first),
           "the sample " + in_quotes(book_.samples.name[came]) + " stands in " +
               book_.place_text(book_.files.samples, book_.samples.place[there]) + ", and otherwise" + differences,
           std::string("leave it out, or correct it here; ") + amend_there);
  }

  // --- readings ---
  // What tells one reading from all others. A sample that came again is in the book twice: its name is what counts.
  static constexpr std::size_t number_in_key = 5;
  auto key_of(Row row) const {
    const ReadingTable& all = book_.readings;
    const Row sample = field(all.sample, row, no_row);
    return std::tuple(sample == no_row ? std::string_view() : book_.samples.name[sample],
                      sample == no_row ? field(all.pump, row, no_row) : no_row, all.stage[row], all.taken[row],
                      all.calibrator[row], field(all.replicate, row, TextId{0}));
  }
  bool counts(Row row) const { return !book_.readings.is_void(row) && !book_.readings.is_rejected(row); }

  std::vector<Said> said_of_reading(Row row) const {
    const ReadingTable& all = book_.readings;
    std::vector<Said> said{{"reading", "", field(all.indicated_l_min, row), " L/min"},
                           {"temperature", "", field(all.temperature_k, row) - zero_celsius_in_kelvin, " °C"},
                           {"pressure", "", field(all.pressure_kpa, row), " kPa"},
                           {"humidity", "", field(all.humidity, row)},
                           {"set", text(all.set, row)},
                           {"sampler", text(all.sampler, row)},
                           {"by", text(all.by, row)}};
    if (counts(row)) said.push_back({"note", text(all.note, row)});  // why it was struck out is said in the book
    return said;
  }
  bool are_same_readings(Row one, Row other) const {
    return counts(one) == counts(other) && say_the_same(said_of_reading(one), said_of_reading(other));
  }
  // Of a reading that was struck out in the book since it was received.
  bool was_struck_out(Row came, Row there) const {
    std::vector<Said> here = said_of_reading(came);
    here.pop_back();  // the note says now why
    return counts(came) && book_.readings.is_void(there) && say_the_same(here, said_of_reading(there));
  }
  static bool say_the_same(const std::vector<Said>& one, const std::vector<Said>& other) {
    return std::equal(one.begin(), one.end(), other.begin(), other.end(), is_same);
  }

  // By a sample, the name of its set, and its number there.
  bool is_numbered(Row row) const {
    const ReadingTable& all = book_.readings;
    return field(all.sample, row, no_row) != no_row && field(all.set, row, TextId{0}) != TextId{0} &&
           field(all.replicate, row, TextId{0}) != TextId{0};
  }

  struct SameKey {
    std::vector<Row> came;
    std::vector<Row> there;
  };
  void look_at_readings() {
    std::map<decltype(key_of(Row{})), SameKey> by_key;
    const ReadingTable& all = book_.readings;
    std::vector<Row> came;
    for (Row row = 0; row < all.size(); ++row) {
      if (came_readings_[all.place[row].file] == nullptr) continue;
      by_key[key_of(row)].came.push_back(row);
      came.push_back(row);
    }
    if (came.empty()) return;
    for (Row row = 0; row < all.size(); ++row) {
      if (came_readings_[all.place[row].file] != nullptr) continue;
      stands_there(row, by_key);
    }
    for (const Row row : came) {
      SameKey& same = by_key[key_of(row)];
      if (!same.came.empty() && same.came.front() == row) hold_readings(same);
    }
    look_at_sets();
  }

  // Notes it for those that may be the same: a number that one side alone writes tells no two apart.
  template <class ByKey>
  void stands_there(Row row, ByKey& by_key) const {
    const auto of_any_number = [](auto key) {
      std::get<number_in_key>(key) = TextId{0};
      return key;
    };
    const auto own = key_of(row);
    for (auto at = by_key.lower_bound(of_any_number(own));
         at != by_key.end() && of_any_number(at->first) == of_any_number(own); ++at) {
      const TextId number = std::get<number_in_key>(at->first);
      if (number == std::get<number_in_key>(own) || number == TextId{0} || std::get<number_in_key>(own) == TextId{0})
        at->second.there.push_back(row);
    }
  }

  // A set that came again with another time or calibrator: of the same name, its readings have the same numbers.
  auto number_of(Row row) const {
    const ReadingTable& all = book_.readings;
    const Row sample = field(all.sample, row, no_row);
    return std::tuple(sample == no_row ? std::string_view() : book_.samples.name[sample], all.stage[row],
                      field(all.set, row, TextId{0}), field(all.replicate, row, TextId{0}));
  }
  void look_at_sets() {
    std::map<decltype(number_of(Row{})), Row> there;
    for (const Row row : fresh_) there.emplace(number_of(row), no_row);
    if (there.empty()) return;
    for (Row row = 0; row < book_.readings.size(); ++row) {
      if (came_readings_[book_.readings.place[row].file] != nullptr || !counts(row)) continue;
      if (const auto found = there.find(number_of(row)); found != there.end()) found->second = row;
    }
    const auto when_and_by = [&](Row row) {
      return moment(book_.readings.taken[row]) + " with " + instrument(book_.readings.calibrator[row]);
    };
    for (const Row row : fresh_) {
      const Row other = there[number_of(row)];
      if (other == no_row) continue;
      refuse(place_of(book_.files.readings, book_.readings.place[row], "taken"),
             "reading " + in_quotes(text(book_.readings.replicate, row)) + " of the set " +
                 in_quotes(text(book_.readings.set, row)) + " was taken " + when_and_by(row) + " here, and " +
                 when_and_by(other) + " in " + to_text(place_of(book_.files.readings, book_.readings.place[other])),
             "correct it here; or strike the set out where it stands, with void and a note");
    }
  }

  // Rows of one key: those that are the same go together, one by one; what is left on both sides differs.
  void hold_readings(SameKey& same) {
    std::vector<Row> left;
    for (const Row row : same.came) {
      if (!goes_with(same, row, &RowsInBook::are_same_readings)) left.push_back(row);
    }
    std::erase_if(left, [&](Row row) { return goes_with(same, row, &RowsInBook::was_struck_out); });
    const auto counting = std::find_if(same.there.begin(), same.there.end(),
                                       [&](Row row) { return counts(row) && !gone_.contains(row); });
    Row known = counting == same.there.end() ? no_row : *counting;
    for (const Row row : left) {
      if (book_.readings.is_rejected(row)) continue;  // its fault is told
      if (known != no_row) refuse_reading(row, known);
      if (known == no_row && counts(row) && is_numbered(row)) fresh_.push_back(row);
      const bool is_named = field(book_.readings.replicate, row, TextId{0}) != TextId{0};
      if (known == no_row && is_named && counts(row)) known = row;  // without a replicate there may be several a minute
    }
  }

  // Whether a row that came is passed over for one that stands there.
  bool goes_with(SameKey& same, Row row, bool (RowsInBook::*is_it)(Row, Row) const) {
    const RowPlace place = book_.readings.place[row];
    const auto found = std::find_if(same.there.begin(), same.there.end(),
                                    [&](Row there) { return !gone_.contains(there) && (this->*is_it)(row, there); });
    if (found == same.there.end() || is_faulty(book_.files.readings, place)) return false;
    if (counts(row) && !counts(*found)) {
      standing_.differing.push_back(remark("receive/struck-out", place_of(book_.files.readings, place, "reading"),
                                           "the reading was struck out since in " +
                                               to_text(place_of(book_.files.readings, book_.readings.place[*found])) +
                                               ", and stays so",
                                           "strike it out in the form, too, if it is saved again"));
    }
    pass_over(*came_readings_[place.file], place);
    gone_.insert(*found);
    return true;
  }

  void refuse_reading(Row row, Row other) {
    const Place there = place_of(book_.files.readings, book_.readings.place[other]);
    const double figure = book_.readings.indicated_l_min[row];
    const double before = book_.readings.indicated_l_min[other];
    const std::vector<Said> here = said_of_reading(row);
    const std::vector<Said> in_book = said_of_reading(other);
    std::string what = "the reading is struck out here, and stands in " + to_text(there);
    if (counts(row) && figure != before) {
      what =
          "the reading is " + shortest(figure) + " L/min here, and " + shortest(before) + " L/min in " + to_text(there);
    } else if (counts(row)) {
      const auto [mine, others] = std::mismatch(here.begin(), here.end(), in_book.begin(), in_book.end(), is_same);
      what = mine == here.end() ? "the same reading came already in " + to_text(there)
                                : "the reading has " + std::string(mine->field) + " " + quoted(*mine) + " here, and " +
                                      quoted(*others) + " in " + to_text(there);
    }
    refuse(place_of(book_.files.readings, book_.readings.place[row], "reading"), what,
           "strike the one that is wrong out where it stands, with void and a note, and leave it there");
  }

  // A row, or a cell of it, in the file as it came, or in the book.
  Place place_of(const std::vector<std::string>& files, RowPlace place, std::string_view field = {}) const {
    const bool is_of_samples = &files == &book_.files.samples;
    const RowsReceived* came = (is_of_samples ? came_samples_ : came_readings_)[place.file];
    if (came == nullptr) return book_.place(files, place);
    return field.empty() ? came->as_it_came({{}, place.line, 0}) : came->cell(place.line, field);
  }

  const BookWithRows& with_;
  const Book& book_;
  std::vector<const RowsReceived*> came_samples_;
  std::vector<const RowsReceived*> came_readings_;
  std::set<std::pair<std::string, std::uint32_t>> faulty_;
  std::vector<Row> fresh_;  // readings that stand nowhere
  std::set<Row> gone_;      // those of the book that one that came goes with
  RowsStanding standing_;
};

}  // namespace

std::size_t RowsStanding::count() const {
  std::size_t all = 0;
  for (const std::set<std::size_t>& rows : unchanged) all += rows.size();
  return all;
}

RowsStanding rows_standing(const BookWithRows& with) { return RowsInBook(with).look(); }

}  // namespace driftwarden
