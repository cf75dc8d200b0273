// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

namespace driftwarden {

// A text as a QR code (ISO/IEC 18004, error correction level M), an SVG element to be put into HTML: black on white
// with the quiet zone of four modules that a scanner needs, and the text as its title. Nothing else is in the code, so
// that a scanner that types what it reads types the text. "" where the text is empty or too long for one.
std::string qr_code_svg(std::string_view text);

}  // namespace driftwarden
