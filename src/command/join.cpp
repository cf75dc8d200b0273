// SPDX-License-Identifier: MIT
#include <fstream>
#include <ostream>

#include "command/opened_book.hpp"
#include "driftwarden/book/mapped_file.hpp"
#include "driftwarden/report/joined_results.hpp"

namespace driftwarden {

int run_join(const JoinOptions& options, Surroundings& surroundings) {
  std::vector<MappedFile> files;
  for (const std::string& name : options.files) {
    Result<MappedFile> file = MappedFile::open(name, name);
    if (!file) {
      tell(surroundings.err, file.faults());
      return cannot_be_used;
    }
    files.push_back(*std::move(file));
  }
  std::vector<PartResult> parts;
  for (std::size_t i = 1; i < files.size(); ++i) parts.push_back({options.files[i], files[i].bytes()});
  std::ofstream file;
  if (!options.out.empty()) file.open(options.out, std::ios::binary);
  std::ostream& out = options.out.empty() ? surroundings.out : file;
  const Result<std::size_t> rows = join_results(files[0].bytes(), options.files[0], parts, out);
  if (!rows) {
    tell(surroundings.err, rows.faults());
    return cannot_be_used;
  }
  if (out.flush()) return all_is_well;
  tell(surroundings.err, {error("output/unwritable", {options.out, 0, 0}, "the results could not be written",
                                "check the folder, its rights and the room on the disk")});
  return cannot_be_used;
}

}  // namespace driftwarden
