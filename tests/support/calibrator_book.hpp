// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "book/stamp_text.hpp"
#include "quantity/rounding.hpp"
#include "statistics/random_numbers.hpp"
#include "support/book_text.hpp"

namespace driftwarden::test {

// A book that is made up of pumps read with calibrators, and what is the matter with those.
struct CalibratorBook {
  std::size_t pumps = 12;
  std::size_t weeks = 10;                 // a use of each pump in each
  std::array<double, 3> errors{0, 0, 0};  // percent, of V1, V2 and V3
  std::size_t calibrators = 3;            // in use
  bool is_pump_set_each_time = false;     // to nominal, by the calibrator at hand; else it is left as it is
  bool keeps_its_calibrator = false;      // each pump
  double phi = 0;                         // how a pump's days resemble each other
  double sigma = 0.4;                     // percent, from day to day
  bool is_messy = false;                  // some posts lacking, readings struck out, a wanderer, a pump 9 % low
};

class CalibratorBookMaker {
 public:
  CalibratorBookMaker(const CalibratorBook& of, RandomNumbers& random) : of_(of), random_(random) {}

  BookText made() {
    text_.instruments = "instrument,kind,principle\n";
    text_.samples = "sample,pump,started,stopped,nominal [L/min]\n";
    text_.readings = "taken,stage,sample,calibrator,reading [L/min],void\n";
    text_.certificates = "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min]\n";
    for (int i = 1; i <= 3; ++i) {
      const std::string n = std::to_string(i);
      text_.instruments += "V" + n + ",calibrator,volumetric\n";
      text_.certificates += "C" + n + ",V" + n + ",2026-01-0" + n + ",2,2,2\n";
    }
    for (std::size_t pump = 0; pump < of_.pumps; ++pump) add_pump(pump);
    return text_;
  }

 private:
  static constexpr Day first_day = 20638;  // 2026-07-04

  void add_pump(std::size_t pump) {
    const std::string name = "P" + std::to_string(pump + 1);
    text_.instruments += name + ",pump,\n";
    const bool is_low = of_.is_messy && pump == 3;
    const bool is_wanderer = of_.is_messy && pump == 7;
    const double level = 0.8 * random_.normal() - (is_low ? 9 : 0);
    double state = random_.normal();
    for (std::size_t week = 0; week < of_.weeks; ++week) {
      state = of_.phi * state + std::sqrt(1 - of_.phi * of_.phi) * random_.normal();
      add_use(name, pump, week, level + of_.sigma * (is_wanderer ? 4 : 1) * state);
    }
  }

  // `flow` is the true one, percent from nominal.
  void add_use(const std::string& pump, std::size_t number, std::size_t week, double flow) {
    const std::string date = date_text(first_day + static_cast<Day>(7 * week + number % 5));
    const std::string sample = pump + "W" + std::to_string(week);
    const std::size_t before = calibrator_for(number);
    const std::size_t after = calibrator_for(number);
    if (of_.is_pump_set_each_time) flow = -of_.errors[before] + 0.2 * random_.normal();
    text_.samples += sample + "," + pump + "," + date + "T08:00," + date + "T15:00,2\n";
    add_set(date + "T07:3", "pre," + sample, before, flow);
    if (of_.is_messy && random_.uniform() < 0.05) return;
    add_set(date + "T15:1", "post," + sample, after, flow - 0.3 + 0.4 * random_.normal());
  }

  void add_set(const std::string& begin, const std::string& of, std::size_t calibrator, double flow) {
    for (int i = 0; i < 3; ++i) {
      // input: readings scatter by 0.1 %
      const double shown = 2 * (1 + flow / 100) * (1 + of_.errors[calibrator] / 100) * (1 + 0.001 * random_.normal());
      const bool is_struck_out = of_.is_messy && i > 0 && random_.uniform() < 0.03;
      text_.readings += begin + std::to_string(i) + "," + of + ",V" + std::to_string(calibrator + 1) + "," +
                        with_decimals(shown, 3) + (is_struck_out ? ",yes\n" : ",\n");
    }
  }

  std::size_t calibrator_for(std::size_t pump) {
    if (of_.keeps_its_calibrator) return pump % of_.calibrators;
    return std::min(of_.calibrators - 1,
                    static_cast<std::size_t>(random_.uniform() * static_cast<double>(of_.calibrators)));
  }

  const CalibratorBook& of_;
  RandomNumbers& random_;
  BookText text_;
};

inline BookText calibrator_book(const CalibratorBook& of, RandomNumbers& random) {
  return CalibratorBookMaker(of, random).made();
}

inline RulesText rules_of_calibrator_books() {
  return {{{Subject::sample, "pre.deviation", "within", {"5 %"}, Otherwise::void_},
           {Subject::sample, "drift", "within", {"5 %"}, Otherwise::void_}}};
}

// The day of its review, 2026-09-12, after the last of ten weeks.
inline constexpr Day review_of_calibrator_books = 20708;

}  // namespace driftwarden::test
