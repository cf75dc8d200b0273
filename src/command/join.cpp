// SPDX-License-Identifier: MIT
#include <optional>
#include <ostream>

#include "command/opened_book.hpp"
#include "command/output_file.hpp"
#include "outside/whole_file.hpp"
#include "report/joined_results.hpp"
#include "report/terminal_text.hpp"
#include "system/held_file.hpp"

namespace driftwarden {

int run_join(const JoinOptions& options, Surroundings& surroundings) {
  std::vector<HeldFile> files;
  for (const std::string& name : options.files) {
    Result<HeldFile> file = HeldFile::open(name, name);
    if (!file) {
      tell(surroundings.err, file.faults());
      return cannot_be_used;
    }
    files.push_back(*std::move(file));
  }
  if (is_among({options.files.begin(), options.files.end()}, options.out))
    return refuse({over_an_input(options.out)}, surroundings);
  std::vector<PartResult> parts;
  for (std::size_t i = 1; i < files.size(); ++i) parts.push_back({options.files[i], files[i].bytes()});
  std::optional<WholeFile> file;
  if (!options.out.empty()) {
    Result<WholeFile> begun = WholeFile::beside(options.out);
    if (!begun) return refuse(begun.faults(), surroundings);
    file = *std::move(begun);
  }
  const Result<std::size_t> rows =
      join_results(files[0].bytes(), options.files[0], parts, file ? file->out() : exactly(surroundings.out));
  if (!rows) return refuse(rows.faults(), surroundings);
  const Diagnostics unwritten = file ? file->put_in_place() : Diagnostics{};
  return unwritten.empty() ? all_is_well : refuse(unwritten, surroundings);
}

}  // namespace driftwarden
