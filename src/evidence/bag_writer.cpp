// SPDX-License-Identifier: MIT
#include "driftwarden/evidence/bag_writer.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <system_error>
#include <utility>

#include "driftwarden/book/digest.hpp"
#include "driftwarden/book/mapped_file.hpp"
#include "driftwarden/evidence/bag_layout.hpp"
#include "driftwarden/evidence/bag_name.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

Diagnostic unwritable(const fs::path& where, int reason) {
  return error("evidence/unwritable", {where.string(), 0, 0},
               "the package could not be written: " + std::generic_category().message(reason),
               "nothing is left under its name; check the folder, its rights and the room on the disk");
}

Diagnostic already_there(const fs::path& place) {
  return error("evidence/already-there", {place.string(), 0, 0}, "there is something of this name already",
               "a package is never written over anything; name another folder");
}

// A file or folder, open, for a call that wants a number.
class OpenPlace {
 public:
  OpenPlace(const fs::path& path, int flags) : number_(::open(path.c_str(), flags | O_CLOEXEC, 0666)) {}
  OpenPlace(const OpenPlace&) = delete;
  OpenPlace& operator=(const OpenPlace&) = delete;
  ~OpenPlace() {
    if (number_ >= 0) ::close(number_);
  }
  int number() const { return number_; }
  bool is_open() const { return number_ >= 0; }
  // Some file systems tell only now that there is no room.
  bool close() { return ::close(std::exchange(number_, -1)) == 0; }

 private:
  int number_;
};

bool write_all(int number, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(number, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

bool is_on_disk(const fs::path& path) {
  const OpenPlace place(path, O_RDONLY);
  return place.is_open() && ::fsync(place.number()) == 0;
}

bool is_all_on_disk(const fs::path& folder) {
  std::error_code failure;
  fs::recursive_directory_iterator entry(folder, failure);
  for (; !failure && entry != fs::recursive_directory_iterator(); entry.increment(failure)) {
    if (!is_on_disk(entry->path())) return false;
  }
  errno = failure.value();
  return !failure && is_on_disk(folder);
}

// In one step, and not over anything. Where the file system can't promise that, an empty folder made in the same moment
// could be replaced; nothing that has anything in it.
int moved(const fs::path& from, const fs::path& to) {
  if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return 0;
  if (errno != EINVAL && errno != ENOSYS) return errno;
  std::error_code ignored;
  if (fs::exists(fs::symlink_status(to, ignored))) return EEXIST;
  return ::rename(from.c_str(), to.c_str()) == 0 ? 0 : errno;
}

fs::path without_last_slash(const fs::path& place) {
  const fs::path whole = fs::absolute(place).lexically_normal();
  return whole.has_filename() ? whole : whole.parent_path();
}

}  // namespace

UnfinishedFolder::UnfinishedFolder(fs::path path, fs::path place) : path_(std::move(path)), place_(std::move(place)) {}

UnfinishedFolder::UnfinishedFolder(UnfinishedFolder&& other) noexcept
    : path_(std::exchange(other.path_, {})), place_(std::move(other.place_)) {}

UnfinishedFolder::~UnfinishedFolder() {
  std::error_code ignored;
  if (!path_.empty()) fs::remove_all(path_, ignored);
}

Result<UnfinishedFolder> UnfinishedFolder::beside(const fs::path& said) {
  const fs::path place = without_last_slash(said);
  std::error_code failure;
  if (fs::exists(fs::symlink_status(place, failure))) return already_there(said);
  fs::create_directories(place.parent_path(), failure);
  if (failure) return unwritable(place.parent_path(), failure.value());
  fs::path path = place;
  path += ".unfinished-" + std::to_string(::getpid());
  if (::mkdir(path.c_str(), 0777) != 0) return unwritable(path, errno);
  return UnfinishedFolder(path, place);
}

Diagnostics UnfinishedFolder::put_in_place() {
  if (!is_all_on_disk(path_)) return {unwritable(path_, errno)};
  const int failure = moved(path_, place_);
  if (failure == EEXIST || failure == ENOTEMPTY) return {already_there(place_)};
  if (failure != 0) return {unwritable(place_, failure)};
  path_.clear();
  is_on_disk(place_.parent_path());  // the bag is whole either way
  return {};
}

Result<BagWriter> BagWriter::begin(const fs::path& place) {
  Result<UnfinishedFolder> folder = UnfinishedFolder::beside(place);
  if (!folder) return folder.faults();
  return BagWriter(*std::move(folder));
}

void BagWriter::write(const std::string& name, std::string_view bytes) {
  if (!failure_.empty()) return;
  const fs::path path = folder() / name;
  std::error_code failure;
  fs::create_directories(path.parent_path(), failure);
  if (failure) return failure_.push_back(unwritable(path, failure.value()));
  OpenPlace file(path, O_WRONLY | O_CREAT | O_EXCL);
  if (!file.is_open() || !write_all(file.number(), bytes) || !file.close()) failure_.push_back(unwritable(path, errno));
}

void BagWriter::list(const std::string& name, std::string_view bytes) {
  const std::string fault = fault_of_bag_name(name);
  if (!fault.empty()) {
    failure_.push_back(error("evidence/name", {name, 0, 0}, "the name " + in_quotes(name) + " " + fault,
                             "give the file another name; such a one can't be packed safely"));
  }
  if (!failure_.empty()) return;
  (is_payload(name) ? payload_ : tags_)[name] = sha512_of(bytes);
  if (!is_payload(name)) return;
  size_.bytes += bytes.size();
  ++size_.files;
}

void BagWriter::add(const std::string& name, std::string_view bytes) {
  list(name, bytes);
  write(name, bytes);
}

void BagWriter::copy(const std::string& name, const fs::path& file) {
  if (!failure_.empty()) return;
  const Result<MappedFile> bytes = MappedFile::open(file, file.string());
  if (!bytes) {
    failure_ = bytes.faults();
    return;
  }
  add(name, bytes->bytes());
}

void BagWriter::adopt(const std::string& name) {
  if (!failure_.empty()) return;
  const Result<MappedFile> bytes = MappedFile::open(folder() / name, name);
  if (!bytes) {
    failure_ = bytes.faults();
    return;
  }
  list(name, bytes->bytes());
}

Diagnostics BagWriter::finish(const BagInfo& info, const Ed25519Key* key) {
  if (key != nullptr) add(std::string(signer_file), key->public_pem());
  add(std::string(declaration_file), declaration_text);
  add(std::string(bag_info_file), bag_info_text(info, size_));
  add(std::string(manifest_file), manifest_text(payload_));
  const std::string tag_manifest = manifest_text(tags_);
  write(std::string(tag_manifest_file), tag_manifest);
  if (key != nullptr) write(std::string(signature_file), key->sign(tag_manifest));
  if (!failure_.empty()) return failure_;
  return folder_.put_in_place();
}

}  // namespace driftwarden
