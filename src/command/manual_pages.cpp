// SPDX-License-Identifier: MIT
#include "command/manual_pages.hpp"

#include <algorithm>
#include <filesystem>

#include "command/command_tree.hpp"
#include "command/opened_book.hpp"
#include "outside/whole_file.hpp"

namespace driftwarden {
namespace {

// Text as roff takes it: a dot or an apostrophe at the beginning of a line and backslashes mean something there, and a
// hyphen that is to be copied from the page is written "\-".
std::string roff(const std::string& text) {
  std::string made;
  bool is_at_begin = true;
  for (const char c : text) {
    if (is_at_begin && (c == '.' || c == '\'')) made += "\\&";
    if (c == '\\') {
      made += "\\e";
    } else if (c == '-') {
      made += "\\-";
    } else {
      made += c;
    }
    is_at_begin = c == '\n';
  }
  return made;
}

std::string upper(std::string text) {
  for (char& c : text) c = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  return text;
}

std::string page_name(const CLI::App& app, const CLI::App& of) {
  return &of == &app ? app.get_name() : app.get_name() + "-" + of.get_name();
}

std::string called_by(const CLI::App& app, const CLI::App& of) {
  return &of == &app ? app.get_name() : app.get_name() + " " + of.get_name();
}

std::string value_of(const CLI::Option& option) {
  const std::string choices = choices_in(option);
  return !choices.empty() || option.get_expected_max() == 0 ? choices : "VALUE";
}

std::string options_of(const CLI::App& command) {
  std::string text;
  for (const CLI::Option* option : command.get_options()) {
    const std::string name = option->get_positional() ? option->get_name(true) : option->get_name(false, true);
    text += ".TP\n.B " + roff(name);
    if (!option->get_positional() && !value_of(*option).empty()) text += " \\fI" + roff(value_of(*option)) + "\\fR";
    text += "\n" + roff(option->get_description()) + "\n";
  }
  return text;
}

// A footer as help prints it keeps its lines: an example is to be copied.
std::string foot_of(const CLI::App& command) {
  std::string foot = command.get_footer();
  return foot.empty() ? "" : ".SH NOTES\n.nf\n" + roff(foot) + "\n.fi\n";
}

std::string synopsis(const CLI::App& app, const CLI::App& of) {
  std::string text = ".B " + roff(called_by(app, of)) + "\n";
  if (!shown_commands(of).empty()) text += ".I COMMAND\n";
  for (const CLI::Option* option : of.get_options()) {
    if (!option->get_positional()) continue;
    text += ".I " + roff(option->get_required() ? option->get_name(true) : "[" + option->get_name(true) + "]") + "\n";
  }
  return text + ".RI [ options ]\n";
}

void append_commands(const CLI::App& app, const CLI::App& of, std::string& text) {
  if (shown_commands(of).empty()) return;
  text += ".SH COMMANDS\n";
  for (const CLI::App* command : shown_commands(of)) {
    text += ".TP\n.B " + roff(called_by(app, of) + " " + command->get_name()) + "\n" +
            roff(command->get_description()) + "\n";
    if (&of != &app) text += ".RS\n" + options_of(*command) + ".RE\n";
  }
}

}  // namespace

std::string manual_page(const CLI::App& app, const CLI::App& of, const std::string& version) {
  std::string description = of.get_description();
  std::replace(description.begin(), description.end(), '\n', ' ');
  std::string text = ".TH " + upper(roff(page_name(app, of))) + " 1 \"\" \"driftwarden " + roff(version) +
                     "\" \"Air\\-sampling flow\"\n";
  text += ".SH NAME\n" + roff(page_name(app, of)) + " \\- " + roff(description) + "\n";
  text += ".SH SYNOPSIS\n" + synopsis(app, of);
  append_commands(app, of, text);
  text += ".SH OPTIONS\n" + options_of(of) + foot_of(of);
  if (&of != &app) return text + ".SH SEE ALSO\n.BR " + roff(app.get_name()) + " (1)\n";
  text += ".SH SEE ALSO\n";
  for (const CLI::App* command : shown_commands(app)) text += ".BR " + roff(page_name(app, *command)) + " (1)\n";
  return text;
}

int run_manual(const CLI::App& app, const ManualOptions& options, Surroundings& surroundings) {
  std::vector<const CLI::App*> pages = shown_commands(app);
  pages.push_back(&app);
  for (const CLI::App* of : pages) {
    const std::filesystem::path file = std::filesystem::path(options.folder) / (page_name(app, *of) + ".1");
    const Diagnostics unwritten = write_whole(file, manual_page(app, *of, surroundings.version));
    if (!unwritten.empty()) return refuse(unwritten, surroundings);
  }
  return all_is_well;
}

}  // namespace driftwarden
