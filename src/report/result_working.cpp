// SPDX-License-Identifier: MIT
#include "report/result_working.hpp"

#include <cmath>

#include "book/stamp_text.hpp"
#include "quantity/rounding.hpp"
#include "report/set_working.hpp"
#include "report/terminal_text.hpp"
#include "statistics/welch_satterthwaite.hpp"

namespace driftwarden {
namespace {

std::string u_text(const FigureUncertainty& of, bool is_concentration, bool is_of_fibres) {
  const std::string unit = is_concentration ? is_of_fibres ? " fibres/cm3" : " mg/m3"
                           : is_of_fibres   ? " fibres"
                                            : " mg";
  return "u = " + with_significant_digits(of.u, 3) + unit + ", effective degrees of freedom " +
         (of.dof > 9999 ? "> 9999" : with_decimals(whole_degrees_of_freedom(of.dof), 0)) +
         ", k = " + with_decimals(of.coverage_factor, 2) + ", U = " + with_significant_digits(of.expanded, 2) + unit +
         " (95 %)";
}

class ResultWorking {
 public:
  ResultWorking(const Screening& screening, const SampleResult& result, const ResultFigures& figures, std::size_t width)
      : screening_(screening),
        book_(screening.book()),
        result_(result),
        f_(*result.figures),
        figures_(figures),
        of_(book_.results[figures.result]),
        is_blank_(f_.kind == SampleKind::blank),
        width_(width) {}

  std::string text() {
    head();
    found();
    weighing();
    known_found();
    if (is_blank_) {
      line("A blank: what it carries speaks of the samples of its batch.");
      return std::move(out_);
    }
    blanks();
    controls();
    if (figures_.blanks->problem != no_problem || of_.problem != no_problem) {
      line("Nothing more is worked out: a row that it leans on can't be understood, see below.");
      return std::move(out_);
    }
    limit();
    net();
    by_volume();
    if (result_.standing == Verdict::void_) {
      line("The sample is void: no concentration of it stands, and it is never evidence that exposure was low.");
    } else if (!stands(result_)) {
      line("The sample is undecided: no concentration of it stands before what is lacking is there.");
    }
    return std::move(out_);
  }

 private:
  void line(std::string_view text, std::size_t indent = 4) { out_ += wrapped(for_terminal(text), indent, width_); }
  std::string amount(double figure) const { return amount_text(figure, of_.is_of_fibres); }
  // As it was written: a limit is no figure that was worked out.
  static std::string limit_text(const LaboratoryResult& of) {
    return shortest(of.limit) + (of.is_of_fibres ? " fibres" : " mg");
  }
  std::string air(double figure) const { return concentration_text(figure, of_.is_of_fibres); }
  std::string place(std::uint32_t number) const {
    return book_.place_text(book_.files.results, book_.results[number].place);
  }

  void head() {
    std::string text = of_.analyte;
    if (!of_.laboratory.empty()) text += ", by " + of_.laboratory;
    if (of_.reported != no_day) text += ", reported " + date_text(of_.reported);
    if (!of_.balance.empty()) text += ", balance " + of_.balance;
    if (!of_.qualifier.empty()) text += ", qualifier '" + of_.qualifier + "'";
    line(text + "   [" + place(figures_.result) + "]", 2);
    if (!of_.note.empty()) line("Note: " + of_.note);
  }

  void found() {
    if (of_.is_less_than()) return line("found: less than " + limit_text(of_));
    if (is_missing(of_.found)) return line("found: not known");
    if (of_.is_weighed()) {
      line("found = weight after - weight before = " + shortest(of_.after_mg) + " - " + shortest(of_.before_mg) +
           " = " + amount(of_.found));
    } else {
      line("found = " + amount(of_.found));
    }
  }

  // On which balance, and by which certificates of it.
  void weighing() {
    const Weighing& weighing = figures_.weighing;
    if (weighing.balance == no_row) return;
    if (!weighing.has_days())
      return line("When it was weighed nobody says: which certificate of " + of_.balance +
                  " was in force is not known.");
    weight("before", weighing.before, of_.weighed_before != no_day);
    weight("after", weighing.after, of_.weighed_after != no_day);
  }

  void weight(std::string_view which, const Weighing::Weight& weight, bool is_said) {
    std::string text = "weight " + std::string(which) + " taken on " + date_text(weight.day);
    if (!is_said)
      text += which == "after" ? ", the day of the report, for no other is written"
                               : ", as the one after, for no day is written";
    if (weight.certificate < 0) return line(text + ": no certificate of " + of_.balance + " was in force");
    const Certificate& certificate = book_.certificates[static_cast<std::size_t>(weight.certificate)];
    text += ": certificate " + certificate.name + " [" + book_.place_text(book_.files.certificates, certificate.place) +
            "]";
    const Day due = screening_.basis().calibrators.due(weight.certificate);
    if (due != no_day) text += (weight.day > due ? ", overdue since " : ", due on ") + date_text(due);
    text += is_missing(weight.u_mg) ? "; it states no uncertainty there"
                                    : "; u of the weight = " + with_significant_digits(weight.u_mg, 3) + " mg";
    line(text);
  }

  void known_found() {
    if (is_missing(of_.found)) return;
    if (is_missing(figures_.of_found.expanded)) return line("No uncertainty of it is on record.");
    if (figures_.is_by_balance) {
      const Weighing& weighing = figures_.weighing;
      return line("u of it = √(" + with_significant_digits(weighing.after.u_mg, 3) + "² + " +
                  with_significant_digits(weighing.before.u_mg, 3) +
                  "²) = " + with_significant_digits(figures_.of_found.u, 3) +
                  " mg, by the balance's certificate, for the row states none");
    }
    const bool is_usual = is_missing(of_.coverage_factor);
    line("u of it = " + with_significant_digits(figures_.of_found.u, 3) + (of_.is_of_fibres ? " fibres" : " mg") +
         ", the expanded uncertainty over " + shortest(is_usual ? usual_coverage_factor : of_.coverage_factor) +
         (is_usual ? ", the usual factor, for none is written" : ""));
    if (of_.coverage_factor > usual_coverage_factor)
      line("A factor above 2 may come of few degrees of freedom, or of a wider coverage: u is taken as well known.");
  }

  void blanks() {
    const BatchBlanks& blanks = *figures_.blanks;
    if (blanks.results.empty()) return line("No field blank of its batch has a result of " + of_.analyte + ".");
    line("Field blanks of its batch, " + std::to_string(blanks.results.size()) + " for " +
         counted(blanks.samples, "sample", "samples") + ":");
    for (const std::uint32_t number : blanks.results) {
      const LaboratoryResult& blank = book_.results[number];
      const std::string what = blank.problem != no_problem ? "can't be understood"
                               : blank.is_less_than()      ? "less than " + limit_text(blank) + ", counted as nothing"
                                                           : amount(blank.found);
      line(std::string(book_.samples.name[blank.sample]) + ": " + what + above(blank) + "   [" + place(number) + "]",
           6);
    }
    if (blanks.problem != no_problem) return;
    line("mean of them = " + amount(blanks.amounts.mean) +
         ", s (n - 1) = " + (is_missing(blanks.amounts.s) ? "none" : amount(blanks.amounts.s)));
  }

  void controls() {
    const BatchControls& controls = *figures_.controls;
    if (controls.filters.empty()) return;
    line("Control filters weighed with its batch, " + std::to_string(controls.filters.size()) + ":");
    for (const std::uint32_t number : controls.filters) {
      const ControlFilter& control = book_.controls[number];
      line(control.name + ": " + (control.problem != no_problem ? "can't be understood" : amount(control.change_mg)) +
               "   [" + book_.place_text(book_.files.results, control.place) + "]",
           6);
    }
    if (controls.problem != no_problem) return;
    line("mean change = " + amount(controls.changes.mean) +
         ", s (n - 1) = " + (is_missing(controls.changes.s) ? "none" : amount(controls.changes.s)));
  }

  std::string above(const LaboratoryResult& blank) const {
    if (is_missing(blank.limit) || blank.is_less_than()) return "";
    return (is_above_limit(blank) ? ", above its limit of " : ", limit ") + limit_text(blank);
  }

  void limit() {
    if (is_missing(of_.limit)) return line("No limit of the laboratory is on record.");
    if (!of_.is_less_than()) line("limit of the laboratory: " + limit_text(of_));
  }

  void net() {
    if (of_.is_less_than()) return line("From a limit nothing is taken off.");
    if (figures_.taken_off == TakenOff::controls) return net_of_controls();
    const bool is_taken_off = figures_.taken_off == TakenOff::blanks;
    if (!is_taken_off) {
      line("m = found = " + amount(figures_.net) + ": no blank is taken off");
    } else if (is_missing(figures_.net)) {
      line("m = found - mean of the blanks can't be worked out: there is no blank");
    } else {
      line("m = found - mean of the blanks = " + amount(of_.found) + " - " + amount(figures_.blanks->amounts.mean) +
           " = " + amount(figures_.net));
    }
    practice("blank_correction");
    if (is_taken_off) known_blanks();
    const bool names_controls = screening_.basis().practice.control_correction == ControlCorrection::mean;
    if (is_taken_off && names_controls && !figures_.controls->filters.empty())
      line("The control filters are not taken off beside the blanks: what the weighing room did is in these, too.");
    stays_less_than();
  }

  void stays_less_than() {
    if (figures_.is_less_than) line("It lies below the laboratory's limit, and stays less than " + limit_text(of_));
  }

  void net_of_controls() {
    const BatchControls& controls = *figures_.controls;
    if (is_missing(figures_.net)) {
      line("m = found - mean change of the control filters can't be worked out: there is no control filter");
    } else {
      line("m = found - mean change of the control filters = " + amount(of_.found) + " - " +
           signed_amount(controls.changes.mean) + " = " + amount(figures_.net));
    }
    practice("control_correction");
    if (controls.filters.size() == 1) {
      line("One control filter does not tell how they scatter: no uncertainty is stated.");
    } else if (!is_missing(figures_.of_blank.u)) {
      line("u of what is taken off = " + with_significant_digits(figures_.of_blank.u, 3) + " mg, by s x √(1 + 1/" +
           std::to_string(controls.filters.size()) + ")");
    }
    stays_less_than();
  }

  // In brackets where it is below nothing: "- (-0.002 mg)".
  std::string signed_amount(double figure) const { return figure < 0 ? "(" + amount(figure) + ")" : amount(figure); }

  void known_blanks() {
    const BatchBlanks& blanks = *figures_.blanks;
    if (blanks.results.size() == 1)
      return line("One blank does not tell how blanks scatter: no uncertainty is stated.");
    if (is_missing(figures_.of_blank.u)) return;
    line("u of the blank that is taken off = " + with_significant_digits(figures_.of_blank.u, 3) +
         (of_.is_of_fibres ? " fibres" : " mg") + ", by s x √(1 + 1/" + std::to_string(blanks.results.size()) + ")" +
         (blanks.unseen == 0 ? ""
                             : " and, for " + std::to_string(blanks.unseen) + " of them, anything up to the limit of " +
                                   amount(blanks.unseen_limit)));
  }

  void by_volume() {
    const std::string sign = figures_.is_less_than ? "c < " : "c = ";
    const double formed_of = figures_.is_less_than ? of_.limit : figures_.net;
    if (is_missing(figures_.concentration)) {
      if (!is_missing(formed_of)) line("c can't be worked out: the volume is not known");
      return;
    }
    const bool is_at_reference = screening_.basis().practice.concentration_volume == ConcentrationVolume::reference;
    const std::string volume = with_decimals(figures_.volume_l, 2) + " L";
    line(sign +
         (of_.is_of_fibres ? amount(formed_of) + " / (1000 x " + volume + ")"
                           : "1000 x " + amount(formed_of) + " / " + volume) +
         " = " + air(figures_.concentration) + ", in air at " +
         (is_at_reference ? "reference conditions" : "actual conditions"));
    practice("concentration_volume");
    known_concentration();
    beside(sign);
  }

  void known_concentration() {
    if (figures_.is_less_than) return line("No uncertainty is stated of a concentration that is less than something.");
    if (!is_missing(figures_.of_concentration.expanded)) {
      line(u_text(figures_.of_concentration, true, of_.is_of_fibres) + " = " +
           with_significant_digits(100 * figures_.of_concentration.expanded / std::abs(figures_.concentration), 2) +
           " %, by the amount, " + std::string(taken_off()) + " and the volume");
    } else if (f_.is_conventional) {
      line("No uncertainty is stated of it: its volume is a convention, and nobody measured it.");
    } else {
      line("No uncertainty is stated of it: that of the amount, " + std::string(taken_off()) +
           " or the volume is missing.");
    }
  }

  std::string_view taken_off() const {
    return figures_.taken_off == TakenOff::controls ? "the control filters" : "the blanks";
  }

  // The other volumes that it might have been formed with.
  void beside(const std::string& sign) {
    if (f_.is_conventional && !is_missing(figures_.by_measured_volume)) {
      std::string text = "By the volume as measured, " + sign + air(figures_.by_measured_volume);
      if (!is_missing(figures_.of_measured.expanded))
        text += ", " + u_text(figures_.of_measured, true, of_.is_of_fibres);
      line(text);
    } else if (!is_missing(figures_.by_nominal_flow) && screening_.basis().mass_change(f_)) {
      line("By the nominal flow, " + sign + air(figures_.by_nominal_flow) +
           "; what either volume is off by, the model of the sampler says above");
    }
  }

  void practice(std::string_view key) {
    if (const std::string text = practice_text(screening_, key); !text.empty()) line(text);
  }

  const Screening& screening_;
  const Book& book_;
  const SampleResult& result_;
  const SampleAssessment& f_;
  const ResultFigures& figures_;
  const LaboratoryResult& of_;
  bool is_blank_;
  std::size_t width_;
  std::string out_;
};

}  // namespace

std::string amount_text(double amount, bool is_of_fibres) {
  return with_significant_digits(amount, 4) + (is_of_fibres ? " fibres" : " mg");
}

std::string concentration_text(double concentration, bool is_of_fibres) {
  return with_significant_digits(concentration, 4) + (is_of_fibres ? " fibres/cm3" : " mg/m3");
}

bool stands(const SampleResult& result) {
  return result.standing != Verdict::void_ && result.standing != Verdict::undecided;
}

std::string result_working(const Screening& screening, const SampleResult& result, std::size_t width) {
  std::string text;
  for (const ResultFigures& figures : result.results) text += ResultWorking(screening, result, figures, width).text();
  return text +
         wrapped(
             "No concentration is held to a limit of exposure here: that takes the method, the law and whoever knows "
             "the work.",
             2, width);
}

}  // namespace driftwarden
