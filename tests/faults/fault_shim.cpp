// SPDX-License-Identifier: MIT
// Put before the C library (LD_PRELOAD), this lets one call of the system fail: the FAULT_AT-th of the kind FAULT_CALL,
// with the error FAULT_ERROR, or has it bring a signal instead (FAULT_SIGNAL). With FAULT_COUNTS=FILE nothing fails,
// and how many calls there were of each kind is written to the file at the end; and, for each folder that was made
// under a name nobody knew before, after how many allocations that was.
#include <dirent.h>
#include <dlfcn.h>
#include <fcntl.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <sys/types.h>
#include <sys/uio.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <csignal>
#include <cstdarg>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <iterator>

namespace {

enum Kind : int {
  opening,
  reading,
  writing,
  syncing,
  renaming,
  mapping,
  closing,
  making,
  removing,
  starting,
  allocating,
  kinds
};
constexpr const char* names[kinds] = {"open",  "read",  "write",  "fsync", "rename",  "mmap",
                                      "close", "mkdir", "unlink", "start", "allocate"};

std::atomic<long> counts[kinds];
int wanted = -1;
long wanted_at = 0;
int failing_with = EIO;
int raising = 0;
bool is_counting = false;
long made_after[64];  // folders of a new name: the allocations before each
std::atomic<std::size_t> made{0};

long number_in(const char* name) {
  const char* text = std::getenv(name);
  return text == nullptr ? 0 : std::atol(text);
}

// Where main begins: what the loader and the libraries do before it is not counted.
void begin() {
  const char* call = std::getenv("FAULT_CALL");
  for (int kind = 0; kind < kinds; ++kind) {
    if (call != nullptr && std::strcmp(call, names[kind]) == 0) wanted = kind;
  }
  wanted_at = number_in("FAULT_AT");
  if (number_in("FAULT_ERROR") != 0) failing_with = static_cast<int>(number_in("FAULT_ERROR"));
  raising = static_cast<int>(number_in("FAULT_SIGNAL"));
  is_counting = true;
}

using Main = int (*)(int, char**, char**);
Main main_of_the_program = nullptr;
int counted_main(int count, char** words, char** environment) {
  begin();
  return main_of_the_program(count, words, environment);
}

__attribute__((destructor)) void end() {
  is_counting = false;
  const char* file = std::getenv("FAULT_COUNTS");
  if (file == nullptr) return;
  if (std::FILE* out = std::fopen(file, "w")) {
    for (int kind = 0; kind < kinds; ++kind) std::fprintf(out, "%s %ld\n", names[kind], counts[kind].load());
    for (std::size_t i = 0; i < made; ++i) std::fprintf(out, "made-%zu %ld\n", i, made_after[i]);
    std::fclose(out);
  }
}

// Whether this call is the one that fails.
bool fails(Kind kind) {
  if (!is_counting || ++counts[kind] != wanted_at || kind != wanted) return false;
  if (raising != 0) {
    raise(raising);
    return false;
  }
  errno = kind == allocating ? ENOMEM : failing_with;
  return true;
}

template <class Function>
Function next(Function, const char* name) {
  return reinterpret_cast<Function>(dlsym(RTLD_NEXT, name));
}
#define REAL(name) (next(&::name, #name))

mode_t mode_of(int flags, va_list& more) {
  return (flags & (O_CREAT | O_TMPFILE)) != 0 ? static_cast<mode_t>(va_arg(more, unsigned)) : 0;
}

}  // namespace

extern "C" {

int __libc_start_main(Main main, int count, char** words, void (*first)(), void (*last)(), void (*loader)(),
                      void* stack) {
  main_of_the_program = main;
  return REAL(__libc_start_main)(counted_main, count, words, first, last, loader, stack);
}

void* __libc_malloc(size_t size);
void* __libc_calloc(size_t count, size_t size);
void* __libc_realloc(void* old, size_t size);

void* malloc(size_t size) { return fails(allocating) ? nullptr : __libc_malloc(size); }
void* calloc(size_t count, size_t size) { return fails(allocating) ? nullptr : __libc_calloc(count, size); }
void* realloc(void* old, size_t size) { return fails(allocating) ? nullptr : __libc_realloc(old, size); }

int open(const char* path, int flags, ...) {
  va_list more;
  va_start(more, flags);
  const mode_t mode = mode_of(flags, more);
  va_end(more);
  return fails(opening) ? -1 : REAL(openat)(AT_FDCWD, path, flags, mode);
}
int open64(const char* path, int flags, ...) {
  va_list more;
  va_start(more, flags);
  const mode_t mode = mode_of(flags, more);
  va_end(more);
  return fails(opening) ? -1 : REAL(openat)(AT_FDCWD, path, flags, mode);
}
int openat(int folder, const char* path, int flags, ...) {
  va_list more;
  va_start(more, flags);
  const mode_t mode = mode_of(flags, more);
  va_end(more);
  return fails(opening) ? -1 : REAL(openat)(folder, path, flags, mode);
}
int openat64(int folder, const char* path, int flags, ...) {
  va_list more;
  va_start(more, flags);
  const mode_t mode = mode_of(flags, more);
  va_end(more);
  return fails(opening) ? -1 : REAL(openat)(folder, path, flags, mode);
}
std::FILE* fopen(const char* path, const char* how) { return fails(opening) ? nullptr : REAL(fopen)(path, how); }
std::FILE* fopen64(const char* path, const char* how) { return fails(opening) ? nullptr : REAL(fopen)(path, how); }
DIR* opendir(const char* path) { return fails(opening) ? nullptr : REAL(opendir)(path); }
DIR* fdopendir(int folder) { return fails(opening) ? nullptr : REAL(fdopendir)(folder); }
dirent* readdir(DIR* folder) { return fails(reading) ? nullptr : REAL(readdir)(folder); }
dirent64* readdir64(DIR* folder) { return fails(reading) ? nullptr : REAL(readdir64)(folder); }
ssize_t read(int file, void* to, size_t count) { return fails(reading) ? -1 : REAL(read)(file, to, count); }
ssize_t pread(int file, void* to, size_t count, off_t at) {
  return fails(reading) ? -1 : REAL(pread)(file, to, count, at);
}
ssize_t write(int file, const void* from, size_t count) { return fails(writing) ? -1 : REAL(write)(file, from, count); }
ssize_t writev(int file, const iovec* parts, int count) {
  return fails(writing) ? -1 : REAL(writev)(file, parts, count);
}
int fsync(int file) { return fails(syncing) ? -1 : REAL(fsync)(file); }
int fdatasync(int file) { return fails(syncing) ? -1 : REAL(fdatasync)(file); }
int rename(const char* from, const char* to) { return fails(renaming) ? -1 : REAL(rename)(from, to); }
int renameat(int a, const char* from, int b, const char* to) {
  return fails(renaming) ? -1 : REAL(renameat)(a, from, b, to);
}
int renameat2(int a, const char* from, int b, const char* to, unsigned how) {
  return fails(renaming) ? -1 : REAL(renameat2)(a, from, b, to, how);
}
int link(const char* from, const char* to) { return fails(renaming) ? -1 : REAL(link)(from, to); }
void* mmap(void* at, size_t size, int may, int how, int file, off_t from) {
  return fails(mapping) ? MAP_FAILED : REAL(mmap)(at, size, may, how, file, from);
}
void* mmap64(void* at, size_t size, int may, int how, int file, off_t from) {
  return fails(mapping) ? MAP_FAILED : REAL(mmap)(at, size, may, how, file, from);
}
// A file that can't be closed is closed all the same (Linux).
int close(int file) {
  const bool failed = fails(closing);
  const int result = REAL(close)(file);
  if (failed) errno = failing_with;
  return failed ? -1 : result;
}
int mkdir(const char* path, mode_t mode) { return fails(making) ? -1 : REAL(mkdir)(path, mode); }
char* mkdtemp(char* name) {
  if (is_counting && made < std::size(made_after)) made_after[made++] = counts[allocating];
  return fails(making) ? nullptr : REAL(mkdtemp)(name);
}
int unlink(const char* path) { return fails(removing) ? -1 : REAL(unlink)(path); }
int unlinkat(int folder, const char* path, int how) { return fails(removing) ? -1 : REAL(unlinkat)(folder, path, how); }
int rmdir(const char* path) { return fails(removing) ? -1 : REAL(rmdir)(path); }
int pipe2(int ends[2], int how) { return fails(starting) ? -1 : REAL(pipe2)(ends, how); }
pid_t fork() { return fails(starting) ? -1 : REAL(fork)(); }

}  // extern "C"
