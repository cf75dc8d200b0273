// SPDX-License-Identifier: MIT
#pragma once

#include <limits>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "book/empty_marks.hpp"
#include "book/time_zone.hpp"
#include "book/timestamp.hpp"
#include "diagnostic/result.hpp"
#include "quantity/quantity.hpp"
#include "record/sample.hpp"

namespace driftwarden {

// What book.toml says, rules aside.
struct Settings {
  // [history]: how control charts are drawn. What is not said is left to the charts.
  struct History {
    static constexpr int every_point = std::numeric_limits<int>::max();
    std::optional<int> baseline;  // the first so many points; `every_point`: all
    Day baseline_from = no_day;   // or the points of chosen days, both ends included
    Day baseline_to = no_day;
    std::optional<double> target;
    std::optional<double> ewma_lambda;  // above 0, at most 1
    std::optional<double> ewma_width;   // in sigmas, like the next two; above 0
    std::optional<double> cusum_k;
    std::optional<double> cusum_h;
    std::optional<std::vector<std::string>> run_rules;
    double false_actions_a_week = 1;  // of a whole review, on equipment that nothing is the matter with; above 0
    Place place;
  };
  // How well the book's other figures are known: half-widths within which they surely lie. Missing: not said.
  struct Uncertainty {
    double temperature_k = missing;
    double pressure_kpa = missing;
    // A clock time written to the whole minute is known to half a minute.
    double time_min = 0.5;
    // A pressure from altitude: weather moves the station pressure by 2 to 3 % (from memory; say your own).
    double altitude_pressure = 0.03;
    // The mean flow between pre and post set that agree, of a pump whose earlier uses don't tell, relative to it: half
    // of a change of 2 %. The project's own choice; no source was read.
    double flow_between = 0.01;
    bool flow_between_was_said = false;
    Place place;
  };
  // [files."readings/W4*.xlsx"]: how the files of that name were kept, where that is not as in the rest of the book.
  struct Files {
    std::string pattern;
    Place place;
    std::optional<char> decimal;
    std::optional<DateOrder> dates;
    std::optional<TimeZone> zone;
    std::optional<std::uint32_t> heading;  // the line, or the sheet's row, of the headings
    std::optional<std::string> sheet;
    std::optional<std::vector<std::string>> ignored_rows;  // lines ("97", "3-5") and beginnings of rows ("Total*")
  };
  // [custody]: who sends samples, and to whom; [custody."TF46*"] of batches of that name, where it is another.
  struct Consignment {
    std::string batches;  // a pattern; "" for all
    Place place;
    std::vector<std::string> sender;  // an address, line by line
    std::vector<std::string> laboratory;
    std::string reference;  // under which the laboratory keeps the order
  };
  // [aerosol]: what was in the air, as far as somebody knows: the mass median aerodynamic diameter and the geometric
  // standard deviation, each from and to; one aerosol where both are equal.
  struct Aerosol {
    std::pair<double, double> mmad_um;
    std::pair<double, double> gsd;
    std::string source;
    Place place;
  };
  // The owner's heading -> ours, and where that was said.
  using Headings = std::map<std::string, std::pair<std::string, Place>>;

  std::string title;
  TimeZone zone = TimeZone::utc();
  std::string zone_name;
  Conditions reference{celsius(25), Pressure(101.325)};
  bool reference_was_said = false;
  std::optional<double> altitude_m;
  Place altitude_place;
  std::vector<std::string> packs;
  std::vector<Place> pack_places;          // one for each pack
  std::vector<std::string> ignored_files;  // patterns of what need not be read
  std::vector<Files> files;                // in the order they are written
  std::vector<Consignment> consignments;   // that of all batches first, then as they are written
  EmptyMarks empty_marks;                  // of cells that hold nothing
  double guard = 0;                        // multiple of the expanded uncertainty by which limits are narrowed
  char decimal = '.';
  DateOrder dates = DateOrder::iso;
  std::optional<bool> pumps_compensate;      // [pump]: of those of which instruments.csv doesn't say
  std::map<std::string, Headings> headings;  // by table
  History history;
  Uncertainty uncertainty;
  std::optional<Aerosol> aerosol;
  // What error of a mass is told as small beside a void for its flow: what common practice lets a flow be off.
  double small_mass_error = 0.05;
  Place place;
};

// Reads the text of a book.toml. [[override]], [practice] and [sampler.…] are left to the rules. All faults come in one
// go, from top to bottom: settings/… and time-zone/….
Result<Settings> parse_settings(std::string_view text, const std::string& file);

}  // namespace driftwarden
