// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "diagnostic/result.hpp"

namespace driftwarden {

// The parts of a ZIP file that is held in memory. What a part holds is unpacked piece by piece and never kept here; of
// one part no more than `most_unpacked` bytes, so that a small file can't grow beyond measure.
class ZippedFile {
 public:
  static constexpr std::size_t most_unpacked = std::size_t{512} << 20;

  // The bytes must stay. Faults, at `name`: workbook/unreadable, workbook/encrypted.
  static Result<ZippedFile> open(std::string_view bytes, const std::string& name);

  bool has(const std::string& part) const;
  // Gives a part's bytes to `take`, in order, until that returns false. Faults: as above, and workbook/too-large.
  std::optional<Diagnostic> read(const std::string& part, const std::function<bool(std::string_view)>& take) const;
  const std::string& name() const { return name_; }

 private:
  struct Archive;
  struct Closing {
    void operator()(Archive* archive) const;
  };

  std::unique_ptr<Archive, Closing> archive_;
  std::string name_;
};

// "workbook/unreadable": the file can't be read as a workbook, and why.
Diagnostic unreadable_workbook(const std::string& file, const std::string& why);
// "workbook/encrypted": it is locked with a password.
Diagnostic locked_workbook(const std::string& file, const std::string& or_what = {});
// "workbook/too-large": it holds more than is read, "more than 5,000,000 texts".
Diagnostic too_large_workbook(const std::string& file, const std::string& what);

}  // namespace driftwarden
