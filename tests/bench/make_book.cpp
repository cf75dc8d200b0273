// SPDX-License-Identifier: MIT
// Writes a large book of invented records, the same bytes for the same arguments:
//
//   make_book FOLDER SAMPLES [READINGS_A_SET [shuffled]]
//
// 200 calibrators of three principles with a certificate each, 5000 pumps, so many samples in batches of 20, and before
// and after each sample a set of readings (5 where nothing is said); a few are missing. Readings stand in the order in
// which they are taken: a batch's samples before, then the same samples after; "shuffled" puts them in random order.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <random>
#include <string>
#include <vector>

#include "book/stamp_text.hpp"
#include "record/moment.hpp"

namespace {

constexpr std::size_t calibrator_count = 200;
constexpr std::size_t pump_count = 5000;
constexpr std::size_t samples_a_batch = 20;
constexpr int last_day = 3640;

// The engine's numbers are laid down by the C++ standard; what its distributions make of them is not.
class Chance {
 public:
  double between(double low, double high) { return low + (high - low) * static_cast<double>(next() >> 11) * 0x1p-53; }
  std::size_t below(std::size_t end) { return static_cast<std::size_t>(between(0, static_cast<double>(end))); }
  // Close to a normal deviate: the sum of twelve uniform ones.
  double normal() {
    double sum = -6;
    for (int i = 0; i < 12; ++i) sum += between(0, 1);
    return sum;
  }
  std::uint64_t next() { return engine_(); }

 private:
  std::mt19937_64 engine_{20160101};
};

struct Calibrator {
  const char* principle = "";
  double scale_c = 0;
  double scale_kpa = 0;
  double error[3] = {0, 0, 0};  // ratios at 1, 2 and 3 L/min
};

std::string number(double value, int decimals) {
  char text[32];
  std::snprintf(text, sizeof text, "%.*f", decimals, value);
  return text;
}

std::string padded(const char* prefix, std::size_t value, int width) {
  char text[32];
  std::snprintf(text, sizeof text, "%s%0*zu", prefix, width, value);
  return text;
}

// Day and minute 0 are those of 2016-01-01T00:00.
std::string date(int day) { return driftwarden::date_text(driftwarden::day_from({2016, 1, 1}) + day); }

std::string stamp(int minute) {
  char text[16];
  std::snprintf(text, sizeof text, "T%02d:%02d", minute / 60 % 24, minute % 60);
  return date(minute / 1440) + text;
}

std::vector<Calibrator> write_instruments(const std::filesystem::path& folder, Chance& chance) {
  std::ofstream instruments(folder / "instruments.csv");
  std::ofstream certificates(folder / "certificates.csv");
  instruments << "instrument,kind,principle,scale temperature [°C],scale pressure [kPa],interval [d]\n";
  certificates << "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min],"
                  "expanded uncertainty [%],coverage factor\n";
  std::vector<Calibrator> calibrators(calibrator_count);
  for (std::size_t i = 0; i < calibrator_count; ++i) {
    Calibrator& c = calibrators[i];
    const std::string name = padded("C", i + 1, 3);
    c.principle = i % 3 == 0 ? "volumetric" : i % 3 == 1 ? "rotameter" : "mass";
    c.scale_c = static_cast<double>(18 + chance.below(8));
    c.scale_kpa = std::round(chance.between(98, 103) * 100) / 100;
    instruments << name << ",calibrator," << c.principle;
    if (i % 3 == 0) {
      instruments << ",,";
    } else {
      instruments << ',' << number(c.scale_c, 1) << ',' << number(c.scale_kpa, 2);
    }
    instruments << ",365\n";
    // A certificate each 360 days; one calibrator in ten is late once.
    const bool is_late = chance.below(10) == 0;
    int number_of = 0;
    double shown[3];
    for (double& s : shown) s = std::round(chance.between(-0.01, 0.01) * 1000) / 1000;
    for (int day = -200 + static_cast<int>(chance.below(100)); day < last_day; day += 360) {
      ++number_of;
      if (is_late && number_of == 5) day += 40;
      for (int point = 0; point < 3; ++point) {
        const double reference = point + 1.0;
        certificates << name << '-' << number_of << ',' << name << ',' << date(day) << ',' << number(reference, 1)
                     << ',' << number(reference, 1) << ',' << number(reference * (1 + shown[point]), 4) << ",1.0,2\n";
      }
    }
    for (int point = 0; point < 3; ++point) c.error[point] = shown[point];
  }
  for (std::size_t i = 0; i < pump_count; ++i) instruments << padded("P", i + 1, 4) << ",pump,,,,\n";
  return calibrators;
}

// What a calibrator shows for an actual flow between 1 and 3 L/min.
double shown(const Calibrator& c, double actual_l_min, double celsius, double kpa) {
  const double ratio = c.scale_kpa / kpa * ((celsius + 273.15) / (c.scale_c + 273.15));
  const char kind = c.principle[0];
  const double own = kind == 'v' ? actual_l_min : kind == 'r' ? actual_l_min / std::sqrt(ratio) : actual_l_min / ratio;
  const std::size_t point = own < 2 ? 0 : 1;
  const double share = own - 1 - static_cast<double>(point);
  return own * (1 + c.error[point] + (c.error[point + 1] - c.error[point]) * share);
}

void write_rules(const std::filesystem::path& folder) {
  std::ofstream toml(folder / "programme.toml");
  toml << "pack = \"programme\"\ntitle = \"Rules of an invented programme\"\nedition = \"2026-01-01\"\n";
  const struct {
    const char *id, *measure, *limit, *otherwise, *good, *bad;
  } rules[] = {
      {"drift", "drift", "within = \"5 %\"", "void", "\"5 %\"", "\"5.1 %\""},
      {"pre-count", "pre.count", "at_least = 3", "void", "3", "2"},
      {"post-count", "post.count", "at_least = 3", "void", "3", "2"},
      {"nominal", "flow.deviation", "within = \"5 %\"", "void", "\"5 %\"", "\"5.1 %\""},
      {"overdue", "calibrator.overdue", "at_most = \"0 d\"", "void", "\"0 d\"", "\"1 d\""},
      {"pre-spread", "pre.rsd", "at_most = \"2 %\"", "qualify", "\"2 %\"", "\"2.1 %\""},
      {"post-spread", "post.rsd", "at_most = \"2 %\"", "qualify", "\"2 %\"", "\"2.1 %\""},
  };
  for (const auto& rule : rules) {
    const std::string gives = std::string(rule.otherwise) == "void" ? "void" : "qualified";
    toml << "\n[[rule]]\nid = \"" << rule.id << "\"\nof = \"sample\"\nmeasure = \"" << rule.measure << "\"\n"
         << rule.limit << "\notherwise = \"" << rule.otherwise
         << "\"\nabsent = \"skip\"\nreason = \"The programme says so.\"\n"
         << "source = \"invented for a measurement of speed\"\nstanding = \"house\"\n[[rule.example]]\ngiven = { \""
         << rule.measure << "\" = " << rule.good << " }\ngives = \"valid\"\n[[rule.example]]\ngiven = { \""
         << rule.measure << "\" = " << rule.bad << " }\ngives = \"" << gives << "\"\n";
  }
  std::ofstream book(folder / "book.toml");
  book << "title = \"An invented programme, to measure speed with\"\ntime_zone = \"UTC\"\n[reference]\n"
          "temperature = \"25 °C\"\npressure = \"101.325 kPa\"\n[rules]\npacks = [\"programme.toml\"]\n";
}

struct Sample {
  std::string name;
  double nominal_l_min = 2;
  double pre_l_min = 2;
  double post_l_min = 2;
  double spread = 0.005;
  std::size_t pre_count = 0;
  std::size_t post_count = 0;
  int started = 0;  // minutes
  int stopped = 0;
};

Sample drawn_sample(std::size_t number_of, int day, std::size_t readings_a_set, Chance& chance) {
  Sample s;
  s.name = padded("S", number_of, 7);
  const std::size_t kind = chance.below(100);
  s.nominal_l_min = kind < 80 ? 2.0 : kind < 87 ? 1.7 : kind < 94 ? 2.2 : 2.5;
  s.pre_l_min = s.nominal_l_min * (1 + 0.015 * chance.normal());
  s.post_l_min = s.pre_l_min * (1 - 0.003 + 0.025 * chance.normal());
  if (chance.below(25) == 0) s.spread = 0.018;
  s.pre_count = s.post_count = readings_a_set;
  const std::size_t lack = chance.below(1000);
  if (lack < 10) s.post_count = chance.below(3);
  if (lack >= 10 && lack < 14) s.pre_count = chance.below(3);
  s.started = day * 1440 + 420 + static_cast<int>(chance.below(100));
  s.stopped = s.started + 240 + static_cast<int>(chance.below(300));
  return s;
}

class ReadingsFile {
 public:
  ReadingsFile(const std::filesystem::path& path, bool is_shuffled) : out_(path), is_shuffled_(is_shuffled) {
    out_ << "taken,stage,sample,calibrator,reading [L/min],temperature [°C],pressure [kPa]\n";
  }
  void add(std::string line) {
    if (is_shuffled_) {
      lines_.push_back(std::move(line));
    } else {
      out_ << line;
    }
  }
  void finish(Chance& chance) {
    for (std::size_t i = lines_.size(); i > 1; --i) std::swap(lines_[i - 1], lines_[chance.below(i)]);
    for (const std::string& line : lines_) out_ << line;
  }

 private:
  std::ofstream out_;
  bool is_shuffled_;
  std::vector<std::string> lines_;
};

struct Place {
  const Calibrator* calibrator = nullptr;
  std::string calibrator_name;
  double celsius = 20;
  double kpa = 101;
};

void write_set(ReadingsFile& readings, const Sample& s, const char* stage, double actual, std::size_t count, int from,
               const Place& place, Chance& chance) {
  for (std::size_t i = 0; i < count; ++i) {
    const double celsius = std::round((place.celsius + chance.between(-0.5, 0.5)) * 10) / 10;
    const double kpa = std::round((place.kpa + chance.between(-0.05, 0.05)) * 100) / 100;
    const double flow = actual * (1 + s.spread * chance.normal());
    readings.add(stamp(from + static_cast<int>(i)) + "," + stage + "," + s.name + "," + place.calibrator_name + "," +
                 number(shown(*place.calibrator, flow, celsius, kpa), 4) + "," + number(celsius, 1) + "," +
                 number(kpa, 2) + "\n");
  }
}

void write_samples(const std::filesystem::path& folder, std::size_t count, std::size_t readings_a_set, bool is_shuffled,
                   const std::vector<Calibrator>& calibrators, Chance& chance) {
  std::ofstream out(folder / "samples.csv");
  ReadingsFile readings(folder / "readings.csv", is_shuffled);
  out << "sample,batch,pump,nominal [L/min],started,stopped,temperature [°C],pressure [kPa]\n";
  for (std::size_t first = 0; first < count; first += samples_a_batch) {
    const int day = static_cast<int>(first * static_cast<std::size_t>(last_day) / count);
    const std::size_t c = chance.below(calibrator_count);
    const Place place{&calibrators[c], padded("C", c + 1, 3), chance.between(5, 30), chance.between(84, 103)};
    std::vector<Sample> batch;
    for (std::size_t i = first; i < std::min(count, first + samples_a_batch); ++i) {
      batch.push_back(drawn_sample(i + 1, day, readings_a_set, chance));
      const Sample& s = batch.back();
      out << s.name << ',' << padded("B", first / samples_a_batch + 1, 5) << ',' << padded("P", i % pump_count + 1, 4)
          << ',' << number(s.nominal_l_min, 1) << ',' << stamp(s.started) << ',' << stamp(s.stopped) << ','
          << number(place.celsius, 1) << ',' << number(place.kpa, 2) << '\n';
    }
    for (const Sample& s : batch) {
      write_set(readings, s, "pre", s.pre_l_min, s.pre_count, s.started - 30, place, chance);
    }
    for (const Sample& s : batch) {
      write_set(readings, s, "post", s.post_l_min, s.post_count, s.stopped + 10, place, chance);
    }
  }
  readings.finish(chance);
}

}  // namespace

int main(int count, char** arguments) {
  if (count < 3 || count > 5) {
    std::cerr << "usage: make_book FOLDER SAMPLES [READINGS_A_SET [shuffled]]\n";
    return 2;
  }
  const std::filesystem::path folder = arguments[1];
  std::filesystem::create_directories(folder);
  Chance chance;
  const std::vector<Calibrator> calibrators = write_instruments(folder, chance);
  write_rules(folder);
  write_samples(folder, std::stoul(arguments[2]), count > 3 ? std::stoul(arguments[3]) : 5, count > 4, calibrators,
                chance);
}
