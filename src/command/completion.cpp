// SPDX-License-Identifier: MIT
#include "command/completion.hpp"

#include <ostream>
#include <set>
#include <sstream>
#include <utility>

#include "command/command_tree.hpp"
#include "verdict/rule_files.hpp"

namespace driftwarden {
namespace {

using Words = std::vector<std::string>;

// What stands on the line before the word that is asked for.
struct Standing {
  const CLI::App* command = nullptr;
  const CLI::Option* awaits = nullptr;  // the option before, where it has no value yet
  Words values;                         // of positional arguments
};

const CLI::Option* option_named(const CLI::App& command, const std::string& word) {
  for (const CLI::Option* option : command.get_options()) {
    for (const std::string& name : option->get_lnames()) {
      if (word == "--" + name) return option;
    }
  }
  return nullptr;
}

Standing standing_before_last(const CLI::App& app, const Words& words) {
  Standing standing;
  const Words before(words.begin(), words.end() - 1);
  std::size_t used = 0;
  standing.command = deepest_command(app, before, used);
  for (; used < before.size(); ++used) {
    if (before[used] == "=") continue;  // of "--format=csv", as some shells take words apart
    const CLI::Option* option = option_named(*standing.command, before[used]);
    if (std::exchange(standing.awaits, nullptr) != nullptr) continue;
    if (option != nullptr) {
      standing.awaits = option->get_expected_max() > 0 ? option : nullptr;
    } else if (!before[used].starts_with("-")) {
      standing.values.push_back(before[used]);
    }
  }
  return standing;
}

Words choices_of(const CLI::Option& option) {
  Words choices;
  const std::string words = choices_in(option);
  std::istringstream inside(words.empty() ? words : words.substr(1, words.size() - 2));
  for (std::string choice; std::getline(inside, choice, ',');) choices.push_back(choice);
  return choices;
}

// The argument that comes next where so many have values; the last one may be given again.
const CLI::Option* argument_after(const CLI::App& command, std::size_t values) {
  const CLI::Option* last = nullptr;
  for (const CLI::Option* option : command.get_options()) {
    if (!option->get_positional()) continue;
    last = option;
    if (values-- == 0) return option;
  }
  return last != nullptr && last->get_expected_max() > 1 ? last : nullptr;
}

std::string book_of(const Standing& standing) {
  const CLI::Option* first = argument_after(*standing.command, 0);
  return first == nullptr || first->get_name(true) != "BOOK" || standing.values.empty() ? "." : standing.values.front();
}

std::set<std::string> rules_of(const Book& book, const std::filesystem::path& shipped) {
  std::set<std::string> names;
  const Result<RuleSet> rules = read_rules(book, shipped);
  if (!rules) return names;
  for (const Rule& rule : rules->rules) names.insert(rule.full_name());
  return names;
}

std::set<std::string> shipped_names(const std::filesystem::path& shipped) {
  std::set<std::string> names;
  for (const std::string& name : shipped_packs(shipped)) {
    names.insert(name);
    const Result<Pack> pack = read_pack(shipped / (name + ".toml"), name);
    if (!pack) continue;
    for (const Rule& rule : pack->rules) names.insert(rule.full_name());
  }
  return names;
}

constexpr std::string_view samples_and_more = "SAMPLE RULE RULING";  // of decide, one argument

// The names that an argument or option of that name takes from a book.
std::set<std::string> names_in(const Book& book, const std::string& of, const std::filesystem::path& shipped) {
  std::set<std::string> names;
  for (Row row = 0; row < book.samples.size(); ++row) {
    if (of == "SAMPLE" || of == "--sample" || of == samples_and_more || of == "ABOUT")
      names.emplace(book.samples.name[row]);
    const TextId batch = field(book.samples.batch, row, TextId{0});
    if ((of == "--batch" || of == "ABOUT") && batch != TextId{0}) names.emplace(book.texts.text(batch));
  }
  for (Row row = 0; row < book.instruments.size() && (of == "INSTRUMENT" || of == "ABOUT"); ++row)
    names.emplace(book.instruments[row].name);
  if (of != samples_and_more) return names;
  names.merge(rules_of(book, shipped));
  names.insert({"overrule", "uphold"});
  return names;
}

std::set<std::string> values_for(const CLI::Option& option, const Standing& standing,
                                 const Surroundings& surroundings) {
  const Words choices = choices_of(option);
  if (!choices.empty()) return {choices.begin(), choices.end()};
  const std::string of = option.get_positional() ? option.get_name(true) : "--" + option.get_lnames().front();
  const std::filesystem::path shipped = surroundings.share / "rules";
  if (of == "NAME") return shipped_names(shipped);
  if (of == "--rules") {
    const Words packs = shipped_packs(shipped);
    return {packs.begin(), packs.end()};
  }
  if (of == "--what") return {std::begin(action_kind_words), std::end(action_kind_words)};
  static const std::set<std::string_view> from_a_book = {"SAMPLE", "--sample",   "--batch",
                                                         "ABOUT",  "INSTRUMENT", samples_and_more};
  if (from_a_book.count(of) == 0) return {};
  const Result<Book> book = read_book(book_of(standing), 1);
  return book ? names_in(*book, of, shipped) : std::set<std::string>{};
}

std::set<std::string> all_for(const CLI::App& app, const Words& words, const Surroundings& surroundings) {
  const Standing standing = standing_before_last(app, words);
  if (standing.awaits != nullptr) return values_for(*standing.awaits, standing, surroundings);
  std::set<std::string> all;
  if (words.back().starts_with("-")) {
    const Words options = option_words(*standing.command);
    return {options.begin(), options.end()};
  }
  for (const CLI::App* command : shown_commands(*standing.command)) all.insert(command->get_name());
  if (standing.command == &app) all.insert("help");
  const CLI::Option* argument = argument_after(*standing.command, standing.values.size());
  if (argument != nullptr) all.merge(values_for(*argument, standing, surroundings));
  return all;
}

}  // namespace

std::vector<std::string> completions_of(const CLI::App& app, const std::vector<std::string>& words,
                                        const Surroundings& surroundings) {
  if (words.empty()) return {};
  std::vector<std::string> fitting;
  for (const std::string& word : all_for(app, words, surroundings)) {
    if (word.starts_with(words.back())) fitting.push_back(word);
  }
  return fitting;
}

int run_complete(const CLI::App& app, const CompleteOptions& options, Surroundings& surroundings) {
  for (const std::string& word : completions_of(app, options.words, surroundings)) surroundings.out << word << '\n';
  return all_is_well;
}

}  // namespace driftwarden
