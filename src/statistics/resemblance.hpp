// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>

#include "statistics/bounds.hpp"
#include "statistics/line_fit.hpp"

namespace driftwarden {

// How much the points of a series resemble the ones before them: φ of x_i - μ = φ (x_{i-1} - μ) + chance, from nearly
// nothing known (n 0) to well known. Below 0 is taken for 0, which is the cautious side.
struct Resemblance {
  double phi = 0;     // freed of its bias
  std::size_t n = 0;  // points behind it

  double at_least_zero() const;  // and at most 0.85
  double cautious() const;       // what is reckoned with: φ and one and a half times its standard error, at most 0.85
};

// φ from the lag-1 autocorrelation of n points about their mean, which is too small on average.
//
//   φ = r + (1 + 4r)/n      standard error 1/√n
//
//   r        lag_one_autocorrelation, below 0 taken for 0      n  points
//   Source   Kendall, Biometrika 41 (1954) 403, Marriott and Pope, ibid. 390: E(r) ≈ φ - (1 + 4φ)/n. From memory;
//            the test repeats it by simulation
//   Valid    n ≥ 4 points without a trend; first order in 1/n. NaN stands for a missing value, which is passed over.
//   Example  r 0.2 of 20 points  ->  0.29
Resemblance resemblance_of(std::span<const double> values);
// The same of what a fitted line leaves: it takes twice as much (E(r) ≈ φ - (2 + 4φ)/n, the test simulates it).
Resemblance residual_resemblance(std::span<const double> residuals);

// Of several series of one kind: the mean of their φ, weighted by their numbers of points.
class PooledResemblance {
 public:
  void add(const Resemblance& one);
  Resemblance of_all() const;

 private:
  double sum_ = 0;
  std::size_t n_ = 0;
};

// By how much the variance of a mean of n such points is larger than that of n independent ones.
//
//   V = 1 + 2 Σ_{j=1}^{n-1} (1 - j/n) φ^j      (near (1 + φ)/(1 - φ) for large n)
//
//   φ        correlation of neighbours      n  points in the mean
//   Source   Bayley and Hammersley, J. R. Stat. Soc. Suppl. 8 (1946) 184 (from memory; an identity of the variance of
//            a sum)
//   Valid    n ≥ 1, 0 ≤ φ < 1
//   Example  φ 0.5, n 3  ->  1.8333
double inflation_of_a_mean(std::size_t n, double phi);

// The same for many points: (1 + φ)/(1 - φ).
double inflation_of_many(double phi);

// How many independent points would tell as much of the spread.
//
//   n_s = n (1 - φ²)/(1 + φ²)
//
//   Source   the same, for the second moment: the squares of such points have the correlation φ^2j
//   Valid    as above, n large
//   Example  φ 0.6, n 34  ->  16
double points_for_the_spread(std::size_t n, double phi);

// A line whose points resemble each other: wider, and with fewer degrees of freedom. Slope and height stay.
//
//   var(b) · V · s'²/s²,   s'² = s² (n - 2)/(n - 2V),   ν = n_s - 2,   V = (1 + φ)/(1 - φ)
//
//   V        as inflation_of_a_mean for large n; of a slope it is the same      n_s  as points_for_the_spread
//   Source   the same; n - 2V: what two fitted parameters take from the sum of squares
//   Valid    equal steps of time, or nearly; φ of the residuals. n - 2V and ν are not taken below 1.
//   Example  φ 0: the line itself
LineFit resembling(const LineFit& line, double phi);

// Do the newest points stand where the ones before them stood? Limits for new points that know from how few old ones
// they come: the prediction interval of Student's t.
//
//   t = (x̄_k - x̄_m) / √( s² (V_k/k + V_m/m) ),   s² = Σ(x - x̄_m)² / (m - V_m),   ν = n_s(m) - 1
//
//   m, k     points before and new ones      V, n_s  as above
//   Source   Hahn and Meeker, Statistical Intervals (1991) 4.7, "prediction interval for the mean of k future
//            observations" (from memory); with φ 0 it is that. V: see inflation_of_a_mean
//   Valid    normal points of one spread; NaN for m below 2, k below 1 or no spread
//   Example  10, 12, 11, 13, 9 before, 15 new, φ 0  ->  t 2.3094, ν 4, p 0.0821
struct StepTest {
  double difference = no_figure;
  double t = no_figure;
  double dof = no_figure;
  double p = no_figure;  // two-sided
};
StepTest step_test(std::span<const double> before, std::span<const double> now, double phi);

// The same asked the other way round: between which ends one new point has a p of so much or more. Example: 10, 12, 11,
// 13, 9 before, φ 0, p 0.0821  ->  7 and 15. No figure where step_test has none.
Bounds limits_of_next(std::span<const double> before, double phi, double p);

// Do the points scatter ever farther? Signs are nothing to it: a pump that wanders to and fro is seen.
//
//   S = Σ_{i<j} sign(d_j - d_i),   d = |x - median|,   p = P(Z > (S - 1)/√(V · var S)), one-sided
//
//   V        (1 + φ²)/(1 - φ²): sizes resemble each other by φ², nearly
//   Source   Mann and Kendall's test (see mann_kendall) of the distances; V: Hamed and Rao, J. Hydrol. 204 (1998) 182,
//            whose correction for autocorrelation it is for a chain of first order (from memory)
//   Valid    independent of how the points are distributed, of spread and of rounding; n ≥ 5, else NaN
//   Example  0.1, -0.2, 0.3, -0.4, 0.5, -0.6, φ 0  ->  d from the median 0.05: 0.15 0.15 0.35 0.35 0.55 0.55, S 12,
//            variance 25.33 with three ties, p 0.0144
double growing_scatter_p(std::span<const double> values, double phi);

}  // namespace driftwarden
