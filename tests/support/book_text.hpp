// SPDX-License-Identifier: MIT
#pragma once

#include <fstream>
#include <initializer_list>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "book/book.hpp"
#include "book/scratch_folder.hpp"
#include "rule/rule_set.hpp"
#include "support/practice_choice.hpp"
#include "verdict/sample_judge.hpp"

namespace driftwarden {

// A small sound book, file by file, of which a test writes what it is about. P1 and P2 are pumps; V1 and V2 are dry
// pistons whose certificates have no error, so that a flow is what was read. S1 ran on P1 for 480 minutes and was read
// at 2.000 L/min before and 1.950 L/min after. A file without text isn't written. Invented data.
struct BookText {
  std::string settings = "title = \"Quarry\"\ntime_zone = \"UTC\"\n";
  std::string rules;  // own.toml
  std::string instruments =
      "instrument,kind,principle\n"
      "P1,pump,\n"
      "P2,pump,\n"
      "V1,calibrator,volumetric\n"
      "V2,calibrator,volumetric\n";
  std::string certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min]\n"
      "C1,V1,2026-01-05,2,2,2\n"
      "C2,V2,2026-01-05,2,2,2\n";
  std::string samples =
      "sample,pump,started,stopped\n"
      "S1,P1,2026-09-21T08:00,2026-09-21T16:00\n";
  std::string readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,V1,2.000\n"
      "2026-09-21T16:10,post,S1,V1,1.950\n";
  std::string decisions;
  std::string actions;
  std::string service;
  std::string plan;
  std::string kits;
  std::string issues;
  std::string results;
  std::string balances;  // their certificates, certificates/balances.csv

  void write(const std::filesystem::path& folder) const {
    if (!balances.empty()) std::filesystem::create_directory(folder / "certificates");
    for (const auto& [name, text] :
         std::initializer_list<std::pair<const char*, const std::string&>>{{"book.toml", settings},
                                                                           {"own.toml", rules},
                                                                           {"instruments.csv", instruments},
                                                                           {"certificates.csv", certificates},
                                                                           {"samples.csv", samples},
                                                                           {"readings.csv", readings},
                                                                           {"decisions.csv", decisions},
                                                                           {"actions.csv", actions},
                                                                           {"service.csv", service},
                                                                           {"plan.csv", plan},
                                                                           {"kits.csv", kits},
                                                                           {"issues.csv", issues},
                                                                           {"results.csv", results},
                                                                           {"certificates/balances.csv", balances}}) {
      if (!text.empty()) std::ofstream(folder / name, std::ios::binary) << text;
    }
  }
};

// So that a volume has an uncertainty: certificates that state 0.7 %, and two readings before and after.
inline constexpr const char* certificates_with_uncertainty =
    "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min],expanded uncertainty [%],"
    "coverage factor\n"
    "C1,V1,2026-01-05,2,2,2,0.7,2\nC2,V2,2026-01-05,2,2,2,0.7,2\n";
inline constexpr const char* two_readings_each =
    "taken,stage,sample,calibrator,reading [L/min]\n"
    "2026-09-21T07:30,pre,S1,V1,2.001\n2026-09-21T07:31,pre,S1,V1,1.999\n"
    "2026-09-21T16:10,post,S1,V1,1.951\n2026-09-21T16:11,post,S1,V1,1.949\n";

// A volume that a method agrees on: S1 at 1.7 L/min, of which 1.975 L/min were measured.
inline BookText nominal_book() {
  BookText text;
  text.samples = "sample,pump,started,stopped,nominal [L/min]\nS1,P1,2026-09-21T08:00,2026-09-21T16:00,1.7\n";
  text.certificates = certificates_with_uncertainty;
  text.readings = two_readings_each;
  return text;
}

// S1 read at 2.0 L/min before, 1.8 in the middle and 2.0 after, two readings each: 960 L by the ends, 912 by the line.
inline BookText sagging_book() {
  BookText text;
  text.certificates = certificates_with_uncertainty;
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,V1,2.001\n2026-09-21T07:31,pre,S1,V1,1.999\n"
      "2026-09-21T11:59,field,S1,V1,1.801\n2026-09-21T12:01,field,S1,V1,1.799\n"
      "2026-09-21T16:10,post,S1,V1,2.001\n2026-09-21T16:11,post,S1,V1,1.999\n";
  return text;
}

// A book read from texts; the folder is gone again.
inline Book book_of(const BookText& text) {
  const ScratchFolder folder;
  text.write(folder.path());
  Result<Book> book = read_book(folder.path(), 1);
  if (!book) throw std::runtime_error("the book can't be read: " + to_text(book.faults().front()));
  return *std::move(book);
}

inline Row row_of(const Book& book, std::string_view sample) {
  for (Row row = 0; row < book.samples.size(); ++row) {
    if (book.samples.name[row] == sample) return row;
  }
  throw std::runtime_error("the book has no sample " + std::string(sample));
}

// A rule by its measure, its limit as a pack would write it, and what follows. Its id is the measure's name.
struct RuleText {
  Subject of = Subject::sample;
  std::string_view measure;
  std::string_view form;            // "within"
  std::vector<std::string> values;  // {"5 %"}
  Otherwise otherwise = Otherwise::void_;
  Absent absent = Absent::undecided;
  Base base = Base::by_practice;
  std::vector<Condition> where = {};

  Rule rule() const {
    Rule rule;
    rule.pack = "own";
    rule.edition = "1";
    rule.id = measure;
    rule.of = of;
    rule.measure = measure_named(of, measure).value();
    WrittenLimit written;
    written.form = named<Limit::Form>(form).value();
    for (const std::string& value : values) written.values.push_back({value, {}});
    const Result<Limit> limit = limit_of(written, measure_of(rule));
    if (!limit) throw std::runtime_error(to_text(limit.faults().front()));
    rule.limit = *limit;
    rule.otherwise = otherwise;
    rule.absent = absent;
    rule.base = base;
    rule.where = where;
    rule.reason = "A reason.";
    rule.source = "A source";
    rule.standing = Standing::house;
    rule.place = {"own.toml", 1, 1};
    return rule;
  }
};

// What a book is judged by, made of rules and not of files.
struct RulesText {
  std::vector<RuleText> rules;
  std::vector<Sampler> samplers = {};
  std::vector<PracticeChoice> practice = {};  // of the book
  std::vector<DescribedWord> words = {};

  RuleSet rule_set() const {
    Pack pack;
    pack.name = "own";
    pack.edition = "1";
    pack.file = "own.toml";
    for (const RuleText& text : rules) pack.rules.push_back(text.rule());
    pack.samplers = samplers;
    pack.words = words;
    Result<RuleSet> set = combine({pack}, {}, practice, {});
    if (!set) throw std::runtime_error(to_text(set.faults().front()));
    return *std::move(set);
  }
};

inline Sampler sampler(std::string name, std::optional<double> nominal_l_min, std::optional<double> cut_exponent = {}) {
  Sampler made;
  made.name = std::move(name);
  made.nominal_l_min = nominal_l_min;
  made.cut_exponent = cut_exponent;
  made.source = made.cut_source = "A source";
  return made;
}

// A cyclone of 2.0 L/min whose curve is described: 4 µm, spread 1.25, from 1.5 to 2.5 L/min.
inline Sampler cyclone_sampler(std::optional<double> exponent = 0.75) {
  Sampler made = sampler("cyclone", 2.0, exponent);
  made.fraction = "respirable";
  made.cut_kind = CutKind::cyclone;
  made.cut_um = 4;
  made.cut_spread = 1.25;
  made.cut_flows_l_min = {1.5, 2.5};
  made.place = {"own.toml", 3, 1};
  return made;
}

// S1 drawn with it from so many to so many L/min, of an aerosol of 5 µm, 2; or of one that nobody states.
inline BookText cyclone_book_from(const std::string& pre_l_min, const std::string& post_l_min,
                                  bool has_aerosol = true) {
  BookText text;
  if (has_aerosol) text.settings += "[aerosol]\nmmad = \"5 µm\"\ngsd = 2\nsource = \"Report 7\"\n";
  text.samples = "sample,pump,sampler,started,stopped\nS1,P1,cyclone,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:30,pre,S1,V1," + pre_l_min +
                  "\n2026-09-21T16:10,post,S1,V1," + post_l_min + "\n";
  return text;
}
inline BookText cyclone_book(const std::string& flow_l_min, bool has_aerosol = true) {
  return cyclone_book_from(flow_l_min, flow_l_min, has_aerosol);
}

// The same where S1 is meant to run at another flow than its sampler's.
inline BookText with_own_nominal(BookText text, const std::string& nominal_l_min) {
  text.samples = "sample,pump,sampler,nominal [L/min],started,stopped\nS1,P1,cyclone," + nominal_l_min +
                 ",2026-09-21T08:00,2026-09-21T16:00\n";
  return text;
}

// A book, what it is judged by, and a judge.
class JudgedBook {
 public:
  explicit JudgedBook(const BookText& book, const RulesText& rules = {})
      : book_(book_of(book)), rules_(rules.rule_set()), screening_(book_, rules_), judge_(screening_, true) {}
  JudgedBook(const JudgedBook&) = delete;
  JudgedBook& operator=(const JudgedBook&) = delete;

  // Stay valid until the next sample is judged.
  const SampleResult& result(std::string_view sample) { return judge_.judge(row_of(book_, sample)); }
  const SampleAssessment& figures(std::string_view sample) { return *result(sample).figures; }

  const Book& book() const { return book_; }
  const Screening& screening() const { return screening_; }

 private:
  Book book_;
  RuleSet rules_;
  Screening screening_;
  SampleJudge judge_;
};

}  // namespace driftwarden
