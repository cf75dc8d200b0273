// SPDX-License-Identifier: MIT
#include "workshop/pdf_print.hpp"

#include <unistd.h>

#include <fstream>
#include <iterator>
#include <vector>

#include "book/own_page.hpp"
#include "book/stamp_text.hpp"
#include "diagnostic/hexadecimal.hpp"
#include "outside/outside_program.hpp"
#include "outside/whole_file.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

Diagnostic no_browser(const std::string& program) {
  return error("print/no-browser", {program, 0, 0}, "the page can't be printed: there is no program " + program,
               "install the package chromium (sudo apt-get install chromium), or leave out --format pdf and print the "
               "page from a browser");
}

Diagnostic failed(const std::string& program, const std::string& why) {
  return error("print/failed", {program, 0, 0}, "the page could not be printed: " + why,
               "install the package chromium-sandbox, which the browser needs where the system lets nobody make "
               "namespaces; or leave out --format pdf and print the page from a browser");
}

// A path as a browser takes it: '#', '?' and '%' mean something in an address (RFC 8089, RFC 3986).
std::string address_of(const fs::path& file) { return "file://" + percent_encoded(fs::absolute(file).string()); }

std::vector<std::string> words_of(const fs::path& html, const fs::path& pdf, const fs::path& scratch) {
  std::vector<std::string> words{"--headless",
                                 "--disable-gpu",
                                 "--no-first-run",
                                 "--no-default-browser-check",
                                 "--hide-scrollbars",
                                 "--no-pdf-header-footer",
                                 "--user-data-dir=" + fs::absolute(scratch / "profile").string(),
                                 "--print-to-pdf=" + fs::absolute(pdf).string()};
  // Where the system lets no process leave the network, these keep the browser from asking for anything.
  for (const char* quiet : {"--host-resolver-rules=MAP * ~NOTFOUND", "--proxy-server=socks5://127.0.0.1:9",
                            "--disable-background-networking", "--disable-component-update", "--disable-sync",
                            "--disable-extensions", "--disable-quic", "--disable-domain-reliability", "--no-pings"}) {
    words.emplace_back(quiet);
  }
  // The browser refuses to shut root in; the page has no script or file but its own.
  if (geteuid() == 0) words.emplace_back("--no-sandbox");
  words.push_back(address_of(html));
  return words;
}

std::string text_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

}  // namespace

std::string with_dates_of(std::string pdf, Day day) {
  std::string digits = date_text(day);
  std::erase(digits, '-');
  digits += "000000";
  for (const std::string_view key : {"/CreationDate (D:", "/ModDate (D:"}) {
    const std::size_t at = pdf.find(key);
    if (at != std::string::npos && at + key.size() + digits.size() <= pdf.size())
      pdf.replace(at + key.size(), digits.size(), digits);
  }
  return pdf;
}

Diagnostics print_to_pdf(const fs::path& html, const fs::path& pdf, const fs::path& scratch, Day day,
                         const std::string& program) {
  const fs::path printed = scratch / "page.pdf";
  const ProgramEnd end = run_apart({program, words_of(html, printed, scratch), scratch});
  if (!end.is_found) return {no_browser(program)};
  if (!end.is_well()) return {failed(program, end.said())};
  const std::string text = text_of(printed);
  if (!text.starts_with("%PDF") || text.find("%%EOF") == std::string::npos) return {failed(program, "it wrote no PDF")};
  return write_whole(pdf, with_dates_of(text, day).append(pdf_mark));
}

}  // namespace driftwarden
