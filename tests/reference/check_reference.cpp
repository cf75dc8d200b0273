// SPDX-License-Identifier: MIT
// Runs the program on a reference book and compares its JSON with what the book's expected.csv says.
//
//   check_reference PROGRAM BOOK            screen,  compared with BOOK/expected.csv
//   check_reference PROGRAM BOOK history    history, compared with BOOK/expected_history.csv
//
// It shares no code with the program. README.md explains the columns of expected.csv.
#include <sys/wait.h>

#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace {

using nlohmann::json;

struct Expectation {
  std::string subject;  // sample names joined by " + ", or empty: the whole document
  std::string field;
  std::string expected;
  std::string tolerance;
  std::string source;
  std::string kind;
};

std::string text_of_file(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot open " + path.string());
  return {std::istreambuf_iterator<char>(file), {}};
}

// RFC 4180, comma separated.
std::vector<std::vector<std::string>> csv_rows(const std::string& text) {
  std::vector<std::vector<std::string>> rows(1, std::vector<std::string>(1));
  bool is_quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '"' && is_quoted && i + 1 < text.size() && text[i + 1] == '"') {
      rows.back().back() += '"';
      ++i;
    } else if (c == '"') {
      is_quoted = !is_quoted;
    } else if (c == ',' && !is_quoted) {
      rows.back().emplace_back();
    } else if (c == '\n' && !is_quoted) {
      rows.emplace_back(1);
    } else {
      rows.back().back() += c;
    }
  }
  if (rows.back().size() == 1 && rows.back()[0].empty()) rows.pop_back();
  return rows;
}

std::vector<Expectation> expectations_from(const std::filesystem::path& path) {
  const std::vector<std::string> heading{"sample", "field", "expected", "tolerance", "source", "kind"};
  const auto rows = csv_rows(text_of_file(path));
  if (rows.empty() || rows[0] != heading) throw std::runtime_error(path.string() + ":1: heading is not the agreed one");
  std::vector<Expectation> result;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const auto& row = rows[i];
    const std::string line = path.string() + ":" + std::to_string(i + 1);
    if (row.size() != heading.size()) throw std::runtime_error(line + ": not six cells");
    if (row[4].empty() || row[5].empty()) throw std::runtime_error(line + ": no source or no kind");
    result.push_back({row[0], row[1], row[2], row[3], row[4], row[5]});
  }
  return result;
}

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    if (end > 0) words.emplace_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return words;
}

std::optional<double> number_from(std::string_view text) {
  double value = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (fault != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

// The member of an array that [selector] names: by its place, or by any of its texts.
const json* member_of(const json& array, const std::string& selector) {
  if (!array.is_array()) return nullptr;
  if (const auto place = number_from(selector)) {
    const auto index = static_cast<std::size_t>(*place);
    return index < array.size() ? &array[index] : nullptr;
  }
  for (const json& member : array) {
    if (!member.is_object()) continue;
    for (const auto& [key, value] : member.items()) {
      if (value.is_string() && value.get<std::string>() == selector) return &member;
    }
  }
  return nullptr;
}

// Splits at the dots that are not inside brackets.
std::vector<std::string> steps_of(const std::string& path) {
  std::vector<std::string> steps(1);
  int depth = 0;
  for (const char c : path) {
    if (c == '[') ++depth;
    if (c == ']') --depth;
    if (c == '.' && depth == 0) {
      steps.emplace_back();
    } else {
      steps.back() += c;
    }
  }
  return steps;
}

// "pre.l_min", "findings[pack/rule].value", "points.size". Null where there is no such thing.
json value_at(const json& root, const std::string& path) {
  const json* here = &root;
  for (const std::string& step : steps_of(path)) {
    if (step == "size" && here->is_array()) return here->size();
    const std::size_t bracket = step.find('[');
    const std::string key = step.substr(0, bracket);
    if (!here->is_object() || !here->contains(key)) return nullptr;
    here = &(*here)[key];
    if (bracket == std::string::npos) continue;
    here = member_of(*here, step.substr(bracket + 1, step.size() - bracket - 2));
    if (here == nullptr) return nullptr;
  }
  return *here;
}

std::optional<double> factor_from(const json& root, const std::string& word) {
  if (const auto number = number_from(word)) return number;
  const json value = value_at(root, word);
  if (!value.is_number()) return std::nullopt;
  return value.get<double>();
}

// Sums of products: words parted by blanks, as in "100 - 100 * volume_reference_l / volume_l".
std::optional<double> figure_from(const json& root, const std::vector<std::string>& words) {
  if (words.size() % 2 == 0) return std::nullopt;
  double sum = 0;
  double product = 0;
  for (std::size_t i = 0; i < words.size(); i += 2) {
    const auto factor = factor_from(root, words[i]);
    if (!factor) return std::nullopt;
    const std::string sign = i == 0 ? "+" : words[i - 1];
    if (sign == "*") {
      product *= *factor;
    } else if (sign == "/") {
      product /= *factor;
    } else {
      sum += product;
      product = sign == "-" ? -*factor : *factor;
    }
  }
  return sum + product;
}

const json* sample_named(const json& document, const std::string& name) {
  if (!document.contains("samples")) return nullptr;
  for (const json& sample : document["samples"]) {
    if (sample.value("sample", "") == name) return &sample;
  }
  return nullptr;
}

std::vector<const json*> subjects_of(const Expectation& e, const json& document) {
  if (e.subject.empty()) return {&document};
  std::vector<const json*> subjects;
  for (const std::string& name : words_of(e.subject)) {
    if (name != "+") subjects.push_back(sample_named(document, name));
  }
  return subjects;
}

std::string in_full(double value) {
  char text[32];
  const auto end = std::to_chars(text, text + sizeof text, value).ptr;
  return {text, end};
}

struct Outcome {
  bool has_passed = false;
  std::string got;
};

// Whether the book is judged by the rule that "findings[pack/rule]" names: only then does no finding mean anything.
bool has_rule_of(const std::string& field, const json& document) {
  const std::string beginning = "findings[";
  if (!field.starts_with(beginning)) return true;
  const std::string name = field.substr(beginning.size(), field.find(']') - beginning.size());
  for (const json& rule : document.value("rules", json::array())) {
    if (rule.value("pack", "") + "/" + rule.value("id", "") == name) return true;
  }
  return false;
}

// Without a tolerance: text, to the letter; "absent" for a thing that isn't there; a last "*" for any ending.
Outcome compared_as_text(const Expectation& e, const std::vector<const json*>& subjects, const json& document) {
  if (!has_rule_of(e.field, document)) return {false, "of no rule of the book"};
  const json value = value_at(*subjects[0], e.field);
  const std::string got = value.is_null() ? "absent" : value.is_string() ? value.get<std::string>() : value.dump();
  if (!e.expected.ends_with('*')) return {got == e.expected, got};
  const std::string beginning = e.expected.substr(0, e.expected.size() - 1);
  return {got.starts_with(beginning), got};
}

// With a tolerance: a figure. "-5.042 %" also asks for the unit that stands beside a field ".value".
Outcome compared_as_figure(const Expectation& e, const std::vector<const json*>& subjects) {
  const std::vector<std::string> expected = words_of(e.expected);
  const auto wanted = expected.empty() ? std::nullopt : number_from(expected[0]);
  const auto tolerance = number_from(e.tolerance);
  if (!wanted || !tolerance) throw std::runtime_error("not a number: '" + e.expected + "' or '" + e.tolerance + "'");
  double sum = 0;
  for (const json* subject : subjects) {
    const auto figure = figure_from(*subject, words_of(e.field));
    if (!figure) return {false, "absent"};
    sum += *figure;
  }
  std::string got = in_full(sum);
  const bool is_near = std::abs(sum - *wanted) <= *tolerance;
  if (expected.size() < 2) return {is_near, got};
  const json unit = value_at(*subjects[0], e.field.substr(0, e.field.rfind('.')) + ".unit");
  const std::string unit_text = unit.is_string() ? unit.get<std::string>() : "(no unit)";
  return {is_near && unit_text == expected[1], got + " " + unit_text};
}

Outcome compared(const Expectation& e, const json& document) {
  const auto subjects = subjects_of(e, document);
  for (const json* subject : subjects) {
    if (subject == nullptr) return {false, "no such sample"};
  }
  return e.tolerance.empty() ? compared_as_text(e, subjects, document) : compared_as_figure(e, subjects);
}

std::string shell_quoted(const std::string& text) {
  std::string quoted = "'";
  for (const char c : text) quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return quoted + "'";
}

// Standard output of a command. Status 0 and 1 are verdicts; anything else means that the book could not be used.
std::string output_of(const std::string& command) {
  std::FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("cannot run " + command);
  std::string output;
  char piece[4096];
  while (const std::size_t n = std::fread(piece, 1, sizeof piece, pipe)) output.append(piece, n);
  const int status = pclose(pipe);
  if (!WIFEXITED(status) || WEXITSTATUS(status) > 1) {
    throw std::runtime_error("status " + std::to_string(WIFEXITED(status) ? WEXITSTATUS(status) : -1) + " from " +
                             command);
  }
  return output;
}

json screened(const std::string& program, const std::string& book) {
  return json::parse(output_of(shell_quoted(program) + " screen " + shell_quoted(book) + " --format json"));
}

// A folder of its own for as long as this lives.
class TemporaryFolder {
 public:
  TemporaryFolder()
      : path_((std::filesystem::temp_directory_path() / ("reference-history-" + std::string(6, 'X'))).string()) {
    if (mkdtemp(path_.data()) == nullptr) throw std::runtime_error("cannot make a folder " + path_);
  }
  ~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  const std::string& path() const { return path_; }

 private:
  std::string path_;
};

json history_of(const std::string& program, const std::string& book) {
  const TemporaryFolder folder;
  output_of(shell_quoted(program) + " history " + shell_quoted(book) + " --out " + shell_quoted(folder.path()));
  return json::parse(text_of_file(std::filesystem::path(folder.path()) / "history.json"));
}

int failures_in(const std::vector<Expectation>& expectations, const json& document) {
  int failed = 0;
  for (const Expectation& e : expectations) {
    const Outcome outcome = compared(e, document);
    if (outcome.has_passed) continue;
    ++failed;
    std::cout << "FAILED " << e.subject << ": " << e.field << " is " << outcome.got << ", not " << e.expected
              << (e.tolerance.empty() ? "" : " within " + e.tolerance) << " [" << e.kind << "; " << e.source << "]\n";
  }
  return failed;
}

int run(const std::string& program, const std::string& book, bool is_history) {
  const auto expectations =
      expectations_from(std::filesystem::path(book) / (is_history ? "expected_history.csv" : "expected.csv"));
  const json document = is_history ? history_of(program, book) : screened(program, book);
  const int failed = failures_in(expectations, document);
  std::cout << static_cast<int>(expectations.size()) - failed << " passed, " << failed << " failed\n";
  return failed == 0 && !expectations.empty() ? 0 : 1;
}

}  // namespace

int main(int count, char** words) {
  const bool is_history = count == 4 && std::string_view(words[3]) == "history";
  if (count != 3 && !is_history) {
    std::cerr << "check_reference PROGRAM BOOK [history]\n";
    return 2;
  }
  try {
    return run(words[1], words[2], is_history);
  } catch (const std::exception& fault) {
    std::cout << "FAILED " << words[2] << ": " << fault.what() << "\n0 passed, 1 failed\n";
    return 1;
  }
}
