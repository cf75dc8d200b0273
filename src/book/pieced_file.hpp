// SPDX-License-Identifier: MIT
#pragma once

#include <atomic>
#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

#include "book/file_as_read.hpp"
#include "diagnostic/result.hpp"
#include "system/held_file.hpp"

namespace driftwarden {

class OpenFile;

// A file of any size that is read in pieces, by several threads, and of which only the beginning is kept. Its size is
// taken once: what is written behind it meanwhile is never read, what is cut off reads as zero bytes, and both are told
// in the end (change_of). 64 bytes can be read behind every text that is given here.
class PiecedFile {
 public:
  static constexpr std::size_t usual_head = std::size_t{32} << 10;

  // `stamp`: taken before, of this path. Fault "file/unreadable" with the system's reason, at `name`.
  static Result<PiecedFile> open(const std::filesystem::path& path, const std::string& name, const FileStamp& stamp,
                                 std::size_t head_bytes = usual_head);

  // A text that was made of a file, in that file's place.
  static PiecedFile of_text(std::string_view text);

  std::size_t size() const { return static_cast<std::size_t>(seen_.stamp.size); }
  // The first bytes, or all there are.
  std::string_view head() const { return {head_.get(), head_size_}; }
  // All bytes, read when they are first asked for, by one thread.
  std::string_view bytes() const;
  // The file as it was read, once all of it was, in whichever way; or why it could not be.
  Result<FileAsRead> seen() const;

  // A thread's view of one stretch after another.
  class Window {
   public:
    explicit Window(const PiecedFile& file);
    Window(const Window&) = delete;
    Window& operator=(const Window&) = delete;
    ~Window();
    // The bytes from `from` to `to`, and on to a line end behind them. Gone when the next are read.
    std::string_view read(std::size_t from, std::size_t to);

   private:
    bool read_into_room(std::size_t from, std::size_t count);  // false: the file was cut

    const PiecedFile& file_;
    std::unique_ptr<OpenFile> open_;
    std::unique_ptr<char[]> room_;
    std::size_t room_size_ = 0;
  };
  // A window has read a piece of `print_piece` bytes.
  void note(std::size_t piece, std::string_view bytes) const;

 private:
  // What threads add up.
  struct Noted {
    std::atomic<std::size_t> bytes{0};
    std::atomic<std::uint64_t> print{0};
    std::atomic<int> reason{0};  // why something can't be read, an errno
  };

  PiecedFile() = default;
  bool is_all_head() const { return head_size_ == size(); }

  std::filesystem::path path_;
  FileAsRead seen_;
  std::unique_ptr<char[]> head_;
  std::size_t head_size_ = 0;
  mutable std::unique_ptr<char[]> all_;
  std::unique_ptr<Noted> noted_ = std::make_unique<Noted>();
};

}  // namespace driftwarden
