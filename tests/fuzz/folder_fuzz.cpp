// SPDX-License-Identifier: MIT
// A whole book, written as one text: a line "=== NAME" begins the file NAME. Whatever stands in the files, each command
// ends with a status of its own, the same with any number of threads; what it prints is what the manual says of its
// form, and nothing of a book acts on the terminal.
#include <algorithm>
#include <array>
#include <cstdint>
#include <map>
#include <nlohmann/json.hpp>

#include "book/slow_csv.hpp"
#include "command/called.hpp"
#include "diagnostic/characters.hpp"
#include "fuzz/require.hpp"

namespace driftwarden {
namespace {

constexpr std::array<std::string_view, 10> names{
    "book.toml",    "instruments.csv", "certificates.csv", "samples.csv", "samples/a.csv",
    "readings.csv", "readings/a.csv",  "decisions.csv",    "service.csv", "house.toml"};
constexpr std::string_view mark = "=== ";

// Only the names of a book; what follows a line that names none belongs to the file before.
std::map<std::string, std::string> files_in(std::string_view text) {
  std::map<std::string, std::string> files;
  std::string* file = nullptr;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size() - 1) + 1;
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(end);
    const std::string_view name =
        line.starts_with(mark) ? line.substr(mark.size(), line.find_last_not_of('\n') + 1 - mark.size()) : "";
    if (std::find(names.begin(), names.end(), name) != names.end()) {
      file = &files[std::string(name)];
    } else if (file != nullptr) {
      *file += line;
    }
  }
  return files;
}

void shows_itself_by_lines(std::string_view text, const std::string& what) {
  for (std::size_t end = 0; !text.empty(); text.remove_prefix(std::min(end + 1, text.size()))) {
    end = std::min(text.find('\n'), text.size());
    require(shows_itself(text.substr(0, end)), what + " shows itself: " + in_quotes(text.substr(0, end)));
  }
}

Called called(std::vector<std::string> arguments, const std::string& threads = "1") {
  arguments.insert(arguments.end(), {"--threads", threads});
  Called said = call(arguments);
  require(said.status >= 0 && said.status <= 2, "a status is 0, 1 or 2");
  require(said.status != 2 || !said.err.empty(), "status 2 has its reason");
  shows_itself_by_lines(said.err, "what is told");
  return said;
}

void is_the_same_with_more_threads(const std::vector<std::string>& arguments, const Called& alone) {
  const Called together = called(arguments, "3");
  require(together.status == alone.status && together.out == alone.out && together.err == alone.err,
          arguments.front() + " is the same with three threads");
}

void is_json(const std::string& text) {
  if (!text.empty()) require(nlohmann::json::accept(text), "JSON is JSON");
}

void is_csv(const std::string& text) {
  const CsvRows rows = read_slowly(text, ',');
  for (const auto& row : rows) require(row.size() == rows.front().size(), "each row has as many cells as the heading");
}

void is_fit_for_every_command(const std::string& book) {
  const std::vector<std::string> screen{"screen", book, "--format", "csv"};
  const Called judged = called(screen);
  is_the_same_with_more_threads(screen, judged);
  is_csv(judged.out);
  is_json(called({"screen", book, "--format", "json"}).out);
  shows_itself_by_lines(called({"screen", book}).out, "the table");
  shows_itself_by_lines(called({"check", book}).out, "what check says");
  const CsvRows rows = read_slowly(judged.out, ',');
  if (rows.size() > 1) shows_itself_by_lines(called({"explain", book, "--", rows[1][0]}).out, "an explanation");
  is_json(called({"lookback", book, "VOL-1", "--format", "json"}).out);
}

}  // namespace
}  // namespace driftwarden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace driftwarden;
  const ScratchFolder book;
  for (const auto& [name, text] : files_in({reinterpret_cast<const char*>(data), size})) {
    std::filesystem::create_directories((book.path() / name).parent_path());
    std::ofstream(book.path() / name, std::ios::binary) << text;
  }
  is_fit_for_every_command(book.path().string());
  return 0;
}
