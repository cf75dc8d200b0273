// SPDX-License-Identifier: MIT
#include "report/mass_working.hpp"

#include "aerosol/slip.hpp"
#include "quantity/rounding.hpp"
#include "report/set_working.hpp"
#include "report/terminal_text.hpp"
#include "verdict/measured.hpp"

namespace driftwarden {
namespace {

// "2", "1 to 15"
std::string figures_text(const Bounds& range) { return from_to(range, shortest); }

// A share of the mass, "37.96 %", "11.24 % to 97.10 %".
std::string share_text(const Bounds& share) {
  return from_to(share, [](double part) { return with_decimals(100 * part, 2) + " %"; });
}

// An error, "+5.34 %", "+0.30 % to +11.84 %".
std::string error_text(const Bounds& ratios) {
  return from_to(ratios, [](double ratio) { return signed_percent(ratio, 2); });
}

class MassWorking {
 public:
  MassWorking(const Screening& screening, const SampleResult& result, const MassChange& change, std::size_t width)
      : screening_(screening),
        book_(screening.book()),
        result_(result),
        f_(*result.figures),
        change_(change),
        law_(change.preselector.cut),
        errors_(change.errors),
        width_(width) {}

  std::string text() {
    curve();
    if (is_missing(law_.nominal_um)) return std::move(out_);  // and why, the curve says
    if (is_missing(f_.mean_flow_l_min)) {
      line("can't be worked out: a flow is missing");
      return std::move(out_);
    }
    if (is_missing(change_.cut_um.lower)) {
      line("The mean flow as measured, " + flow_text(f_.mean_flow_l_min) +
           " L/min, lies outside those flows: what it did to the cut is not known.");
      return std::move(out_);
    }
    cut();
    aerosol();
    if (is_missing(errors_.by_actual_volume.lower)) {
      line(
          "So little of the coarsest comes through that no ratio can be formed of it: what the flow did to the mass is "
          "not known.");
      return std::move(out_);
    }
    shares();
    shifts();
    bias();
    model();
    return std::move(out_);
  }

 private:
  void line(std::string_view text, std::size_t indent = 2) { out_ += wrapped(for_terminal(text), indent, width_); }

  // The sampler as it is described.
  void curve() {
    const TextId name = field(book_.samples.sampler, f_.sample, TextId{0});
    const auto found = screening_.rules().samplers.find(book_.texts.text(name));
    if (found == screening_.rules().samplers.end()) return;
    const Sampler& sampler = found->second;
    line("50 % cut size d50 = " + shortest(*sampler.cut_um) + " µm at " + shortest(*sampler.nominal_l_min) +
         " L/min, spread " + shortest(change_.preselector.spread));
    const std::string kind = sampler.cut_kind ? " (" + std::string(word_of(*sampler.cut_kind)) + ")" : "";
    line("Law of the cut" + kind + ": " + law_text() + ", over flows from " + shortest(law_.flows_l_min.lower) +
         " to " + shortest(law_.flows_l_min.upper) + " L/min. Source: " + sampler.cut_source + " [" +
         to_text(sampler.place) + "]");
    if (law_.nominal_l_min != *sampler.nominal_l_min) own_nominal_flow();
  }

  void own_nominal_flow() {
    const std::string flow = "The sample's own nominal flow is " + shortest(law_.nominal_l_min) + " L/min";
    if (!is_missing(law_.nominal_um)) return line(flow + ": there d50 = " + with_decimals(law_.nominal_um, 3) + " µm");
    line(flow + (change_.is_known
                     ? ", which lies outside those flows: what d50 is there, and what the flow did to it, is not "
                       "known."
                     : ": what d50 is there, and what the flow did to it, is not known without the exponent."));
  }

  std::string law_text() const {
    if (law_.mean_free_path_um > 0) {
      return "d50 x √C goes as the flow to the power " + shortest(-law_.exponent) + ", C being the slip correction";
    }
    if (change_.is_known) return "d50 goes as the flow to the power " + shortest(-law_.exponent);
    return "nobody states with which exponent d50 goes with the flow";
  }

  void cut() {
    const std::string flows = "(" + flow_text(f_.mean_flow_l_min) + " / " + flow_text(f_.nominal_l_min) + ")";
    if (!change_.is_known) {
      line("With exponents of " + figures_text(change_.exponents) +
           ", between which most of the literature's lie (from memory), d50 = " +
           with_decimals(change_.cut_um.lower, 3) + " to " + with_decimals(change_.cut_um.upper, 3) +
           " µm at the mean flow as measured. All that follows is a range over them, and for rules cut.size, "
           "mass.shift and mass.bias are missing: give cut_exponent to have a verdict.");
      return;
    }
    const std::string power = with_decimals(law_.nominal_um, 3) + " x " + flows + "^" + shortest(-law_.exponent);
    const std::string figure = with_decimals(f_.cut_um, 3) + " µm";
    const std::string change = "; cut.shift = " + with_decimals(f_.cut_um, 3) + " / " +
                               with_decimals(law_.nominal_um, 3) + " - 1 = " + signed_percent(f_.cut_shift, 2);
    if (law_.mean_free_path_um > 0) {
      const double slip = slip_correction(law_.nominal_um, law_.mean_free_path_um);
      line("cut.size: d50 x √C = " + with_decimals(law_.nominal_um, 3) + " x √" + with_decimals(slip, 4) + " x " +
           flows + "^" + shortest(-law_.exponent) + ", so d50 = " + figure + change);
    } else {
      line("cut.size: d50 = " + power + " = " + figure + change);
    }
  }

  void aerosol() {
    const AerosolFamily family = aerosols_of(book_.settings);
    const std::string sizes = "mass median diameter " + figures_text(family.mmad_um) + " µm" +
                              ", geometric standard deviation " + figures_text(family.gsd);
    if (book_.settings.aerosol) {
      line("Aerosol: " + sizes + ": " + book_.settings.aerosol->source + " [" + to_text(book_.settings.aerosol->place) +
           "]");
    } else {
      line(
          "Nobody states the aerosol ([aerosol] in book.toml), so each figure below is the range over all lognormal "
          "ones of " +
          sizes + ".");
    }
  }

  void shares() {
    const AerosolFamily family = aerosols_of(book_.settings);
    const bool is_one_aerosol = is_one(family);
    line("F, the share of its mass that comes through, = Φ( ln(d50 / " +
         (is_one_aerosol ? shortest(family.mmad_um.lower) : "mass median") + ") / √(ln²" +
         shortest(change_.preselector.spread) + " + ln²" + (is_one_aerosol ? shortest(family.gsd.lower) : "deviation") +
         ") ), Φ being the standard normal distribution: " + share_text(errors_.share_at_nominal) +
         " at the nominal flow, " + share_text(errors_.share_at_flow) + " at this one");
  }

  void shifts() {
    line("mass.shift.actual  = F / F_nominal - 1 = " + error_text(errors_.by_actual_volume) +
         ": error of the concentration by the actual volume");
    line("mass.shift.nominal = F x Q / (F_nominal x Q_nominal) - 1 = " + error_text(errors_.by_nominal_volume) +
         ": error of the concentration by the nominal volume, and of the mass on the filter");
  }

  void bias() {
    if (!change_.convention) return;
    const std::string name(to_text(*change_.convention));
    line("Against the " + name + " convention (ISO 7708, EN 481), which takes " +
         share_text(errors_.share_of_convention) + " of it, the concentration is off " +
         error_text(errors_.bias_at_nominal) + " at the nominal flow; at this one " +
         error_text(errors_.bias_by_actual_volume) + " by the actual volume and " +
         error_text(errors_.bias_by_nominal_volume) + " by the nominal volume");
    if (!change_.is_known) return;
    const std::string figure = error_text(change_.bias);
    const std::string volume = ": the volume is formed with ";
    if (f_.is_conventional) return line("mass.bias = " + figure + volume + "the nominal flow");
    if (f_.flow_l_min == f_.mean_flow_l_min)
      return line("mass.bias = " + figure + volume + "the mean flow as measured");
    const std::string practice(to_text(screening_.basis().practice.flow_for_volume));
    line("mass.bias = (1 + b) x " + flow_text(f_.mean_flow_l_min) + " / " + flow_text(f_.flow_l_min) +
         " - 1 = " + figure + ", b being that by the actual volume" + volume + flow_text(f_.flow_l_min) +
         " L/min, by flow_for_volume = \"" + practice + "\"");
  }

  void model() {
    line(
        "A model, and never a correction of a result. It leaves out the inlet and the wind before it, losses and "
        "leaks, "
        "charge, overloading and bounce, curves and aerosols that are not lognormal, a flow that changed during "
        "sampling, and how well the curve itself is known.");
    if (change_.is_known) line(uncertainty_of_the_cut());
    line("No uncertainty is stated of mass.shift and mass.bias: " + known_by(SampleMeasure::mass_bias));
  }

  std::string uncertainty_of_the_cut() const {
    const double of_size = expanded(SampleMeasure::cut_size);
    const double of_shift = expanded(SampleMeasure::cut_shift);
    if (is_missing(of_size)) return "How well cut.size and cut.shift are known is not stated, as of the flow it is not";
    return "cut.size is known to U = " + with_significant_digits(of_size, 2) +
           " µm, cut.shift to U = " + with_significant_digits(100 * of_shift, 2) +
           " %: " + known_by(SampleMeasure::cut_size);
  }
  double expanded(SampleMeasure measure) const {
    Rule rule;
    rule.of = Subject::sample;
    rule.measure = static_cast<std::size_t>(measure);
    return known_to(rule, screening_.context(f_, result_.budget)).expanded;
  }
  static std::string known_by(SampleMeasure measure) {
    return std::string(measures(Subject::sample)[static_cast<std::size_t>(measure)].known_by);
  }

  const Screening& screening_;
  const Book& book_;
  const SampleResult& result_;
  const SampleAssessment& f_;
  const MassChange& change_;
  const CutLaw& law_;
  const MassErrorBand& errors_;
  std::size_t width_;
  std::string out_;
};

}  // namespace

std::string mass_working(const Screening& screening, const SampleResult& result, std::size_t width) {
  const std::optional<MassChange> change = screening.basis().mass_change(*result.figures);
  return change ? MassWorking(screening, result, *change, width).text() : "";
}

}  // namespace driftwarden
