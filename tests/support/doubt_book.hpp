// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cmath>
#include <string>

#include "book/stamp_text.hpp"
#include "quantity/rounding.hpp"
#include "statistics/random_numbers.hpp"
#include "support/book_text.hpp"

namespace driftwarden::test {

// What a person may have made up of a book's readings.
enum class MadeUp {
  nothing,
  one_set_alike,    // seven readings of a set are one, written seven times
  a_sample_copied,  // its ten readings are those of another
  a_set_copied,     // its five readings after sampling are those of another
  rounded_readings  // one set in three of V1 begins with a reading rounded to ten steps of the display
};

// A book of pumps at three flows, used once a week and read five times before and after each use with one of two
// calibrators. Pumps may differ in steadiness by up to 2.7.
struct DoubtBook {
  std::size_t pumps = 12;
  std::size_t weeks = 16;
  int decimals = 3;               // of the display, and of the page
  bool are_unequal = false;       // their scatter is from `steadiest` to 2.7 times that, else in the middle of it
  double steadiest = 0.08;        // percent of reading
  bool is_set_each_time = false;  // until the display shows the nominal flow
  double from_use_to_use = 0.4;   // percent, where it isn't; the drift of a shift scatters as much
  MadeUp made_up = MadeUp::nothing;
};

class DoubtBookMaker {
 public:
  DoubtBookMaker(const DoubtBook& of, RandomNumbers& random) : of_(of), random_(random) {}

  BookText made() {
    const std::string step = of_.decimals == 3 ? "0.001" : "0.01";
    text_.instruments = "instrument,kind,principle,resolution [L/min]\nV1,calibrator,volumetric," + step +
                        "\nV2,calibrator,volumetric," + step + "\n";
    text_.samples = "sample,pump,started,stopped,nominal [L/min]\n";
    text_.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
    text_.certificates.clear();
    for (std::size_t pump = 0; pump < of_.pumps; ++pump) add_pump(pump);
    return text_;
  }

 private:
  static constexpr Day first_day = 20638;  // 2026-07-04
  static constexpr std::array<double, 3> flows{1.7, 2.0, 2.5};
  using Five = std::array<double, 5>;

  void add_pump(std::size_t pump) {
    const std::string name = "P" + std::to_string(pump + 1);
    text_.instruments += name + ",pump,,\n";
    constexpr double ratio = 2.7;
    const double place = of_.pumps > 1 ? static_cast<double>(pump) / static_cast<double>(of_.pumps - 1) : 0.5;
    const double scatter = of_.steadiest * (of_.are_unequal ? std::pow(ratio, place) : std::sqrt(ratio));
    const double level = random_.normal();
    for (std::size_t week = 0; week < of_.weeks; ++week) add_use(pump, week, level, scatter);
  }

  void add_use(std::size_t pump, std::size_t week, double level, double scatter) {
    const std::string date = date_text(first_day + static_cast<Day>(7 * week + pump % 5));
    const std::string sample = "P" + std::to_string(pump + 1) + "W" + std::to_string(week);
    const double nominal = flows[(pump + week / 4) % flows.size()];
    text_.samples += sample + ",P" + std::to_string(pump + 1) + "," + date + "T08:00," + date + "T15:00," +
                     with_decimals(nominal, 1) + "\n";
    // input: how near to nominal a pump is set, and its mean drift, percent
    const double off = of_.is_set_each_time ? 0.05 * random_.normal() : level + of_.from_use_to_use * random_.normal();
    const double drift = -0.3 + of_.from_use_to_use * random_.normal();
    const std::string calibrator = (pump + week) % 2 == 0 ? "V1" : "V2";
    const bool is_planted = pump == of_.pumps / 2 && week == of_.weeks / 2;
    const bool is_copy = is_planted && of_.made_up == MadeUp::a_sample_copied;
    const bool is_half_copy = is_planted && (is_copy || of_.made_up == MadeUp::a_set_copied);
    const std::string hour = std::to_string(5 + pump / 5);  // pumps of one day are read one after the other
    add_set(date + "T0" + hour + ":3", "pre," + sample + "," + calibrator,
            is_copy ? before_ : read(nominal, off, scatter));
    Five after = is_half_copy ? after_ : read(nominal, off + drift, scatter);
    if (of_.made_up == MadeUp::rounded_readings && calibrator == "V1" && random_.uniform() < 1.0 / 3) {
      const double ten_steps = 10 * step();
      after[0] = ten_steps * std::round(after[0] / ten_steps);
    }
    if (is_planted && of_.made_up == MadeUp::one_set_alike) {
      after.fill(after[0]);
      for (int i = 5; i < 7; ++i)
        add_reading(date + "T1" + hour + ":1" + std::to_string(i), "post," + sample + "," + calibrator, after[0]);
    }
    add_set(date + "T1" + hour + ":1", "post," + sample + "," + calibrator, after);
  }

  double step() const { return of_.decimals == 3 ? 0.001 : 0.01; }

  Five read(double nominal, double off, double scatter) {
    Five five{};
    for (double& flow : five) flow = nominal * (1 + off / 100) * (1 + scatter / 100 * random_.normal());
    return five;
  }

  void add_set(const std::string& begin, const std::string& of, const Five& flows_read) {
    for (std::size_t i = 0; i < flows_read.size(); ++i) add_reading(begin + std::to_string(i), of, flows_read[i]);
    Five& kept = of.starts_with("pre") ? before_ : after_;
    kept = flows_read;
  }

  void add_reading(const std::string& taken, const std::string& of, double flow) {
    text_.readings += taken + "," + of + "," + with_decimals(flow, of_.decimals) + "\n";
  }

  const DoubtBook& of_;
  RandomNumbers& random_;
  BookText text_;
  Five before_{};  // of the sample that was last written
  Five after_{};
};

inline BookText doubt_book(const DoubtBook& of, RandomNumbers& random) { return DoubtBookMaker(of, random).made(); }

}  // namespace driftwarden::test
