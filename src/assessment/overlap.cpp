// SPDX-License-Identifier: MIT
#include "assessment/overlap.hpp"

#include <algorithm>
#include <vector>

namespace driftwarden {
namespace {

bool has_run(const SampleTable& samples, Row row) {
  if (samples.kind[row] == SampleKind::blank) return false;
  return samples.pump[row] != no_row && samples.started[row] != no_moment && samples.stopped[row] != no_moment;
}

void note(Overlap& overlap, double minutes, Row with) {
  if (minutes <= 0 || minutes < overlap.minutes) return;
  overlap = {minutes, minutes > overlap.minutes ? with : std::min(overlap.with, with)};
}

void note_overlaps(const SampleTable& samples, std::vector<Row>& runs, Column<Overlap>& shared) {
  std::sort(runs.begin(), runs.end(), [&samples](Row a, Row b) { return samples.started[a] < samples.started[b]; });
  for (std::size_t i = 0; i < runs.size(); ++i) {
    for (std::size_t k = i + 1; k < runs.size() && samples.started[runs[k]] < samples.stopped[runs[i]]; ++k) {
      const SharedTime time = shared_time(samples, runs[i], runs[k]);
      const double minutes = static_cast<double>(time.to - time.from) / 60;
      note(shared[runs[i]], minutes, runs[k]);
      note(shared[runs[k]], minutes, runs[i]);
    }
  }
}

}  // namespace

SharedTime shared_time(const SampleTable& samples, Row one, Row other) {
  return {std::max(samples.started[one], samples.started[other]),
          std::min(samples.stopped[one], samples.stopped[other])};
}

Column<Overlap> overlaps_of(const SampleTable& samples, std::size_t instruments) {
  Column<Overlap> shared;
  shared.reserve(samples.size());
  std::vector<std::vector<Row>> by_pump(instruments);
  for (Row row = 0; row < samples.size(); ++row) {
    const bool runs = has_run(samples, row);
    shared.push_back({runs ? 0 : missing, no_row});
    if (runs) by_pump[samples.pump[row]].push_back(row);
  }
  for (std::vector<Row>& runs : by_pump) note_overlaps(samples, runs, shared);
  return shared;
}

}  // namespace driftwarden
