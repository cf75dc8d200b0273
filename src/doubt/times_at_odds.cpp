// SPDX-License-Identifier: MIT
#include "doubt/times_at_odds.hpp"

#include <algorithm>
#include <cmath>

#include "assessment/sampled_volume.hpp"
#include "quantity/number.hpp"

namespace driftwarden {
namespace {

// When a pump was in use for a sample.
struct Use {
  Row pump = no_row;
  Moment begin = no_moment;
  Moment end = no_moment;
  Row sample = no_row;
  std::string place;
};

bool is_earlier(const Use& a, const Use& b) { return std::pair(a.pump, a.begin) < std::pair(b.pump, b.begin); }

Row pump_of(const Book& book, const Replicates& set) { return field(book.samples.pump, set.sample, no_row); }

// The runs of all samples and the sets read after them, by pump and begin.
std::vector<Use> uses_of_pumps(const Book& book, const ComeBy& come, std::span<const Replicates> all) {
  std::vector<Use> uses;
  const SampleTable& samples = book.samples;
  for (Row sample = 0; sample < samples.size(); ++sample) {
    const bool runs = samples.kind[sample] == SampleKind::sample && samples.pump[sample] != no_row &&
                      samples.started[sample] != no_moment && samples.stopped[sample] != no_moment;
    if (!runs || !come.has(samples.stopped[sample])) continue;
    uses.push_back({samples.pump[sample], samples.started[sample], samples.stopped[sample], sample,
                    book.place_text(book.files.samples, samples.place[sample])});
  }
  for (const Replicates& set : all) {
    if (set.stage == Stage::post && pump_of(book, set) != no_row)
      uses.push_back({pump_of(book, set), set.first, set.last, set.sample, to_text(place_of(book, set.rows.front()))});
  }
  std::stable_sort(uses.begin(), uses.end(), is_earlier);
  return uses;
}

// For each use, the one of its pump that began no later and ends last.
std::vector<std::size_t> ending_last(const std::vector<Use>& uses) {
  std::vector<std::size_t> last(uses.size());
  for (std::size_t i = 0; i < uses.size(); ++i) {
    const bool is_first = i == 0 || uses[i - 1].pump != uses[i].pump;
    last[i] = is_first || uses[i].end > uses[last[i - 1]].end ? i : last[i - 1];
  }
  return last;
}

Diagnostic too_soon(const Book& book, const Replicates& set, const Use& use, double warm_up_min) {
  const std::string pump = book.instruments[use.pump].name;
  const std::string sample(book.samples.name[set.sample]);
  const std::string other(book.samples.name[use.sample]);
  const double before = minutes_between(use.end, set.first);
  if (before < 0) {
    return remark("doubt/warm-up", place_of(book, set.rows.front()),
                  "the flow of " + pump + " is read before " + sample + ", while it is still in use for " + other +
                      " (" + use.place + ")",
                  "one of the times, or the pump, is another");
  }
  return remark(
      "doubt/warm-up", place_of(book, set.rows.front()),
      "before its flow was read, " + pump + " had warmed up for " + shortest(warm_up_min) + " min, says " + sample +
          "; but " + shortest(std::round(10 * before) / 10) + " min before it was still in use for " + other + " (" +
          use.place + ")",
      "one of the times, or the warm-up, is another; or the pump ran on from one sample to the next, and was warm");
}

}  // namespace

void note_two_places(const Book& book, std::span<const Replicates> all, Diagnostics& doubts) {
  std::vector<const Replicates*> sets;
  for (const Replicates& set : all) sets.push_back(&set);
  std::stable_sort(sets.begin(), sets.end(), [](const Replicates* a, const Replicates* b) {
    return std::pair(a->calibrator, a->first) < std::pair(b->calibrator, b->first);
  });
  const Replicates* busy = nullptr;  // the set of this calibrator that lasts longest so far
  for (const Replicates* set : sets) {
    if (busy == nullptr || busy->calibrator != set->calibrator) {
      busy = set;
      continue;
    }
    const bool is_elsewhere =
        field(book.samples.pump, set->sample, no_row) != field(book.samples.pump, busy->sample, no_row);
    if (is_elsewhere && set->first < busy->last && set->last > busy->first) {
      doubts.push_back(remark("doubt/two-places", place_of(book, set->rows.front()),
                              book.instruments[set->calibrator].name + " is read for " +
                                  std::string(book.samples.name[set->sample]) + " before it is done with " +
                                  std::string(book.samples.name[busy->sample]) + " (" +
                                  to_text(place_of(book, busy->rows.front())) + ")",
                              "one of the times, or the calibrator, is another"));
    }
    if (set->last > busy->last) busy = set;
  }
}

void note_warm_up(const Book& book, const ComeBy& come, std::span<const Replicates> all, Diagnostics& doubts) {
  const std::vector<Use> uses = uses_of_pumps(book, come, all);
  const std::vector<std::size_t> last = ending_last(uses);
  for (const Replicates& set : all) {
    if (set.stage != Stage::pre) continue;
    const double stated_min = field(book.samples.warm_up_min, set.sample);
    const auto warm_up_s = is_missing(stated_min) ? Moment{0} : static_cast<Moment>(std::llround(60 * stated_min));
    const auto later =
        std::lower_bound(uses.begin(), uses.end(), Use{pump_of(book, set), set.first, 0, 0, {}}, is_earlier);
    if (later == uses.begin() || (later - 1)->pump != pump_of(book, set)) continue;
    const Use& use = uses[last[static_cast<std::size_t>(later - uses.begin()) - 1]];
    if (use.sample != set.sample && use.end > set.first - warm_up_s)
      doubts.push_back(too_soon(book, set, use, stated_min));
  }
}

}  // namespace driftwarden
