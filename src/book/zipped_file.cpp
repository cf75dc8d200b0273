// SPDX-License-Identifier: MIT
#include "book/zipped_file.hpp"

#include <zip.h>

#include <vector>

namespace driftwarden {
namespace {

constexpr std::size_t piece_bytes = std::size_t{1} << 18;

std::string zip_fault_text(zip_error_t& fault) {
  std::string text = zip_error_strerror(&fault);
  zip_error_fini(&fault);
  return text;
}

// What another kind of file is amiss with that bears a workbook's name, by its first bytes.
std::optional<Diagnostic> fault_of_kind(std::string_view bytes, const std::string& name) {
  constexpr std::string_view compound_file = "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1";
  if (bytes.empty()) return unreadable_workbook(name, "it is empty");
  if (!bytes.starts_with(compound_file)) return std::nullopt;
  return locked_workbook(name, ", or is an .xls under another name");
}

}  // namespace

struct ZippedFile::Archive {
  zip_t* zip = nullptr;
};

void ZippedFile::Closing::operator()(Archive* archive) const {
  zip_discard(archive->zip);
  delete archive;
}

Diagnostic unreadable_workbook(const std::string& file, const std::string& why) {
  return error("workbook/unreadable", {file, 0, 0}, "the file can't be read as a workbook: " + why,
               "open it where it was made and save it anew, as .xlsx or .ods");
}

Diagnostic locked_workbook(const std::string& file, const std::string& or_what) {
  return error("workbook/encrypted", {file, 0, 0}, "the workbook is locked with a password" + or_what,
               "open it, take the password away and save it as .xlsx or .ods");
}

Diagnostic too_large_workbook(const std::string& file, const std::string& what) {
  return error("workbook/too-large", {file, 0, 0}, "the workbook holds too much: " + what,
               "keep fewer rows in one file");
}

Result<ZippedFile> ZippedFile::open(std::string_view bytes, const std::string& name) {
  if (std::optional<Diagnostic> fault = fault_of_kind(bytes, name)) return *std::move(fault);
  zip_error_t fault;
  zip_error_init(&fault);
  zip_source_t* source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &fault);
  if (source == nullptr) return unreadable_workbook(name, zip_fault_text(fault));
  zip_t* zip = zip_open_from_source(source, ZIP_RDONLY | ZIP_CHECKCONS, &fault);
  if (zip == nullptr) {
    zip_source_free(source);
    return unreadable_workbook(name, zip_fault_text(fault));
  }
  ZippedFile file;
  file.archive_.reset(new Archive{zip});
  file.name_ = name;
  return file;
}

bool ZippedFile::has(const std::string& part) const {
  return zip_name_locate(archive_->zip, part.c_str(), ZIP_FL_ENC_GUESS) >= 0;
}

std::optional<Diagnostic> ZippedFile::read(const std::string& part,
                                           const std::function<bool(std::string_view)>& take) const {
  zip_stat_t about;
  const bool is_there = zip_stat(archive_->zip, part.c_str(), ZIP_FL_ENC_GUESS, &about) == 0;
  if (is_there && (about.valid & ZIP_STAT_ENCRYPTION_METHOD) != 0 && about.encryption_method != ZIP_EM_NONE)
    return locked_workbook(name_);
  const std::unique_ptr<zip_file_t, int (*)(zip_file_t*)> open(
      is_there ? zip_fopen_index(archive_->zip, about.index, 0) : nullptr, zip_fclose);
  if (open == nullptr) return unreadable_workbook(name_, "its part " + in_quotes(part) + " is missing");
  std::vector<char> piece(piece_bytes);
  std::size_t unpacked = 0;
  for (;;) {
    const zip_int64_t got = zip_fread(open.get(), piece.data(), piece.size());
    if (got < 0) return unreadable_workbook(name_, "its part " + in_quotes(part) + " is damaged");
    if (got == 0) return std::nullopt;
    unpacked += static_cast<std::size_t>(got);
    if (unpacked > most_unpacked)
      return too_large_workbook(name_, "more than " + std::to_string(most_unpacked >> 20U) + " MB when it is unpacked");
    if (!take({piece.data(), static_cast<std::size_t>(got)})) return std::nullopt;
  }
}

}  // namespace driftwarden
