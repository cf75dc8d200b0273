// SPDX-License-Identifier: MIT
#pragma once

#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include "doubt/doubtful.hpp"
#include "statistics/random_numbers.hpp"
#include "support/book_text.hpp"

namespace driftwarden {

inline constexpr int days = 28;

inline std::string two_digits(int number) { return (number < 10 ? "0" : "") + std::to_string(number); }

inline std::string shown(double flow) {
  const auto thousandths = static_cast<int>(std::lround(1000 * flow));
  const std::string digits = std::to_string(10000 + thousandths % 1000).substr(2);
  return std::to_string(thousandths / 1000) + "." + digits;
}

// input: a sample a day in September on P1 and P2 in turn, five readings of V1 before and after; spread 0.0025 L/min on
// a display of 0.001. Nothing is planted. Invented data.
inline BookText honest_book(std::uint64_t seed) {
  test::RandomNumbers random(seed);
  BookText text;
  text.settings += "[site]\naltitude = \"1500 m\"\n";
  text.instruments =
      "instrument,kind,principle,resolution [L/min]\nP1,pump,,\nP2,pump,,\nV1,calibrator,volumetric,0.001\n";
  text.certificates = "";
  text.samples = "sample,pump,started,stopped\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min],pressure [kPa]\n";
  for (int day = 1; day <= days; ++day) {
    const std::string date = "2026-09-" + two_digits(day);
    const std::string name = "D" + std::to_string(day);
    text.samples += name + ",P" + std::to_string(1 + day % 2) + "," + date + "T08:00," + date + "T16:00\n";
    const double level = 2 + 0.01 * random.normal();
    for (const auto& [stage, hour] : {std::pair("pre", "T07:3"), std::pair("post", "T16:1")}) {
      for (int i = 0; i < 5; ++i) {
        text.readings += date + hour + std::to_string(i) + "," + stage + "," + name + ",V1," +
                         shown(level + 0.0025 * random.normal()) + ",84.5\n";
      }
    }
  }
  return text;
}

// The ids of its doubts.
inline std::vector<std::string> ids(const BookText& text) {
  std::vector<std::string> found;
  for (const Diagnostic& doubt : doubts_of(book_of(text))) {
    EXPECT_EQ(doubt.severity, Severity::remark);
    found.push_back(doubt.id);
  }
  return found;
}

using Ids = std::vector<std::string>;

// The lines of a sample's readings, from the first on.
inline std::vector<std::string> lines_of(const std::string& text, const std::string& sample) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at);
    if (text.substr(at, end - at).find("," + sample + ",") != std::string::npos)
      lines.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

inline std::string flow_in(const std::string& line) {
  const std::size_t begin = line.find(",V1,") + 4;
  return line.substr(begin, line.find(',', begin) - begin);
}

inline void set_flow(std::string& text, const std::string& line, const std::string& flow) {
  std::string changed = line;
  changed.replace(line.find(",V1,") + 4, flow_in(line).size(), flow);
  text.replace(text.find(line), line.size(), changed);
}

}  // namespace driftwarden
