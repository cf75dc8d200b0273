// SPDX-License-Identifier: MIT
#include "book/pieced_file.hpp"

#include <algorithm>
#include <cstring>

#include "system/open_file.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t usual_rest_of_a_row = 4096;

// Reads so many bytes; what is missing is zero, as is the padding behind. False: the file was cut.
bool read_padded(OpenFile& file, std::size_t from, std::size_t count, char* room) {
  const std::size_t got = file.read(from, count, room);
  std::fill(room + got, room + count + HeldFile::padding, '\0');
  return got == count;
}

std::unique_ptr<char[]> room_for(std::size_t bytes) {
  return std::make_unique_for_overwrite<char[]>(bytes + HeldFile::padding);
}

}  // namespace

Result<PiecedFile> PiecedFile::open(const std::filesystem::path& path, const std::string& name, const FileStamp& stamp,
                                    std::size_t head_bytes) {
  OpenFile file(path);
  if (file.reason() != 0) return unreadable(name, file.reason());
  PiecedFile pieced;
  pieced.path_ = path;
  pieced.seen_ = {name, stamp, 0};
  pieced.head_size_ = std::min(pieced.size(), head_bytes);
  pieced.head_ = room_for(pieced.head_size_);
  read_padded(file, 0, pieced.head_size_, pieced.head_.get());
  if (file.reason() != 0) return unreadable(name, file.reason());
  return pieced;
}

PiecedFile PiecedFile::of_text(std::string_view text) {
  PiecedFile pieced;
  pieced.seen_.stamp.size = pieced.head_size_ = text.size();
  pieced.head_ = room_for(text.size());
  std::copy(text.begin(), text.end(), pieced.head_.get());
  std::fill_n(pieced.head_.get() + text.size(), HeldFile::padding, '\0');
  return pieced;
}

std::string_view PiecedFile::bytes() const {
  if (is_all_head()) return head();
  if (all_ == nullptr) {
    OpenFile file(path_);
    all_ = room_for(size());
    read_padded(file, 0, size(), all_.get());
    if (file.reason() != 0) noted_->reason = file.reason();
  }
  return {all_.get(), size()};
}

Result<FileAsRead> PiecedFile::seen() const {
  FileAsRead seen = seen_;
  const bool is_read_in_pieces = all_ == nullptr && noted_->bytes == size();
  seen.print = is_read_in_pieces ? noted_->print.load() : print_of(bytes());
  if (noted_->reason != 0) return unreadable(seen.name, noted_->reason);
  return seen;
}

void PiecedFile::note(std::size_t piece, std::string_view bytes) const {
  if (is_all_head()) return;
  noted_->print += print_of_piece(piece, bytes);
  noted_->bytes += bytes.size();
}

PiecedFile::Window::Window(const PiecedFile& file)
    : file_(file), open_(file.is_all_head() ? nullptr : std::make_unique<OpenFile>(file.path_)) {}

PiecedFile::Window::~Window() {
  if (open_ != nullptr && open_->reason() != 0) file_.noted_->reason = open_->reason();
}

std::string_view PiecedFile::Window::read(std::size_t from, std::size_t to) {
  if (open_ == nullptr) return file_.head().substr(from);
  for (std::size_t rest = usual_rest_of_a_row;; rest *= 4) {
    const std::size_t end = std::min(to + rest, file_.size());
    const bool is_complete = read_into_room(from, end - from);
    const bool ends_a_row = room_[to - 1 - from] == '\n' || end == file_.size() ||
                            std::memchr(&room_[to - from], '\n', end - to) != nullptr;
    if (ends_a_row || !is_complete) return {room_.get(), end - from};
  }
}

bool PiecedFile::Window::read_into_room(std::size_t from, std::size_t count) {
  if (count > room_size_) {
    room_ = room_for(count);
    room_size_ = count;
  }
  return read_padded(*open_, from, count, room_.get());
}

}  // namespace driftwarden
