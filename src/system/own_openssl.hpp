// SPDX-License-Identifier: MIT
#pragma once

struct ossl_lib_ctx_st;

namespace driftwarden {

// OpenSSL in a context of the program's own: it takes no settings from a file of the system or of OPENSSL_CONF, and its
// making fails where there is no memory for it. (The library's own context is then used half made.) Throws
// std::bad_alloc.
ossl_lib_ctx_st* own_openssl();

}  // namespace driftwarden
