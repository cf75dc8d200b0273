// SPDX-License-Identifier: MIT
#pragma once

#include <CLI/CLI.hpp>
#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "command/options.hpp"

namespace driftwarden {

// All that may be told on the command line.
struct CommandOptions {
  NewOptions fresh;
  CheckOptions check;
  ScreenOptions screen;
  ExplainOptions explain;
  DecideOptions decide;
  ActionsOptions actions;
  CustodyOptions custody;
  AheadOptions ahead;
  SheetOptions sheet;
  LabelsOptions labels;
  FormOptions form;
  ReceiveOptions receive;
  KitOptions kit;
  LetterOptions letter;
  CompareOptions compare;
  RiskOptions risk;
  HistoryOptions history;
  SplitOptions split;
  JoinOptions join;
  LookbackOptions lookback;
  ReviewOptions review;
  EvidenceOptions evidence;
  VerifyOptions verify;
  PageOptions page;
  RulesOptions rules;
  ManualOptions manual;
  CompleteOptions complete;
};

using Run = std::function<int()>;

// Makes every command known, with its options and its help; the one that was called is left in `run`. All have to
// outlive the parser. Its help, the manual pages and what a shell completes are made from it and from nowhere else.
void add_commands(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run);

// Those that people are told of, in order.
std::vector<const CLI::App*> shown_commands(const CLI::App& app);

// "--format" and so on of a command.
std::vector<std::string> option_words(const CLI::App& command);

// "{table,csv}" where an option takes one of some words; else "".
std::string choices_in(const CLI::Option& option);

// The command that the words lead to, as far as they are commands; `used`: how many are.
const CLI::App* deepest_command(const CLI::App& app, const std::vector<std::string>& words, std::size_t& used);

}  // namespace driftwarden
