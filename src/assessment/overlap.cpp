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

void note_overlaps(const SampleTable& samples, std::vector<Row>& runs, Column<double>& shared) {
  std::sort(runs.begin(), runs.end(), [&samples](Row a, Row b) { return samples.started[a] < samples.started[b]; });
  for (std::size_t i = 0; i < runs.size(); ++i) {
    for (std::size_t k = i + 1; k < runs.size() && samples.started[runs[k]] < samples.stopped[runs[i]]; ++k) {
      const Moment end = std::min(samples.stopped[runs[i]], samples.stopped[runs[k]]);
      const double minutes = static_cast<double>(std::max<Moment>(end - samples.started[runs[k]], 0)) / 60;
      for (const Row row : {runs[i], runs[k]}) shared[row] = std::max(shared[row], minutes);
    }
  }
}

}  // namespace

Column<double> minutes_shared(const SampleTable& samples, std::size_t instruments) {
  Column<double> shared;
  shared.reserve(samples.size());
  std::vector<std::vector<Row>> by_pump(instruments);
  for (Row row = 0; row < samples.size(); ++row) {
    const bool runs = has_run(samples, row);
    shared.push_back(runs ? 0 : missing);
    if (runs) by_pump[samples.pump[row]].push_back(row);
  }
  for (std::vector<Row>& runs : by_pump) note_overlaps(samples, runs, shared);
  return shared;
}

}  // namespace driftwarden
