// SPDX-License-Identifier: MIT
#include "system/in_parallel.hpp"

#include <exception>
#include <mutex>
#include <system_error>
#include <thread>
#include <vector>

namespace driftwarden {
namespace {

// The first of what was thrown.
class FirstFailure {
 public:
  void keep() {
    const std::scoped_lock lock(mutex_);
    if (!failure_) failure_ = std::current_exception();
  }
  void throw_on() const {
    if (failure_) std::rethrow_exception(failure_);
  }

 private:
  std::mutex mutex_;
  std::exception_ptr failure_;
};

}  // namespace

void in_parallel(std::size_t threads, const std::function<void(std::size_t)>& work) {
  FirstFailure failure;
  const auto work_on = [&](std::size_t number) {
    try {
      work(number);
    } catch (...) {
      failure.keep();
    }
  };
  std::vector<std::jthread> others;
  try {
    for (std::size_t number = 1; number < threads; ++number) others.emplace_back(work_on, number);
  } catch (const std::system_error&) {  // no more threads
  } catch (...) {
    failure.keep();
  }
  work_on(0);
  others.clear();  // all have ended
  failure.throw_on();
}

}  // namespace driftwarden
