// SPDX-License-Identifier: MIT
#include "evidence/read_me.hpp"

#include <algorithm>

#include "diagnostic/characters.hpp"
#include "evidence/bag_layout.hpp"
#include "quantity/rounding.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

std::string shown(const std::string& text) { return shows_itself(text) ? text : in_quotes(text); }

std::string head(const ReadMe& read_me) {
  const Totals& totals = read_me.totals;
  std::string text =
      "READ ME FIRST\n\nEvidence of air-sampling flow\n\n  Book      " + shown(read_me.title) + "\n  Covers    ";
  if (read_me.note.batches.empty()) text += "the whole book";
  for (std::size_t i = 0; i < read_me.note.batches.size(); ++i)
    text += (i == 0 ? "batch " : ", batch ") + shown(read_me.note.batches[i]);
  text += "\n  As of     " + read_me.note.as_of + "\n  Made by   driftwarden " + read_me.note.version +
          "\n  Results   " + counted(totals.samples, "sample", "samples and blanks") + ": " +
          std::to_string(totals.valid) + " valid, " + std::to_string(totals.qualified) + " qualified, " +
          std::to_string(totals.undecided) + " undecided, " + std::to_string(totals.void_) + " void\n";
  if (read_me.faults > 0) {
    text +=
        "  Faults    " + std::to_string(read_me.faults) +
        " records of the book could not be understood; what they touch is\n            undecided. They are listed at "
        "the end of data/results/screen.json.\n";
  }
  for (const AlteredPack& pack : read_me.altered) {
    text += "  ALTERED   " + to_text(pack) + ":\n";
    for (const std::string& difference : pack.differences) text += "            " + difference + "\n";
  }
  return text + "\n";
}

std::string_view charts_line(const PackageNote& note) {
  if (note.charts_of == ChartsOf::none) return "  (no charts: none were asked for)\n";
  if (!note.has_charts) return "  data/charts/         MISSING: the program gnuplot was not there to draw them\n";
  return note.charts_of == ChartsOf::all ? "  data/charts/         control charts of all instruments of the book\n"
                                         : "  data/charts/         control charts of the instruments used\n";
}

std::string contents(const PackageNote& note) {
  std::string text =
      "What is here\n"
      "\n"
      "  data/book/           the records as they were given, byte for byte\n"
      "  data/rules/          the shipped rule packs that they were judged by\n"
      "  data/rows-used.csv   which rows of those files the results lean on\n"
      "  data/results/        verdicts: screen.txt to read, screen.csv and screen.json\n"
      "                       for programs; history of the instruments: history.csv,\n"
      "                       history.json\n"
      "  data/workings/       one text a sample: every figure, formula and rule, down to\n"
      "                       the file and line; index.csv says which sample is where\n"
      "  data/review.html     the review page of that day, to open in a browser\n";
  text += charts_line(note);
  text += "  data/package.json    what the package was made by and of\n";
  if (note.is_signed) {
    text +=
        "  signature.ed25519    signature of tagmanifest-sha512.txt\n"
        "  signed-by.pem        the public key it was made with\n";
  }
  return text +
         "  bagit.txt, bag-info.txt, manifest-sha512.txt, tagmanifest-sha512.txt\n"
         "                       make the folder a BagIt bag (RFC 8493)\n\n";
}

std::string how_to_check(const PackageNote& note) {
  std::string text =
      "How to check that nothing was changed\n"
      "\n"
      "  In this folder, with nothing but GNU coreutils:\n"
      "\n"
      "    sha512sum -c --quiet tagmanifest-sha512.txt\n"
      "    sha512sum -c --quiet manifest-sha512.txt\n"
      "\n"
      "  Neither tells of files that were added; any BagIt validator does.\n";
  if (note.is_signed) {
    text +=
        "  The signature, with OpenSSL and a key that you got from the signer, not from here:\n"
        "\n"
        "    openssl pkeyutl -verify -rawin -pubin -inkey KEY.pem \\\n"
        "      -sigfile signature.ed25519 -in tagmanifest-sha512.txt\n"
        "\n";
  } else {
    text += "  The package is not signed: whoever changes a file can change its digest, too.\n";
  }
  return text +
         "  All of this, and the results worked out anew from the records in this package:\n"
         "\n"
         "    driftwarden verify .\n\n";
}

// A text behind a beginning of a line, broken at blanks into lines of at most 79 bytes under each other.
void put_behind(std::string& out, std::string line, std::string_view text) {
  const std::size_t indent = line.size();
  const std::size_t width = 79 - indent;
  while (text.size() > width) {
    std::size_t end = text.rfind(' ', width);
    if (end == std::string_view::npos) end = std::min(text.find(' '), text.size());
    out += line + std::string(text.substr(0, end)) + '\n';
    text.remove_prefix(std::min(end + 1, text.size()));
    line.assign(indent, ' ');
  }
  if (!text.empty()) out += line + std::string(text) + '\n';
}

void put(std::string& out, std::string_view label, std::string_view text) {
  std::string line = std::string(5, ' ') + std::string(label);
  line.resize(15, ' ');
  put_behind(out, line, text);
}

std::string cautions_text() {
  std::string text = "Cautions\n\n";
  put_behind(text, "  ", cautions);
  return text + "\n";
}

// "points 4, 6", or "nothing".
std::string points_with_gaps(const std::vector<AskedRecord>& records) {
  std::string text;
  for (std::size_t i = 0; i < records.size(); ++i) {
    if (!records[i].missing.empty()) text += (text.empty() ? "points " : ", ") + std::to_string(i + 1);
  }
  return text.empty() ? "nothing that a book has a place for" : text;
}

std::string asked(const std::vector<AskedRecord>& records) {
  std::string text =
      "What is asked of such records, where it is, and what is missing\n"
      "\n"
      "  Missing: " +
      points_with_gaps(records) +
      "\n"
      "\n"
      "  Only records that the results lean on are counted. What stands under \"ask for\"\n"
      "  has no place in a book: somebody else keeps it. A * marks a clause whose number\n"
      "  is from memory: look it up before you lean on it.\n\n";
  std::size_t number = 0;
  for (const AskedRecord& record : records) {
    text += "  " + std::to_string(++number) + ". " + record.what + "\n";
    put(text, "asked by", record.asked_by);
    put(text, "here", record.place);
    for (const std::string& gap : record.missing) put(text, "MISSING", gap);
    for (const std::string& other : record.elsewhere) put(text, "ask for", other);
    text += "\n";
  }
  return text;
}

}  // namespace

std::string read_me_text(const ReadMe& read_me) {
  return head(read_me) + cautions_text() + contents(read_me.note) + how_to_check(read_me.note) + asked(read_me.asked);
}

}  // namespace driftwarden
