// SPDX-License-Identifier: MIT
#include "report/custody_sheet.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "book/stamp_text.hpp"
#include "diagnostic/joined.hpp"
#include "quantity/rounding.hpp"
#include "report/csv_text.hpp"
#include "report/paint.hpp"
#include "report/printed_figures.hpp"
#include "report/terminal_text.hpp"
#include "verdict/cautions.hpp"
#include "verdict/message.hpp"
#include "verdict/remarks.hpp"
#include "verdict/verdict_key.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t most_sample_width = 14;

// Parts of "2026-11-01T01:30-06:00": date, offset.
std::string date_part(const std::string& text) { return text.substr(0, std::min<std::size_t>(10, text.size())); }
std::string offset_part(const std::string& text) {
  const std::size_t at = text.find_last_of("Z+-");
  return at == std::string::npos || at < 16 ? "" : text.substr(at);
}

// An address in one line.
std::string in_a_line(const std::vector<std::string>& address) { return joined(address, ", "); }

void set_times(CustodyLine& line, const Book& book, Row row) {
  line.started = local_text(book.samples.started[row], book.settings.zone);
  line.stopped = local_text(book.samples.stopped[row], book.settings.zone);
  line.date = date_part(line.started);
  line.start = time_of_day_text(book.samples.started[row], book.settings.zone);
  line.stop = time_of_day_text(book.samples.stopped[row], book.settings.zone);
  if (offset_part(line.started) != offset_part(line.stopped) && !line.start.empty() && !line.stop.empty()) {
    line.start += " " + offset_part(line.started);
    line.stop += " " + offset_part(line.stopped);
  }
  if (!line.stop.empty() && date_part(line.stopped) != line.date) line.stop = date_part(line.stopped) + " " + line.stop;
}

void set_figures(CustodyLine& line, const Screening& screening, const SampleResult& result) {
  const SampleAssessment& f = *result.figures;
  const SampleFigures printed = figures_of(screening, result);
  line.minutes_min = f.minutes;
  line.minutes = printed.minutes;
  if (line.standing == Verdict::void_) return;
  line.flow_l_min = f.flow_l_min;
  line.volume_l = f.volume_l;
  line.volume_reference_l = f.volume_reference_l;
  if (!is_missing(f.volume_l)) line.volume_is = volume_is(f);
  line.measured_volume_l = f.measured_volume_l;
  line.measured_expanded_l = result.budget.about(BudgetFigure::volume).expanded;
  line.flow = with_decimals(f.flow_l_min, 3);
  line.volume = printed.volume;
  line.volume_reference = printed.volume_reference;
}

void set_remarks(CustodyLine& line, const Screening& screening, const SampleResult& result) {
  const Book& book = screening.book();
  const std::string note = words_of(book, book.samples.note, result.figures->sample);
  if (line.standing != line.verdict) line.remarks.push_back(standing_text(result));
  if (!is_missing(line.volume_l)) {
    for (const std::string& remark : volume_remarks(screening, result)) line.remarks.push_back("remark: " + remark);
  }
  for (const Finding& finding : result.findings) {
    const Outcome outcome = finding.judgement.outcome;
    if (outcome == Outcome::note) continue;
    const bool is_reason = outcome == Outcome::void_ && line.standing == Verdict::void_;
    std::string text = (is_reason ? "" : std::string(to_text(outcome)) + ": ") +
                       message_of(screening, result, finding) + " (" + rule_name(screening, finding) + ")";
    if (finding.decision != nullptr) text += "; " + decision_text(book, *finding.decision);
    (is_reason ? line.reasons : line.remarks).push_back(text);
  }
  const auto has_the_note = [&](const std::string& text) { return text.find(note) != std::string::npos; };
  const bool is_said = std::any_of(line.reasons.begin(), line.reasons.end(), has_the_note) ||
                       std::any_of(line.remarks.begin(), line.remarks.end(), has_the_note);
  if (!note.empty() && !is_said) line.remarks.insert(line.remarks.begin(), "noted: " + note);
}

std::string totals_text(const CustodySheet& sheet) {
  const std::size_t blanks = sheet.blanks();
  return counted(sheet.lines.size() - blanks, "sample", "samples") + ", " + counted(blanks, "blank", "blanks") + "; " +
         std::to_string(sheet.voids.size()) + " void, listed apart";
}

// "; method: 7" behind other particulars
void append_particular(std::string& text, std::string_view name, const std::string& word) {
  text += (text.empty() ? "" : "; ") + std::string(name) + ": " + (word.empty() ? std::string(not_said) : word);
}

std::string usual_particulars(const CustodySheet& sheet) {
  std::string text;
  for (const SharedParticular& each : shared_particulars) append_particular(text, each.name, sheet.usual(each));
  return text;
}

std::string particulars_of(const CustodySheet& sheet, const CustodyLine& line) {
  std::string text;
  if (!line.pump.empty()) append_particular(text, "pump", line.pump);
  if (!line.medium.empty()) append_particular(text, "medium", line.medium);
  const std::string unlike = sheet.unlike_usual(line);
  return text + (text.empty() || unlike.empty() ? "" : "; ") + unlike;
}

// The sheet as lines of text.
class Table {
 public:
  explicit Table(const CustodySheet& sheet) : sheet_(sheet), common_(sheet.common_remarks()) {
    for (const CustodyLine& line : sheet.lines) width_ = std::max(width_, characters_in(for_terminal(line.sample)));
    width_ = std::min(width_, most_sample_width);
  }

  std::string text() {
    add(sheet_.title);
    add("Chain of custody, batch " + sheet_.batch + ": " + totals_text(sheet_));
    add("Times: " + sheet_.zone + ". Flow in L/min and volume in L are actual; ref. is the volume in L at " +
        sheet_.reference + ".");
    add_consignment();
    add("Unless said otherwise, " + usual_particulars(sheet_) + ".");
    for (const std::string& remark : common_) add("Of every sample listed: " + remark + ".");
    out_ += "\n" + left("sample", width_) + " " + left("date", 10) + " " + left("start", 5) + " " + left("stop", 5) +
            " " + right("min", 5) + " " + right("flow", 6) + " " + right("volume", 7) + " " + right("ref.", 7) + "\n";
    for (const CustodyLine& line : sheet_.lines) add_line(line);
    if (!sheet_.voids.empty()) add_voids();
    out_ += '\n';
    add(verdict_key_text(KeyOf::verdicts));
    out_ += '\n';
    add(std::string(cautions));
    add_hand_overs();
    return std::move(out_);
  }

 private:
  void add(const std::string& text, std::size_t indent = 0) {
    out_ += wrapped(for_terminal(text), indent, table_width);
  }

  void add_consignment() {
    const Settings::Consignment& said = sheet_.consignment;
    for (const auto& [name, text] : {std::pair<const char*, std::string>{"From: ", in_a_line(said.sender)},
                                     {"To: ", in_a_line(said.laboratory)},
                                     {"The laboratory's reference: ", said.reference}}) {
      if (!text.empty()) add(name + text);
    }
  }

  void add_line(const CustodyLine& line) {
    const std::string name = for_terminal(line.sample);
    const bool name_fits = characters_in(name) <= width_;
    const bool times_fit = line.start.size() <= 5 && line.stop.size() <= 5;
    if (!name_fits) add(line.sample);
    std::string text = left(name_fits ? name : "", width_) + " " + left(line.is_blank ? "blank" : line.date, 10) + " " +
                       left(times_fit ? line.start : "", 5) + " " + left(times_fit ? line.stop : "", 5) + " " +
                       right(line.minutes, 5) + " " + right(line.flow, 6) + " " + right(line.volume, 7) + " " +
                       right(line.volume_reference, 7);
    text.resize(text.find_last_not_of(' ') + 1);
    out_ += text + "\n";
    if (!times_fit) add("- from " + line.start + " to " + line.stop, width_ + 1);
    const std::string particulars = particulars_of(sheet_, line);
    if (!particulars.empty()) add("- " + particulars, width_ + 1);
    for (const std::string& remark : without(common_, line.remarks)) add("- " + remark, width_ + 1);
  }

  void add_voids() {
    out_ += "\nVoid: no air volume is stated for these\n";
    for (const CustodyLine& line : sheet_.voids) {
      add(line.sample + (line.is_blank ? ", blank" : "") + (line.date.empty() ? "" : ", " + line.date));
      const std::string particulars = particulars_of(sheet_, line);
      if (!particulars.empty()) add("- " + particulars, 2);
      for (const std::string& reason : line.reasons) add("- " + reason, 2);
      for (const std::string& remark : line.remarks) add("- " + remark, 2);
    }
  }

  void add_hand_overs() {
    out_ += "\n" + left("relinquished by", 20) + " " + left("received by", 20) + " " + left("date and time", 17) +
            " condition\n";
    const auto rule = [](std::size_t width) { return std::string(width, '_'); };
    for (int i = 0; i < hand_overs; ++i)
      out_ += "\n" + rule(20) + " " + rule(20) + " " + rule(17) + " " + rule(20) + "\n";
  }

  const CustodySheet& sheet_;
  const std::vector<std::string> common_;
  std::size_t width_ = 6;
  std::string out_;
};

void append_csv_line(std::string& out, const CustodySheet& sheet, const CustodyLine& line) {
  const auto cell = [&out](const std::string& text, char behind = ',') {
    append_csv_for_people(out, text);
    out += behind;
  };
  const auto figure = [&out](double value) {
    append_figure(out, value);
    out += ',';
  };
  cell(line.sample);
  cell(sheet.batch);
  cell(line.is_blank ? "blank" : "sample");
  cell(std::string(to_text(line.verdict)));
  cell(line.standing == line.verdict ? "" : std::string(to_text(line.standing)));
  cell(line.date);
  cell(line.started);
  cell(line.stopped);
  figure(line.minutes_min);
  figure(line.flow_l_min);
  figure(line.volume_l);
  figure(line.volume_reference_l);
  cell(line.method);
  cell(line.analysis);
  cell(joined(line.remarks, "; "));
  cell(joined(line.reasons, "; "));
  cell(line.volume_is);
  figure(line.measured_volume_l);
  figure(line.measured_expanded_l);
  for (const std::string& text :
       {line.pump, line.sampler, line.medium, line.taken_by, in_a_line(sheet.consignment.sender),
        in_a_line(sheet.consignment.laboratory), sheet.consignment.reference})
    cell(text);
  cell(std::string(cautions), '\n');
}

}  // namespace

std::size_t CustodySheet::blanks() const {
  return static_cast<std::size_t>(
      std::count_if(lines.begin(), lines.end(), [](const CustodyLine& line) { return line.is_blank; }));
}

std::size_t CustodySheet::undecided() const {
  return static_cast<std::size_t>(std::count_if(
      lines.begin(), lines.end(), [](const CustodyLine& line) { return line.standing == Verdict::undecided; }));
}

Sayings CustodySheet::common_remarks() const {
  std::vector<const Sayings*> of_samples;
  for (const CustodyLine& line : lines) {
    if (!line.is_blank) of_samples.push_back(&line.remarks);
  }
  return said_of_all(of_samples);
}

void CustodySheet::add(CustodyLine line) {
  (line.standing == Verdict::void_ ? voids : lines).push_back(std::move(line));
}

std::string CustodySheet::usual(const SharedParticular& particular) const {
  std::map<std::string_view, std::size_t> counts;
  std::string_view most;
  for (const std::vector<CustodyLine>* part : {&lines, &voids}) {
    for (const CustodyLine& line : *part) {
      const std::string_view text = line.*particular.text;
      if (!text.empty() && ++counts[text] > counts[most]) most = text;
    }
  }
  return std::string(most);
}

std::string CustodySheet::unlike_usual(const CustodyLine& line) const {
  std::string text;
  for (const SharedParticular& each : shared_particulars) {
    const std::string& word = line.*each.text;
    if (word == usual(each) || (word.empty() && line.is_blank && each.is_of_samples_only)) continue;
    append_particular(text, each.name, word);
  }
  return text;
}

CustodyLine custody_line(const Screening& screening, const SampleResult& result) {
  const Book& book = screening.book();
  const Row row = result.figures->sample;
  CustodyLine line;
  line.sample = book.samples.name[row];
  line.is_blank = result.figures->kind == SampleKind::blank;
  line.verdict = result.verdict;
  line.standing = result.standing;
  set_times(line, book, row);
  if (!line.is_blank) set_figures(line, screening, result);
  const Row pump = book.samples.pump[row];
  if (pump != no_row) line.pump = book.instruments[pump].name;
  for (const auto& [text, column] : {std::pair{&CustodyLine::medium, &SampleTable::medium},
                                     {&CustodyLine::analysis, &SampleTable::analysis},
                                     {&CustodyLine::method, &SampleTable::method},
                                     {&CustodyLine::sampler, &SampleTable::sampler},
                                     {&CustodyLine::taken_by, &SampleTable::by}})
    line.*text = words_of(book, book.samples.*column, row);
  set_remarks(line, screening, result);
  return line;
}

std::string custody_table(const CustodySheet& sheet) { return Table(sheet).text(); }

std::string custody_csv(const CustodySheet& sheet) {
  std::string out =
      "sample,batch,kind,verdict,by_decision,date,started,stopped,minutes,flow_l_min,volume_l,volume_reference_l,"
      "method,analysis,remarks,void_because,volume_is,measured_volume_l,measured_volume_expanded_uncertainty_l,"
      "pump,sampler,medium,taken_by,sender,laboratory,laboratory_reference,cautions\n";
  for (const CustodyLine& line : sheet.lines) append_csv_line(out, sheet, line);
  for (const CustodyLine& line : sheet.voids) append_csv_line(out, sheet, line);
  return out;
}

}  // namespace driftwarden
