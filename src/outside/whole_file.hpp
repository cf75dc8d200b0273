// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <memory>
#include <string_view>

#include "diagnostic/result.hpp"
#include "outside/output_stream.hpp"
#include "outside/unfinished.hpp"

namespace driftwarden {

// A file that is whole or not there: written beside its place under another name, and put there in one step when all of
// it is on the disk. What was there before stays until then. A pipe, a terminal or a device is written as it goes.
class WholeFile {
 public:
  // Fault: output/unwritable, as of put_in_place().
  static Result<WholeFile> beside(const std::filesystem::path& place);

  std::ostream& out() { return *out_; }
  Diagnostics put_in_place();

 private:
  WholeFile(std::filesystem::path said, std::filesystem::path place)
      : said_(std::move(said)), place_(std::move(place)) {}

  std::filesystem::path said_;
  std::filesystem::path place_;  // where a link leads to
  Unfinished unfinished_;        // nothing where the file is written as it goes
  std::unique_ptr<OutputStream> out_;
};

// The same for a text that is there already,
Diagnostics write_whole(const std::filesystem::path& place, std::string_view text);
// and for a file that another program wrote, on the same file system.
Diagnostics move_whole(const std::filesystem::path& file, const std::filesystem::path& place);

// Waits until a file is on the disk; of a folder the names in it, which a new file has only then. The reason for which
// it is not, an errno, or 0.
int brought_to_disk(const std::filesystem::path& path);

// A folder for files to come, inside one that is there; its name is on the disk when it is made here.
Diagnostics make_folder(const std::filesystem::path& place);

}  // namespace driftwarden
