// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <string>
#include <vector>

#include "history/control_chart.hpp"
#include "history/forecast.hpp"
#include "history/interval_advice.hpp"
#include "statistics/resemblance.hpp"

namespace driftwarden {

// One series with everything made of it.
struct SeriesHistory {
  Series series;
  std::vector<ControlChart> charts{};
  Forecast forecast{};
  Resemblance resemblance{};  // of its own points, about their line
  double phi_of_kind = 0;     // of all instruments' series of this name, on the cautious side
};

// What a book tells of how points resemble the ones before them, by the name of their series.
class ResemblanceByName {
 public:
  void add(const Series& series);
  double of_kind(const Series& series) const;

 private:
  std::map<std::string, PooledResemblance, std::less<>> pooled_;
};

// A series with its forecast, without its charts.
SeriesHistory reckoned(Series series, const ResemblanceByName& of_all, double reach_days, const TimeZone& zone);

struct InstrumentHistory {
  Row instrument = no_row;
  std::vector<SeriesHistory> series;
  std::vector<IntervalOpinion> interval;  // of instruments that are calibrated; none for pumps
  double urgency = 0;                     // for sorting: the higher, the sooner somebody has to look

  const SeriesHistory* find(std::string_view name) const;
};

// Why the newest phase has no control limits: "3 points are too few to say; it takes 8". "" where it has them, or where
// limits mean nothing.
std::string lacks_limits(const SeriesHistory& history, std::size_t fewest = fewest_usual_points);

// How much a series wants to be looked at: 3 where its last point is out of tolerance, 2 where a tolerance will be
// crossed (and up to 1 more, the sooner), 1 where one of the last five points is a signal of the individuals chart;
// else, and below 1 more, how near the last point is to its tolerance. Of several series the highest.
double urgency_of(const SeriesHistory& series);
double urgency_of(const std::vector<SeriesHistory>& series);

// The histories of some instruments up to the end of a day, in the order asked for. Instruments of which nothing is
// known have no series.
std::vector<InstrumentHistory> histories_of(const Screening& screening, const std::vector<Row>& instruments, Day as_of,
                                            const ChartChoices& choices);

}  // namespace driftwarden
