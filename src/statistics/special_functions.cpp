// SPDX-License-Identifier: MIT
#include "statistics/special_functions.hpp"

#include <boost/math/distributions/students_t.hpp>
#include <boost/math/special_functions/beta.hpp>
#include <boost/math/special_functions/erf.hpp>
#include <boost/math/special_functions/gamma.hpp>

#include "statistics/portable_number.hpp"

namespace boost::math::policies {

// What Boost calls where a sum has not come to its end after a million terms.
template <>
driftwarden::PortableNumber user_evaluation_error(const char*, const char*, const driftwarden::PortableNumber&) {
  return std::numeric_limits<double>::quiet_NaN();
}

}  // namespace boost::math::policies

namespace driftwarden::special {
namespace {

namespace policies = boost::math::policies;
using Policy =
    policies::policy<policies::promote_float<false>, policies::promote_double<false>,
                     policies::domain_error<policies::ignore_error>, policies::pole_error<policies::ignore_error>,
                     policies::overflow_error<policies::ignore_error>, policies::rounding_error<policies::ignore_error>,
                     policies::evaluation_error<policies::user_error>>;
constexpr Policy policy{};

using Number = PortableNumber;
using StudentT = boost::math::students_t_distribution<Number, Policy>;

}  // namespace

double erfc(double x) { return boost::math::erfc(Number(x), policy).value(); }
double erfc_inverse(double value) { return boost::math::erfc_inv(Number(value), policy).value(); }

double gamma(double x) { return boost::math::tgamma(Number(x), policy).value(); }
double gamma_ratio(double x, double delta) {
  return boost::math::tgamma_delta_ratio(Number(x), Number(delta), policy).value();
}

double gamma_below(double a, double x) { return boost::math::gamma_p(Number(a), Number(x), policy).value(); }
double gamma_above(double a, double x) { return boost::math::gamma_q(Number(a), Number(x), policy).value(); }

double beta_below(double a, double b, double x) {
  return boost::math::ibeta(Number(a), Number(b), Number(x), policy).value();
}

double student_t_cdf(double dof, double t) { return boost::math::cdf(StudentT(dof), Number(t)).value(); }
double student_t_quantile(double dof, double probability) {
  return boost::math::quantile(StudentT(dof), Number(probability)).value();
}

}  // namespace driftwarden::special
