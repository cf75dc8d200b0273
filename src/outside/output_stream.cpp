// SPDX-License-Identifier: MIT
#include "outside/output_stream.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <system_error>
#include <utility>

namespace driftwarden {
namespace {

constexpr std::size_t buffered_bytes = std::size_t{64} * 1024;

int open_new(const std::filesystem::path& file) {
  std::error_code failure;
  if (file.has_parent_path()) std::filesystem::create_directories(file.parent_path(), failure);
  if (failure) return errno = failure.value(), -1;
  return ::open(file.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
}

// Pipes and devices have nothing to bring to a disk.
bool has_no_disk(int reason) { return reason == EINVAL || reason == EROFS || reason == ENOTSUP; }

}  // namespace

DescriptorBuffer::DescriptorBuffer(int descriptor)
    : descriptor_(descriptor), reason_(descriptor < 0 ? errno : 0), waiting_(buffered_bytes) {
  setp(waiting_.data(), waiting_.data() + waiting_.size());
}

DescriptorBuffer::~DescriptorBuffer() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

bool DescriptorBuffer::put(const char* bytes, std::size_t count) {
  while (count > 0 && reason_ == 0) {
    const ssize_t written = ::write(descriptor_, bytes, count);
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return reason_ = errno, false;
    bytes += written;
    count -= static_cast<std::size_t>(written);
  }
  return reason_ == 0;
}

bool DescriptorBuffer::put_what_waits() {
  const bool is_put = put(pbase(), static_cast<std::size_t>(pptr() - pbase()));
  setp(waiting_.data(), waiting_.data() + waiting_.size());
  return is_put;
}

DescriptorBuffer::int_type DescriptorBuffer::overflow(int_type character) {
  if (!put_what_waits()) return traits_type::eof();
  if (traits_type::eq_int_type(character, traits_type::eof())) return traits_type::not_eof(character);
  return sputc(traits_type::to_char_type(character));
}

std::streamsize DescriptorBuffer::xsputn(const char* text, std::streamsize count) {
  if (count < epptr() - pptr()) {
    std::memcpy(pptr(), text, static_cast<std::size_t>(count));
    pbump(static_cast<int>(count));
    return count;
  }
  return put_what_waits() && put(text, static_cast<std::size_t>(count)) ? count : 0;
}

int DescriptorBuffer::sync() { return put_what_waits() ? 0 : -1; }

int DescriptorBuffer::finish(bool to_the_disk) {
  put_what_waits();
  if (descriptor_ < 0) return reason_;
  if (to_the_disk && reason_ == 0 && ::fsync(descriptor_) != 0 && !has_no_disk(errno)) reason_ = errno;
  if (::close(std::exchange(descriptor_, -1)) != 0 && errno != EINTR && reason_ == 0) reason_ = errno;
  return reason_;
}

OutputStream::OutputStream(int descriptor) : std::ostream(nullptr), buffer_(descriptor) {
  rdbuf(&buffer_);
  if (buffer_.reason() != 0) setstate(failbit);
}

OutputStream::OutputStream(const std::filesystem::path& new_file) : OutputStream(open_new(new_file)) {}

int write_new(const std::filesystem::path& file, std::string_view text) {
  OutputStream out(file);
  out << text;
  return out.finish(false);
}

int end_of_output(std::ostream& out) {
  if (auto* buffer = dynamic_cast<DescriptorBuffer*>(out.rdbuf())) return buffer->finish(false);
  return out.flush() ? 0 : -1;
}

}  // namespace driftwarden
