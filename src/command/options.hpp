// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "command/command_line.hpp"
#include "history/fleet_risk.hpp"
#include "history/review.hpp"

// What each command was told, and what runs it: one file a command.
namespace driftwarden {

struct NewOptions {
  std::string folder;
  std::vector<std::string> from;  // files of the owner's own
};

struct BookOptions {
  std::string book = ".";
  std::string as_of;     // empty: today
  unsigned threads = 0;  // 0: as many as there are processors
};

struct CheckOptions {
  BookOptions book;
  bool all = false;  // every line, and not one for each cause
};

struct ScreenOptions {
  BookOptions book;
  std::vector<std::string> batches;
  std::vector<std::string> samples;
  std::string since;
  std::string until;
  std::string format;  // empty: as the file is called, else a table
  std::string out;     // empty: standard output
};

struct ExplainOptions {
  BookOptions book;
  std::string sample;
  std::string charts;  // folder for the pictures of its sampler; empty: none
  std::string format = "svg";
  std::string theme = "light";
};

struct DecideOptions {
  BookOptions book;
  std::vector<std::string> words;  // samples, then a rule and a ruling
  std::vector<std::string> batches;
  bool all = false;
  std::string by;
  std::string reason;
  bool dry_run = false;
};

struct ActionsOptions {
  BookOptions book;
  std::vector<std::string> names;  // of those the actions are about
  std::vector<std::string> batches;
  std::string what;  // only of this kind
  std::string who;
  std::string due;
  bool done = false;
  bool open = false;
  std::string note;
  std::string by;
  bool dry_run = false;
};

struct CustodyOptions {
  BookOptions book;
  std::string batch;
  std::string format;  // empty: as the file is called, else a table
  std::string out;     // empty: standard output
  std::string paper = "A4";
};

struct LetterOptions {
  BookOptions book;
  std::string batch;  // one of the two
  std::string sample;
  std::string out;
  std::string format;  // empty: as the file is called, else html
  std::string paper = "A4";
};

struct AirOptions {
  std::string temperature;  // "12 °C"; empty: as the book supposes
  std::string pressure;
  std::string humidity;
};

struct AheadOptions {
  BookOptions book;
  std::string batch;   // of the plan, or
  std::string sample;  // one of it, or neither: what the others describe
  std::string method;
  std::string analysis;
  std::string sampler;
  std::string flow;
  std::string target;
  std::string expected;
  std::string minutes;
  std::string pump;
  std::string calibrator;
  int samples = 0;  // of the batch, for its blanks; 0: as planned
  AirOptions air;
  std::string format;  // empty: as the file is called, else a table
  std::string out;     // empty: standard output
};

struct SheetOptions {
  BookOptions book;
  std::string batch;  // one of the two
  std::string kit;
  std::vector<std::string> calibrators;
  AirOptions air;
  std::string out;
  std::string format;  // empty: as the file is called, else html
  std::string paper = "A4";
};

struct LabelsOptions {
  BookOptions book;
  std::string batch;
  std::string of = "samples";
  std::string size = "63.5x38.1";
  std::size_t skip = 0;
  std::string out;
  std::string format;  // empty: as the file is called, else html
};

struct FormOptions {
  BookOptions book;
  std::string batch;
  std::vector<std::string> calibrators;
  AirOptions air;
  std::string out;
};

struct ReceiveOptions {
  BookOptions book;
  std::vector<std::string> files;
  std::string by;
  bool dry_run = false;
};

struct KitOptions {
  BookOptions book;
  std::string kit;     // or a kind of kit; empty: the list of all that is out
  std::string format;  // empty: as the file is called, else a table
  std::string out;     // empty: standard output
  std::string paper = "A4";
};

struct CompareOptions {
  BookOptions book;
  std::vector<std::string> packs;
  std::optional<double> guard;  // empty: the book's
  std::string format;           // empty: as the file is called, else a table
  std::string out;              // empty: standard output
};

struct RiskOptions {
  BookOptions book;
  RiskTrial trial;
  std::string format;  // empty: as the file is called, else a table
  std::string out;     // empty: standard output
};

struct HistoryOptions {
  BookOptions book;
  std::vector<std::string> instruments;
  std::string out;
  std::string format = "svg";
  std::string theme = "light";
};

struct SplitOptions {
  BookOptions book;
  std::uint32_t parts = 2;
  std::string out;
};

struct JoinOptions {
  std::vector<std::string> files;  // the order, then the results of the parts
  std::string out;                 // empty: standard output
};

struct LookbackOptions {
  BookOptions book;
  std::string instrument;
  std::string certificate;  // empty: the newest that found it beyond its tolerance
  std::string format;       // empty: as the file is called, else a table
  std::string out;          // empty: standard output
  std::string paper = "A4";
};

struct ReviewOptions {
  BookOptions book;
  int days = days_of_a_review;
  std::string out;
  std::string format;  // empty: as the file is called, else html
  std::string paper = "A4";
};

struct EvidenceOptions {
  BookOptions book;
  std::vector<std::string> batches;
  std::string out;
  std::string sign;  // a file with a private key; empty: not signed
  std::string charts_of = "used";
};

struct VerifyOptions {
  std::string folder;
  std::string key;  // a file with a public key; empty: none
  unsigned threads = 1;
};

struct RulesOptions {
  std::vector<std::string> packs;  // check: files
  std::string name;
  std::string subject;
};

struct PageOptions {
  std::string out;
};

struct ManualOptions {
  std::string folder;
};

struct CompleteOptions {
  std::vector<std::string> words;  // after the program's name; the last is the one to complete
};

int run_new(const NewOptions& options, Surroundings& surroundings);
int run_check(const CheckOptions& options, Surroundings& surroundings);
int run_screen(const ScreenOptions& options, Surroundings& surroundings);
int run_explain(const ExplainOptions& options, Surroundings& surroundings);
int run_decide(const DecideOptions& options, Surroundings& surroundings);
int run_actions(const ActionsOptions& options, Surroundings& surroundings);
int run_letter(const LetterOptions& options, Surroundings& surroundings);
int run_custody(const CustodyOptions& options, Surroundings& surroundings);
int run_ahead(const AheadOptions& options, Surroundings& surroundings);
int run_sheet(const SheetOptions& options, Surroundings& surroundings);
int run_labels(const LabelsOptions& options, Surroundings& surroundings);
int run_form(const FormOptions& options, Surroundings& surroundings);
int run_receive(const ReceiveOptions& options, Surroundings& surroundings);
int run_kit(const KitOptions& options, Surroundings& surroundings);
int run_compare(const CompareOptions& options, Surroundings& surroundings);
int run_risk(const RiskOptions& options, Surroundings& surroundings);
int run_history(const HistoryOptions& options, Surroundings& surroundings);
int run_split(const SplitOptions& options, Surroundings& surroundings);
int run_join(const JoinOptions& options, Surroundings& surroundings);
int run_lookback(const LookbackOptions& options, Surroundings& surroundings);
int run_review(const ReviewOptions& options, Surroundings& surroundings);

int run_evidence(const EvidenceOptions& options, Surroundings& surroundings);
int run_page(const PageOptions& options, Surroundings& surroundings);
int run_verify(const VerifyOptions& options, Surroundings& surroundings);
int run_rules_check(const RulesOptions& options, Surroundings& surroundings);
int run_rules_list(const RulesOptions& options, Surroundings& surroundings);
int run_rules_show(const RulesOptions& options, Surroundings& surroundings);
int run_rules_measures(const RulesOptions& options, Surroundings& surroundings);

}  // namespace driftwarden
