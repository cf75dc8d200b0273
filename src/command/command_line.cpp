// SPDX-License-Identifier: MIT
#include "command/command_line.hpp"

#include <algorithm>
#include <ostream>

#include "command/command_tree.hpp"
#include "command/opened_book.hpp"
#include "diagnostic/diagnostic.hpp"
#include "diagnostic/suggestion.hpp"
#include "outside/output_stream.hpp"
#include "outside/write_fault.hpp"
#include "quantity/number.hpp"
#include "report/terminal_text.hpp"

namespace driftwarden {
namespace {

// "did you mean …?" for a command or an option that isn't one.
std::string hint_for(const CLI::App& app, const std::vector<std::string>& words) {
  std::size_t used = 0;
  const CLI::App* here = deepest_command(app, words, used);
  std::vector<std::string> commands;
  for (const CLI::App* command : shown_commands(*here)) commands.push_back(command->get_name());
  if (!commands.empty() && used < words.size() && !words[used].starts_with("-"))
    return did_you_mean(words[used], commands);
  const std::vector<std::string> options = option_words(*here);
  for (; used < words.size(); ++used) {
    const std::string word = words[used].substr(0, words[used].find('='));
    if (number_from(word)) continue;  // a value below zero
    if (word.starts_with("-") && std::find(options.begin(), options.end(), word) == options.end())
      return did_you_mean(word, options);
  }
  return "see --help";
}

int refuse(const CLI::App& app, const CLI::ParseError& failure, const std::vector<std::string>& words,
           Surroundings& surroundings) {
  std::string message = failure.what();
  std::size_t used = 0;
  const CLI::App* here = deepest_command(app, words, used);
  const bool wants_command = !shown_commands(*here).empty();
  if (wants_command && used < words.size() && !words[used].starts_with("-"))
    message = in_quotes(words[used]) + " is not a command";
  tell(surroundings.err, {error("command/refused", {"command line", 0, 0}, message, hint_for(app, words))});
  return cannot_be_used;
}

// A disk that is full, or a pipe that nobody reads, must not look like a result.
int written(int status, Surroundings& surroundings, std::ostream& behind) {
  surroundings.out.flush();
  const int reason = end_of_output(behind);
  if (reason == 0) return status;
  tell(surroundings.err, {unwritable("standard output", std::max(reason, 0))});
  if (!surroundings.is_done) return cannot_be_used;
  tell(surroundings.err, {remark("output/done-unsaid", {"standard output", 0, 0},
                                 "what was asked for is done all the same; only the words about it are lost")});
  return status;
}

// Help is also asked for without a word, by "help", and by "help" before a command. An unknown command stays alone, to
// be refused.
std::vector<std::string> with_help_as_option(const CLI::App& app, std::vector<std::string> words) {
  if (words.empty()) return {"--help"};
  if (words.front() != "help") return words;
  words.erase(words.begin());
  std::size_t used = 0;
  const CLI::App* here = deepest_command(app, words, used);
  if (used < words.size() && !shown_commands(*here).empty()) return words;
  words.resize(used);  // whatever stands behind a command, it is not run
  words.emplace_back("--help");
  return words;
}

}  // namespace

int run_command_line(const std::vector<std::string>& given, Surroundings& outside) {
  SafeText out(outside.out, outside.out_is_terminal);
  Surroundings surroundings{out,         outside.err,       outside.out_is_terminal, outside.err_is_terminal,
                            outside.now, outside.share,     outside.version,         outside.seconds,
                            false,       outside.time_zone, outside.columns};
  CommandOptions options;
  Run run;
  CLI::App app(
      "Quality assurance of air-sampling flow: from a book of plain files to a verdict for every sample,\n"
      "with its working shown.",
      "driftwarden");
  app.set_version_flag("--version", "driftwarden " + surroundings.version);
  app.set_help_all_flag("--help-all", "help of every command");
  add_commands(app, options, surroundings, run);
  const std::vector<std::string> arguments = with_help_as_option(app, given);
  try {
    std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());
    app.parse(std::move(reversed));
  } catch (const CLI::ParseError& failure) {
    if (failure.get_exit_code() != 0) return refuse(app, failure, arguments, surroundings);
    app.exit(failure, surroundings.out, surroundings.err);  // help or version
    return written(all_is_well, surroundings, outside.out);
  }
  const int status = run();
  return written(status, surroundings, outside.out);
}

}  // namespace driftwarden
