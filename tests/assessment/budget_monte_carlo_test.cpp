// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

#include "assessment/worked_budget.hpp"
#include "statistics/random_numbers.hpp"

namespace driftwarden::budget_monte_carlo_test {
namespace {

// input: flows, spreads and half-widths, where nothing else is said.

// The budgets against the propagation of distributions (JCGM 101:2008): the figures are worked out anew, from the
// book's inputs and not from the budget's lines, for inputs drawn at random. Repeatabilities are drawn as normal with s
// / √n: a budget states u with that, and accounts for few readings by its degrees of freedom.
constexpr std::size_t draws = 100000;

// What is known of one set, as the test's own reckoning of the book.
struct SetInputs {
  double indicated;  // mean, L/min
  double s_of_mean;  // of the indications
  double error;      // of the certificate, at the mean
  double certificate_u;
  double bow;        // half-width between the points
  double slope = 0;  // of the error, per L/min
};

struct Inputs {
  SetInputs pre, post;
  bool one_certificate = true;
  double step = 0.001;
  double reading_t = 293.15, reading_p = 98.6;
  double sampling_t = 296.15, sampling_p = 98.6;
  double half_t = 2, half_p = 0.3, half_altitude = 0;  // the last relative; then half_p is of no pressure
  double exponent = 0;  // of T/P in the flow of a set: 0 volumetric, 0.5 rotameter, 1 mass
  double scale_t = 298.15, scale_p = 101.325;
  std::function<double(double, double)> flow = [](double q1, double q2) { return (q1 + q2) / 2; };
  std::function<double(double, double)> drift = [](double q1, double q2) { return (q2 - q1) / q1; };
  double between = 0;  // half-width of the flow between the checks
};

using Figures = std::array<double, budget_figures>;

class Simulation {
 public:
  Simulation(const Inputs& inputs, std::uint64_t seed) : in_(inputs), random_(seed) {}

  Figures draw() {
    const double certificate = random_.normal();
    const double bow = random_.rectangular(1);
    const double t = in_.reading_t + random_.rectangular(in_.half_t);
    const double altitude = 1 + random_.rectangular(in_.half_altitude);
    const double reading_p =
        in_.half_altitude > 0 ? in_.reading_p * altitude : in_.reading_p + random_.rectangular(in_.half_p);
    const double sampling_p =
        in_.half_altitude > 0 ? in_.sampling_p * altitude : in_.sampling_p + random_.rectangular(in_.half_p);
    const double factor = std::pow(in_.scale_p / reading_p * t / in_.scale_t, in_.exponent);
    const double q1 = factor * flow_of(in_.pre, certificate, bow);
    const double q2 = factor * flow_of(in_.post, in_.one_certificate ? certificate : random_.normal(),
                                       in_.one_certificate ? bow : random_.rectangular(1));
    const double q = in_.flow(q1, q2) + random_.rectangular(in_.between);
    const double volume = q * (480 + random_.rectangular(0.5) + random_.rectangular(0.5));
    const double sampling_t = in_.sampling_t + random_.rectangular(in_.half_t);
    return {in_.drift(q1, q2), q, volume, volume * sampling_p / 101.325 * 293.15 / sampling_t};
  }

 private:
  double flow_of(const SetInputs& set, double certificate, double bow) {
    const double indicated = set.indicated + set.s_of_mean * random_.normal() + random_.rectangular(in_.step / 2);
    const double error = set.error + set.slope * (indicated - set.indicated);
    return indicated / (1 + error) * (1 + set.certificate_u * certificate + set.bow * bow);
  }

  const Inputs& in_;
  test::RandomNumbers random_;
};

// Half a unit of the last of so many significant digits of u: JCGM 101, 7.9.2.
double tolerance(double u, int digits) { return 0.5 * std::pow(10.0, std::floor(std::log10(u)) - (digits - 1)); }

std::array<std::vector<double>, budget_figures> simulated(const Inputs& inputs, std::uint64_t seed) {
  std::array<std::vector<double>, budget_figures> all;
  for (std::vector<double>& of : all) of.reserve(draws);
  Simulation simulation(inputs, seed);
  for (std::size_t i = 0; i < draws; ++i) {
    const Figures figures = simulation.draw();
    for (std::size_t y = 0; y < budget_figures; ++y) all[y].push_back(figures[y]);
  }
  return all;
}

// derived: 0.95 less three standard errors of so many draws is 0.948. u agrees to two significant digits.
void expect_agreement(const BudgetedBook& book, const Inputs& inputs, std::uint64_t seed) {
  const Figures stated{book.figures.drift, book.figures.flow_l_min, book.figures.volume_l,
                       book.figures.volume_reference_l};
  const auto all = simulated(inputs, seed);
  for (std::size_t y = 0; y < budget_figures; ++y) {
    const FigureUncertainty& of = book.budget.of[y];
    const MeanAndSpread drawn = mean_and_spread(all[y]);
    EXPECT_NEAR(drawn.mean, stated[y], 0.02 * of.u) << y;
    EXPECT_NEAR(drawn.s, of.u, tolerance(of.u, 2)) << y;
    const auto inside = std::count_if(all[y].begin(), all[y].end(),
                                      [&](double figure) { return std::abs(figure - stated[y]) <= of.expanded; });
    EXPECT_GE(static_cast<double>(inside) / static_cast<double>(draws), 0.948) << y;
  }
}

// own input: s / √5 of the worked book's readings; computed with SciPy 1.10 by tests/support/computed_records.py.
constexpr SetInputs worked_pre{2.0112, 0.00128062485, 2.0 / 2.004 - 1, 0.010 / 2.004, 0};
constexpr SetInputs worked_post{1.9584, 0.001208304597, 2.0 / 2.004 - 1, 0.010 / 2.004, 0};
constexpr double apart = 1.002 * (2.0112 - 1.9584);

Inputs worked_inputs() {
  Inputs inputs{.pre = worked_pre, .post = worked_post};
  inputs.between = apart / 2;
  return inputs;
}

TEST(BudgetMonteCarlo, AgreesForOneDryPiston) { expect_agreement(BudgetedBook(worked_book()), worked_inputs(), 1); }

TEST(BudgetMonteCarlo, AgreesForTwoDryPistonsAndTheLowerFlow) {
  BookText text = worked_book();
  replace_all(text.readings, "post,S1,V1", "post,S1,V2");
  AssessmentPractice practice;
  practice.flow_for_volume = FlowForVolume::lower;
  Inputs inputs = worked_inputs();
  inputs.one_certificate = false;
  inputs.flow = [](double q1, double q2) { return std::min(q1, q2); };
  inputs.between = apart;
  expect_agreement(BudgetedBook(text, practice), inputs, 2);
}

TEST(BudgetMonteCarlo, AgreesBetweenThePointsOfACertificate) {
  BookText text = worked_book();
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min],expanded uncertainty "
      "[%],coverage factor\n"
      "C1,V1,2026-01-05,1,1.000,1.000,1,2\nC1,V1,2026-01-05,3,3.000,3.060,1,2\n";
  const auto set = [](double indicated, double s) {
    const double share = (indicated - 1) / 2.06;
    return SetInputs{indicated, s, 0.02 * share, 0.005, 4 * share * (1 - share) * 0.01, 0.02 / 2.06};
  };
  Inputs inputs{.pre = set(2.0112, 0.00128062485), .post = set(1.9584, 0.00120830459)};
  const BudgetedBook book(text);
  inputs.between = std::abs(book.figures.post_l_min - book.figures.pre_l_min) / 2;
  expect_agreement(book, inputs, 3);
}

// The worked readings on a calibrator that follows temperature and pressure.
BookText book_with(const std::string& principle, const std::string& pressure) {
  BookText text = worked_book();
  text.instruments =
      "instrument,kind,principle,resolution [L/min],scale temperature [°C],scale pressure [kPa]\n"
      "P1,pump,,,,\nV1,calibrator," +
      principle + ",0.001,25,101.325\nV2,calibrator," + principle + ",0.001,25,101.325\n";
  replace_all(text.readings, "reading [L/min]\n", "reading [L/min],temperature [°C],pressure [kPa]\n");
  std::string with_conditions = text.readings.substr(0, text.readings.find('\n') + 1);
  for (std::size_t at = with_conditions.size(); at < text.readings.size();) {
    const std::size_t end = text.readings.find('\n', at);
    with_conditions += text.readings.substr(at, end - at) + ",20," + pressure + "\n";
    at = end + 1;
  }
  text.readings = with_conditions;
  return text;
}

double factor_of(const Inputs& in) {
  return std::pow(in.scale_p / in.reading_p * in.reading_t / in.scale_t, in.exponent);
}

TEST(BudgetMonteCarlo, AgreesForARotameter) {
  Inputs inputs = worked_inputs();
  inputs.exponent = 0.5;
  inputs.between = factor_of(inputs) * apart / 2;
  expect_agreement(BudgetedBook(book_with("rotameter", "98.6")), inputs, 4);
}

TEST(BudgetMonteCarlo, AgreesForAMassMeterThePreFlowAndADriftOfTheMean) {
  AssessmentPractice practice;
  practice.flow_for_volume = FlowForVolume::pre;
  practice.drift_base = DriftBase::mean;
  Inputs inputs = worked_inputs();
  inputs.exponent = 1;
  inputs.flow = [](double q1, double) { return q1; };
  inputs.drift = [](double q1, double q2) { return 2 * (q2 - q1) / (q1 + q2); };
  inputs.between = factor_of(inputs) * apart;
  expect_agreement(BudgetedBook(book_with("mass", "98.6"), practice), inputs, 5);
}

// A flow of a mass meter goes as 1/P and the conversion to reference conditions as P: what altitude says of both
// cancels in the reference volume, and only there.
TEST(BudgetMonteCarlo, AgreesForAPressureByAltitudeOnBothSides) {
  BookText text = book_with("mass", "");
  text.settings = "[site]\naltitude = \"1500 m\"\n" + text.settings;
  replace_all(text.settings, "[site]\naltitude = \"1500 m\"\ntitle = \"Quarry\"\ntime_zone = \"UTC\"\n",
              "title = \"Quarry\"\ntime_zone = \"UTC\"\n[site]\naltitude = \"1500 m\"\n");
  replace_all(text.samples, ",23,98.60", ",23,");
  const BudgetedBook book(text);
  Inputs inputs = worked_inputs();
  inputs.exponent = 1;
  inputs.half_altitude = 0.03;
  inputs.reading_p = inputs.sampling_p = book.basis.calibrators.site_pressure_kpa().value();
  inputs.between = factor_of(inputs) * apart / 2;
  expect_agreement(book, inputs, 6);
  EXPECT_GT(std::abs(book.contribution(BudgetSource::altitude_pressure, BudgetFigure::volume)), 10);
  EXPECT_NEAR(book.contribution(BudgetSource::altitude_pressure, BudgetFigure::volume_reference), 0, 1e-9);
}

// Where a certificate's normal distribution leads, both ends of y ± U agree, too (JCGM 101, clause 8, one digit).
TEST(BudgetMonteCarlo, AgreesInBothEndsWhereANormalInputLeads) {
  BookText text = worked_book();
  replace_all(text.readings, "post,S1,V1,1.957", "post,S1,V1,2.013");
  replace_all(text.readings, "post,S1,V1,1.962", "post,S1,V1,2.008");
  replace_all(text.readings, "post,S1,V1,1.955", "post,S1,V1,2.011");
  replace_all(text.readings, "post,S1,V1,1.960", "post,S1,V1,2.015");
  replace_all(text.readings, "post,S1,V1,1.958", "post,S1,V1,2.009");
  replace_all(text.settings, "2 °C", "0.2 °C");
  text.settings += "flow_between = \"0 %\"\n";
  const BudgetedBook book(text);
  Inputs inputs{.pre = worked_pre, .post = worked_pre};
  inputs.half_t = 0.2;
  auto volumes = simulated(inputs, 7)[3];
  std::sort(volumes.begin(), volumes.end());
  const FigureUncertainty& of = book.budget.about(BudgetFigure::volume_reference);
  EXPECT_NEAR(volumes[draws / 40], book.figures.volume_reference_l - of.expanded, tolerance(of.u, 1));
  EXPECT_NEAR(volumes[draws - draws / 40], book.figures.volume_reference_l + of.expanded, tolerance(of.u, 1));
}

}  // namespace
}  // namespace driftwarden::budget_monte_carlo_test
