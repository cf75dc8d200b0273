// SPDX-License-Identifier: MIT
#include "plot/mass_pictures.hpp"

#include <algorithm>
#include <cmath>

#include "aerosol/penetration.hpp"
#include "book/file_name.hpp"
#include "plot/gnuplot_text.hpp"
#include "plot/panel_layout.hpp"
#include "plot/picture_script.hpp"
#include "quantity/elementary.hpp"
#include "quantity/rounding.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

// Diameters are drawn by their decimal logarithms.
double on_axis(double um) { return elementary::log10(um); }
double in_um(double place) { return elementary::pow(10, place); }

std::vector<DateTic> diameter_tics(const Panel::Range& axis) {
  std::vector<DateTic> tics;
  for (const double um :
       {0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 3.0, 4.0, 5.0, 7.0, 10.0, 15.0, 20.0, 30.0, 50.0, 100.0, 200.0}) {
    if (on_axis(um) >= axis.low && on_axis(um) <= axis.high) tics.push_back({on_axis(um), chart_figure(um)});
  }
  return tics;
}

std::vector<double> between(const Panel::Range& range, std::size_t count) {
  std::vector<double> places;
  for (std::size_t i = 0; i < count; ++i)
    places.push_back(range.low + (range.high - range.low) * static_cast<double>(i) / static_cast<double>(count - 1));
  return places;
}

// Of a range of cuts the one that lies farther from the nominal one.
double farther_cut(const MassChange& change) {
  const double nominal = change.preselector.cut.nominal_um;
  return std::abs(change.cut_um.lower - nominal) > std::abs(change.cut_um.upper - nominal) ? change.cut_um.lower
                                                                                           : change.cut_um.upper;
}

std::string cut_text(const Bounds& cut_um) {
  return from_to(cut_um, [](double um) { return with_decimals(um, 2); }) + " µm";
}

// "+5 %", "−2 %", "0 %"
std::string level_text(double ratio) {
  const double percent = std::round(1e6 * ratio) / 1e4;
  return (percent > 0 ? "+" : percent < 0 ? "−" : "") + chart_figure(std::abs(percent)) + " %";
}

class MassPictureWriter {
 public:
  MassPictureWriter(const Screening& screening, const SampleAssessment& figures, const MassChange& change,
                    const Theme& theme, PictureFormat format)
      : screening_(screening), f_(figures), change_(change), theme_(theme), format_(format) {}

  Pictures take() {
    penetration_picture();
    error_picture();
    return std::move(pictures_);
  }

 private:
  static constexpr Extent size_of_curves{760, 470};
  static constexpr Extent size_of_maps{1000, 520};
  static constexpr std::size_t steps = 240;

  std::string sample() const { return std::string(screening_.book().samples.name[f_.sample]); }
  std::string sampler() const {
    return screening_.book().texts.text(field(screening_.book().samples.sampler, f_.sample, TextId{0}));
  }
  std::string flows() const {
    return with_decimals(f_.mean_flow_l_min, 3) + " L/min, nominal " + with_decimals(f_.nominal_l_min, 3) + " L/min";
  }
  const CutLaw& law() const { return change_.preselector.cut; }

  void begin(const std::string& what, const std::string& title, const std::string& subtitle, const std::string& third,
             Extent size, const std::vector<PictureKey>& key = {}) {
    pictures_.files.push_back(as_file_name(sample()) + what + std::string(ending_of(format_)));
    begin_picture(pictures_.script,
                  {pictures_.files.back(), title, subtitle, third, size, format_, std::string(cautions_in_a_line), key},
                  theme_);
  }

  // --- the curves

  // A curve, and what it is.
  struct NamedCurve {
    Panel::Curve curve;
    std::string name;
  };

  void penetration_picture() {
    Panel panel;
    panel.x = diameters();
    panel.y = {0, 100};
    panel.x_label = "aerodynamic diameter, µm";
    panel.y_label = "% of the particles of a size";
    panel.left = 0.075;
    panel.right = 0.965;
    panel.bottom = 0.14;
    panel.x_tics = diameter_tics(panel.x);
    std::vector<PictureKey> key;
    for (const NamedCurve& each : curves(panel.x)) {
      panel.curves.push_back(each.curve);
      if (!each.name.empty()) key.push_back(key_of_line(each.curve.line, each.name));
    }
    panel.top = 1 - (66 + height_of_key(key, size_of_curves.width, theme_)) / size_of_curves.height;
    begin(".penetration", sample() + ": what comes through " + sampler(),
          flows() + "; a model, from the curve that the book states", "", size_of_curves, key);
    append_panel(pictures_.script, panel, theme_, size_of_curves);
    end_picture(pictures_.script);
  }

  // From what all comes through of to what nothing does, within the sizes of what is in the air.
  Panel::Range diameters() const {
    const double least = std::min(change_.cut_um.lower, law().nominal_um);
    const double greatest = std::max(change_.cut_um.upper, law().nominal_um);
    return {on_axis(std::clamp(least / 5, 0.01, 20.0)), on_axis(std::clamp(greatest * 6, 1.0, 200.0))};
  }

  template <class Share>
  static NamedCurve curve(const Panel::Range& range, const LineStyle& line, const std::string& name, Share share_of) {
    NamedCurve drawn{{between(range, steps), {}, line}, name};
    for (const double x : drawn.curve.x) drawn.curve.y.push_back(100 * share_of(in_um(x)));
    return drawn;
  }

  std::vector<NamedCurve> curves(const Panel::Range& range) const {
    LineStyle here = theme_.value;
    here.width = 2.2;
    here.colour = theme_.signal.colour;
    LineStyle nominal = theme_.next;
    nominal.colour = theme_.point.colour;
    std::vector<NamedCurve> all;
    if (change_.convention) {
      all.push_back(curve(range, theme_.limit,
                          std::string(to_text(*change_.convention)) + " convention (ISO 7708, EN 481)",
                          [&](double d_um) { return convention_share(*change_.convention, d_um); }));
    }
    const auto with_cut = [&](const LineStyle& line, const std::string& name, double cut_um) {
      const PenetrationCurve of{cut_um, change_.preselector.spread};
      all.push_back(curve(range, line, name, [&](double d_um) { return penetration(of, d_um); }));
    };
    with_cut(nominal, "at the nominal flow, 50 % at " + with_decimals(law().nominal_um, 2) + " µm", law().nominal_um);
    with_cut(here, "at this flow, 50 % at " + cut_text(change_.cut_um), change_.cut_um.upper);
    if (!is_one(change_.cut_um)) with_cut(here, "", change_.cut_um.lower);
    return all;
  }

  // --- the maps

  void error_picture() {
    const AerosolFamily own = aerosols_of(screening_.book().settings);
    begin(".mass-error", sample() + ": by how much the concentration is off, by the dust",
          sampler() + " at " + flows() + "; lines of equal error, shaded within " +
              chart_figure(100 * screening_.book().settings.small_mass_error) + " %",
          exponent_text() + (is_one(own)
                                 ? "the mark: the dust that the book states"
                                 : std::string("the frame: the dusts ") +
                                       (screening_.book().settings.aerosol ? "that the book states"
                                                                           : "that are taken, for nobody states one")),
          size_of_maps);
    map(own, 1, 0.055, 0.455, "by the actual volume");
    map(own, f_.mean_flow_l_min / f_.nominal_l_min, 0.555, 0.945, "by the nominal volume");
    end_picture(pictures_.script);
  }

  std::string exponent_text() const {
    if (change_.is_known) return "";
    return "nobody states the exponent of its cut: drawn with " + chart_figure(law_farther()) +
           ", the farther end of the literature's, from memory; ";
  }
  double law_farther() const {
    return farther_cut(change_) == cut_at(change_.exponents.lower) ? change_.exponents.lower : change_.exponents.upper;
  }
  double cut_at(double exponent) const {
    CutLaw with = law();
    with.exponent = exponent;
    return cut_at_flow(with, f_.mean_flow_l_min);
  }

  void map(const AerosolFamily& own, double more_air, double left, double right, const std::string& title) {
    Panel panel;
    panel.x = {on_axis(std::min(0.5, own.mmad_um.lower)), on_axis(std::max(30.0, own.mmad_um.upper))};
    panel.y = {std::min(1.5, own.gsd.lower), std::max(3.5, own.gsd.upper)};
    panel.x_label = "mass median aerodynamic diameter, µm";
    panel.y_label = "geometric standard deviation";
    panel.left = left;
    panel.right = right;
    panel.bottom = 0.13;
    panel.top = 0.77;
    panel.room_above = 14;
    panel.x_tics = diameter_tics(panel.x);
    // Above the figures of lines that leave at the top.
    panel.words.push_back({panel.x.low, panel.y.high + 0.09 * (panel.y.high - panel.y.low), title});
    add_small_errors(panel, more_air);
    add_lines(panel, more_air);
    add_own(panel, own);
    append_panel(pictures_.script, panel, theme_, size_of_maps);
  }

  // Where the error is so much, over the spreads of a panel; the ends of the axis where it is more, or less, all over.
  std::vector<double> line_of(const Panel& panel, double error, double more_air, bool stops_at_ends) const {
    const double by_actual = (1 + error) / more_air - 1;
    const Bounds mmads{in_um(panel.x.low), in_um(panel.x.high)};
    const double cut = farther_cut(change_);
    const bool grows = cut > law().nominal_um;
    std::vector<double> places;
    for (const double gsd : between(panel.y, steps)) {
      const double mmad = mmad_of_error(change_.preselector, cut, by_actual, gsd, mmads);
      double place = on_axis(mmad);
      if (std::isnan(mmad) && stops_at_ends) {
        const double finest = error_at(cut, {mmads.lower, gsd});
        place = (by_actual > finest) == grows ? panel.x.high : panel.x.low;
      }
      places.push_back(place);
    }
    return places;
  }
  double error_at(double cut_um, const LognormalAerosol& of) const {
    return error_of_cut(change_.preselector, cut_um, of);
  }

  void add_small_errors(Panel& panel, double more_air) const {
    const double small = screening_.book().settings.small_mass_error;
    std::vector<double> x = line_of(panel, -small, more_air, true);
    std::vector<double> y = between(panel.y, steps);
    const std::vector<double> back = line_of(panel, small, more_air, true);
    x.insert(x.end(), back.rbegin(), back.rend());
    const std::vector<double> up = y;
    y.insert(y.end(), up.rbegin(), up.rend());
    panel.patches.push_back({x, y, theme_.band});
  }

  void add_lines(Panel& panel, double more_air) const {
    const double cut = farther_cut(change_);
    const auto error = [&](double place, double gsd) {
      return (1 + error_at(cut, {in_um(place), gsd})) * more_air - 1;
    };
    const double one = error(panel.x.low, panel.y.low);
    const double other = error(on_axis(20), panel.y.low);
    const double least = std::min(one, other);
    const double greatest = std::max(one, other);
    if (!std::isfinite(one) || !std::isfinite(other) || one == other) return;
    const double step = tic_step(greatest - least, 10);
    for (double level = std::ceil(least / step) * step; level <= greatest * (1 + 1e-9); level += step)
      add_line(panel, level, line_of(panel, level, more_air, false));
  }

  void add_line(Panel& panel, double level, const std::vector<double>& x) const {
    LineStyle line = theme_.value;
    line.colour = theme_.point.colour;
    line.width = std::abs(level) < 1e-9 ? 2 : 1;
    const std::vector<double> y = between(panel.y, steps);
    panel.curves.push_back({x, y, line});
    std::size_t last = x.size();
    while (last > 0 && std::isnan(x[last - 1])) --last;
    if (last == 0) return;
    if (last == x.size()) {
      panel.notes.push_back({x.back(), panel.y.high, level_text(level), theme_.text, true, true});
    } else {
      panel.levels.push_back({y[last - 1], level_text(level), theme_.text});
    }
  }

  void add_own(Panel& panel, const AerosolFamily& own) const {
    const double left = on_axis(own.mmad_um.lower);
    const double right = on_axis(own.mmad_um.upper);
    if (is_one(own)) {
      MarkStyle mark = filled(theme_.signal);
      mark.colour = theme_.signal.colour;
      panel.marks.push_back({{left}, {own.gsd.lower}, mark});
      return;
    }
    LineStyle frame = theme_.tolerance;
    frame.dashes = "";
    frame.colour = theme_.signal.colour;
    panel.curves.push_back({{left, right, right, left, left},
                            {own.gsd.lower, own.gsd.lower, own.gsd.upper, own.gsd.upper, own.gsd.lower},
                            frame,
                            true});
  }

  const Screening& screening_;
  const SampleAssessment& f_;
  const MassChange& change_;
  const Theme& theme_;
  PictureFormat format_;
  Pictures pictures_;
};

}  // namespace

Pictures mass_pictures(const Screening& screening, const SampleAssessment& figures, const Theme& theme,
                       PictureFormat format) {
  const std::optional<MassChange> change = screening.basis().mass_change(figures);
  if (!change || is_missing(change->cut_um.lower)) return {};
  return MassPictureWriter(screening, figures, *change, theme, format).take();
}

}  // namespace driftwarden
