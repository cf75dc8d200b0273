// SPDX-License-Identifier: MIT
#include "doubt/slips.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "doubt/pair_scatter.hpp"
#include "quantity/number.hpp"
#include "quantity/rounding.hpp"
#include "statistics/student_t.hpp"

namespace driftwarden {
namespace {

constexpr double rarest_slip = 0.001;  // chance makes such a set less than once in a thousand
constexpr double fewest_dof = 20;      // before a pooled spread is trusted
// Nearer than so many standard deviations nothing is a slip: one of three readings lies farther out at least 3 times
// 0.27 % of the time (0.27 % by the normal distribution; Student's t has more), which is not rarer than rarest_slip.
constexpr double nearest_slip = 3;

// A reading that may be a slip.
struct Slip {
  std::size_t set = 0;
  std::size_t reading = 0;
  double others_l_min = missing;  // the mean of the others
  PooledSpread known;             // relative
  bool is_of_pump = true;         // known of the pump with this calibrator; else of the calibrator with all pumps
};

class SlipFinder {
 public:
  SlipFinder(const std::vector<Replicates>& all, const ScatterMap& scatter)
      : all_(all), scatter_(scatter), known_(all) {}

  // What is found is left out of what is known, and looked for again, so that slips don't hide each other.
  std::vector<Slip> find() {
    std::vector<Slip> slips = find_by_what_is_known();
    for (;;) {
      std::vector<bool> are_slips(all_.size(), false);
      for (const Slip& slip : slips) are_slips[slip.set] = true;
      known_.leave_out(std::move(are_slips));
      std::vector<Slip> more = find_by_what_is_known();
      if (more.size() <= slips.size()) return slips;
      slips = std::move(more);
    }
  }

 private:
  std::vector<Slip> find_by_what_is_known() const {
    std::vector<Slip> slips;
    for (std::size_t set = 0; set < all_.size(); ++set) {
      if (const std::optional<Slip> slip = slip_in(set)) slips.push_back(*slip);
    }
    return slips;
  }

  // Of the calibrator with the pump, or, where too little, of the calibrator; the set itself left out.
  std::optional<Slip> known_of(std::size_t set) const {
    const PooledSpread of_pair = known_.of_pair(set);
    if (of_pair.dof >= fewest_dof) return Slip{set, 0, missing, of_pair, true};
    const PooledSpread of_calibrator = known_.of_calibrator(set);
    if (of_calibrator.dof >= fewest_dof) return Slip{set, 0, missing, of_calibrator, false};
    return std::nullopt;
  }

  // Difference of a reading from the mean of the n - 1 others of its set, as Student's t: d / (s √(n / (n - 1))), taken
  // one display step shorter than it reads.
  std::optional<Slip> slip_in(std::size_t set) const {
    const std::vector<double>& readings = all_[set].indicated_l_min;
    if (readings.size() < fewest_in_a_set) return std::nullopt;
    std::optional<Slip> slip = known_of(set);
    if (!slip) return std::nullopt;
    const auto n = static_cast<double>(readings.size());
    const double mean = known_.own(set).mean;
    slip->reading = farthest(readings, mean);
    slip->others_l_min = (n * mean - readings[slip->reading]) / (n - 1);
    const Scatter& of_calibrator = scatter_.at(all_[set].calibrator);
    const double apart = std::fabs(readings[slip->reading] - slip->others_l_min) - of_calibrator.step;
    const double s = std::max(slip->known.s * mean, of_calibrator.step / std::sqrt(12.0)) * std::sqrt(n / (n - 1));
    if (!(s > 0) || apart < nearest_slip * s) return std::nullopt;  // s 0: what lies apart is the last binary digit
    const double chance = n * student_t_two_sided_p(apart / s, slip->known.dof);
    return chance < rarest_told(rarest_slip, of_calibrator.sets) ? slip : std::nullopt;
  }

  static std::size_t farthest(const std::vector<double>& readings, double mean) {
    std::size_t found = 0;
    for (std::size_t i = 1; i < readings.size(); ++i) {
      if (std::fabs(readings[i] - mean) > std::fabs(readings[found] - mean)) found = i;
    }
    return found;
  }

  const std::vector<Replicates>& all_;
  const ScatterMap& scatter_;
  PairScatter known_;
};

// The number with two neighbouring digits changed about that lies nearest to what is expected, if one is within reach.
std::optional<double> digits_changed_about(double reading, double expected, double reach) {
  const std::string written = shortest(reading);
  std::optional<double> nearest;
  for (std::size_t i = 0; i + 1 < written.size(); ++i) {
    const std::size_t next = written[i + 1] == '.' ? i + 2 : i + 1;
    if (written[i] == '.') continue;
    std::string other = written;
    std::swap(other[i], other[next]);
    const double number = number_from(other).value_or(missing);
    if (!(std::fabs(number - expected) <= reach)) continue;
    if (!nearest || std::fabs(number - expected) < std::fabs(*nearest - expected)) nearest = number;
  }
  return nearest;
}

std::string hint_about(double reading, const Slip& slip) {
  constexpr double reach_in_s = 3;
  const double reach = reach_in_s * slip.known.s * slip.others_l_min;
  const std::optional<double> meant = digits_changed_about(reading, slip.others_l_min, reach);
  if (meant) return "did two digits change places: " + shortest(*meant) + "?";
  return "look at the page; strike it out with a note if it was a slip";
}

}  // namespace

void note_slips(const Book& book, const std::vector<Replicates>& all, const ScatterMap& scatter, Diagnostics& doubts) {
  for (const Slip& slip : SlipFinder(all, scatter).find()) {
    const Replicates& set = all[slip.set];
    const double reading = set.indicated_l_min[slip.reading];
    const std::string percent = with_significant_digits(100 * (reading / slip.others_l_min - 1), 2);
    doubts.push_back(remark(
        "doubt/slip", place_of(book, set.rows[slip.reading]),
        with_significant_digits(reading, 5) + " L/min of a set of " + std::string(owner_name(book, set)) + " lies " +
            percent + " % from the mean of the others; readings of " + book.instruments[set.calibrator].name +
            (slip.is_of_pump ? " on " + book.instruments[set.pump].name : "") + " scatter by " +
            with_significant_digits(100 * slip.known.s, 2) + " % (" + with_decimals(slip.known.dof, 0) +
            " degrees of freedom), and by chance one lies so far out in less than 1 set of 1000",
        hint_about(reading, slip)));
  }
}

}  // namespace driftwarden
