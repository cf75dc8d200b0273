// SPDX-License-Identifier: MIT
#include "report/qr_code.hpp"

#include <qrencode.h>

#include <algorithm>
#include <memory>

#include "diagnostic/characters.hpp"
#include "report/html_text.hpp"

namespace driftwarden {
namespace {

constexpr int quiet_zone = 4;
constexpr std::size_t longest_text = 200;  // a code with more would be too fine to be read from paper

struct CodeFreed {
  void operator()(QRcode* code) const { QRcode_free(code); }
};
using Code = std::unique_ptr<QRcode, CodeFreed>;

struct InputFreed {
  void operator()(QRinput* input) const { QRinput_free(input); }
};

// Text beyond ASCII says what it is: UTF-8 (the extended channel interpretation 26).
Code code_of(std::string_view text) {
  constexpr unsigned utf8 = 26;
  const std::unique_ptr<QRinput, InputFreed> input(QRinput_new2(0, QR_ECLEVEL_M));
  if (input == nullptr) return nullptr;
  if (!std::all_of(text.begin(), text.end(), is_printable_ascii) && QRinput_appendECIheader(input.get(), utf8) != 0)
    return nullptr;
  const std::string bytes(text);
  const auto* const data = reinterpret_cast<const unsigned char*>(bytes.data());
  if (QRinput_append(input.get(), QR_MODE_8, static_cast<int>(bytes.size()), data) != 0) return nullptr;
  return Code(QRcode_encodeInput(input.get()));
}

bool is_dark(const QRcode& code, int x, int y) { return (code.data[y * code.width + x] & 1U) != 0; }

// The dark modules as one path: a rectangle for each run in a row.
std::string path_of(const QRcode& code) {
  std::string path;
  for (int y = 0; y < code.width; ++y) {
    for (int x = 0; x < code.width; ++x) {
      if (!is_dark(code, x, y)) continue;
      const int from = x;
      while (x < code.width && is_dark(code, x, y)) ++x;
      path += "M" + std::to_string(from + quiet_zone) + " " + std::to_string(y + quiet_zone) + "h" +
              std::to_string(x - from) + "v1h-" + std::to_string(x - from) + "z";
    }
  }
  return path;
}

}  // namespace

std::string qr_code_svg(std::string_view text) {
  if (text.empty() || text.size() > longest_text) return {};
  const Code code = code_of(text);
  if (code == nullptr) return {};
  const std::string side = std::to_string(code->width + 2 * quiet_zone);
  std::string svg = "<svg class=\"code\" role=\"img\" viewBox=\"0 0 " + side + " " + side +
                    "\" shape-rendering=\"crispEdges\"><title>";
  append_html(svg, text);
  svg += "</title><rect width=\"" + side + "\" height=\"" + side + "\" fill=\"#fff\"/><path fill=\"#000\" d=\"" +
         path_of(*code) + "\"/></svg>";
  return svg;
}

}  // namespace driftwarden
