// SPDX-License-Identifier: MIT
#include "book/workbook.hpp"

namespace driftwarden {

Result<std::unique_ptr<Workbook>> open_workbook(std::string_view bytes, const std::string& name) {
  Result<ZippedFile> file = ZippedFile::open(bytes, name);
  if (!file) return file.faults();
  const bool is_ods = file->has("content.xml");
  if (!is_ods && !file->has("_rels/.rels")) return unreadable_workbook(name, "it is a ZIP file, but no workbook");
  Result<std::unique_ptr<Workbook>> workbook = is_ods ? open_ods(*std::move(file)) : open_xlsx(*std::move(file));
  if (workbook && (*workbook)->sheets().empty()) return unreadable_workbook(name, "it has no sheets");
  return workbook;
}

}  // namespace driftwarden
