// SPDX-License-Identifier: MIT
#include "doubt/use_at_odds.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "book/stamp_text.hpp"
#include "diagnostic/suggestion.hpp"
#include "quantity/rounding.hpp"

namespace driftwarden {
namespace {

class UseAtOdds {
 public:
  UseAtOdds(const Book& book, const ComeBy& come, std::span<const Replicates> all, Diagnostics& doubts)
      : book_(book), come_(come), all_(all), doubts_(doubts) {}

  void out_of_service() {
    std::map<Row, Uses> uses;
    const SampleTable& samples = book_.samples;
    for (Row row = 0; row < samples.size(); ++row) {
      if (is_drawn(row)) note(uses, samples.pump[row], samples.started[row], place_of_sample(row));
    }
    for (const Replicates& set : all_) {
      if (set.calibrator != no_row) note(uses, set.calibrator, set.first, place_of(book_, set.rows.front()));
    }
    for (const auto& [row, use] : uses) tell(book_.instruments[row], use);
  }

  void blanks() {
    const SampleTable& samples = book_.samples;
    std::set<Row> read;
    for (const Replicates& set : all_) {
      if (set.sample != no_row) read.insert(set.sample);
    }
    for (Row row = 0; row < samples.size(); ++row) {
      if (samples.kind[row] != SampleKind::blank) continue;
      const bool has_fault = field(samples.fault, row, YesNo::unsaid) == YesNo::yes;
      if (!has_fault && !read.contains(row)) continue;
      doubts_.push_back(remark("doubt/blank", place_of_sample(row),
                               std::string(samples.name[row]) + " is a blank, and " +
                                   (has_fault ? "a fault of it is on record" : "its flow was read") +
                                   ": no rule about air looks at it",
                               "if air was drawn through it, it is a sample; else the name or the kind is another's"));
    }
  }

  void read_while_running() {
    std::map<Row, std::vector<Row>> on_pump;
    const SampleTable& samples = book_.samples;
    for (Row row = 0; row < samples.size(); ++row) {
      if (is_drawn(row) && samples.stopped[row] != no_moment) on_pump[samples.pump[row]].push_back(row);
    }
    for (const Replicates& set : all_) {
      if (set.sample != no_row || set.stage == Stage::field) continue;
      const auto found = on_pump.find(set.pump);
      if (found == on_pump.end()) continue;
      for (const Row row : found->second) {
        if (set.first <= samples.started[row] || set.last >= samples.stopped[row]) continue;
        doubts_.push_back(
            remark("doubt/read-while-running", place_of(book_, set.rows.front()),
                   "the flow of " + book_.instruments[set.pump].name + " is read as " + in_quotes(to_text(set.stage)) +
                       " while " + std::string(samples.name[row]) + " runs on it (" + to_text(place_of_sample(row)) +
                       "): it counts for no sample",
                   "correct the time or the stage; one that was read during sampling is of the stage 'field'"));
        break;
      }
    }
  }

  // Where most media are written once, they are single things by their numbers; elsewhere they are kinds.
  void one_medium() {
    constexpr std::size_t most_of_ten = 9;
    const SampleTable& samples = book_.samples;
    std::map<TextId, std::vector<Row>> with;
    for (Row row = 0; row < samples.medium.size(); ++row) {
      if (samples.medium[row] != TextId{0}) with[samples.medium[row]].push_back(row);
    }
    const auto is_single = [](const auto& each) { return each.second.size() == 1; };
    const auto singles = static_cast<std::size_t>(std::count_if(with.begin(), with.end(), is_single));
    if (10 * singles < most_of_ten * with.size()) return;
    for (const auto& [medium, rows] : with) {
      if (rows.size() != 2) continue;
      doubts_.push_back(remark("doubt/one-medium", place_of_sample(rows[1]),
                               std::string(samples.name[rows[1]]) + " has the medium " +
                                   in_quotes(book_.texts.text(medium)) + ", as " + std::string(samples.name[rows[0]]) +
                                   " has (" + to_text(place_of_sample(rows[0])) + ")",
                               "one of the two has another; ask what stands on it"));
    }
  }

 private:
  struct Uses {
    Place first;
    std::size_t count = 0;
  };

  bool is_drawn(Row row) const {
    const SampleTable& samples = book_.samples;
    return samples.kind[row] == SampleKind::sample && samples.pump[row] != no_row &&
           samples.started[row] != no_moment && come_.has(samples.started[row]);
  }
  Place place_of_sample(Row row) const { return book_.place(book_.files.samples, book_.samples.place[row]); }

  // From the day it goes out of service on it is not used; on the day it comes in it may be.
  void note(std::map<Row, Uses>& uses, Row instrument, Moment at, Place place) const {
    const Instrument& of = book_.instruments[instrument];
    const Day day = local_day(at, book_.settings.zone);
    const bool is_out = of.out_of_service != no_day && of.out_of_service < day;
    const bool is_not_in = of.in_service != no_day && day < of.in_service;
    if (day == no_day || (!is_out && !is_not_in)) return;
    Uses& use = uses[instrument];
    if (use.count++ == 0) use.first = std::move(place);
  }

  void tell(const Instrument& of, const Uses& use) {
    const bool is_pump = of.kind == InstrumentKind::pump;
    const std::string since =
        of.out_of_service == no_day
            ? "in service from " + date_text(of.in_service) + " on"
            : (of.in_service == no_day ? "" : "in service from " + date_text(of.in_service) + ", ") +
                  ("out of service since " + date_text(of.out_of_service));
    doubts_.push_back(remark("doubt/out-of-service", use.first,
                             of.name + " is " + since + ", and " +
                                 counted(use.count, is_pump ? "sample is drawn" : "set is read",
                                         is_pump ? "samples are drawn" : "sets are read") +
                                 " with it at another time" + (use.count > 1 ? ", of which this is the first" : ""),
                             "the day or the instrument is wrong; or it was in service, and instruments.csv does not "
                             "say so"));
  }

  const Book& book_;
  const ComeBy& come_;
  std::span<const Replicates> all_;
  Diagnostics& doubts_;
};

}  // namespace

void note_use(const Book& book, const ComeBy& come, std::span<const Replicates> all, Diagnostics& doubts) {
  UseAtOdds use(book, come, all, doubts);
  use.out_of_service();
  use.blanks();
  use.read_while_running();
  use.one_medium();
}

}  // namespace driftwarden
