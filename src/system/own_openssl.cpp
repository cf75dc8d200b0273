// SPDX-License-Identifier: MIT
#include "system/own_openssl.hpp"

#include <openssl/crypto.h>

#include <memory>
#include <new>

namespace driftwarden {
namespace {

using Context = std::unique_ptr<OSSL_LIB_CTX, decltype(&OSSL_LIB_CTX_free)>;

Context new_context() {
  Context context(OSSL_LIB_CTX_new(), OSSL_LIB_CTX_free);
  if (context == nullptr) throw std::bad_alloc();
  return context;
}

}  // namespace

ossl_lib_ctx_st* own_openssl() {
  static const Context context = new_context();
  return context.get();
}

}  // namespace driftwarden
