// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>
#include <string>
#include <utility>

namespace driftwarden {

// A number that keeps how it came about: a formula that is written over its type of number gives its figure with a
// double, and with this one the line that an explanation prints.
//
//   √((101.325 / 84.500) x (278.15 / 293.15))
class Written {
 public:
  Written(double value, std::string text) : value_(value), text_(std::move(text)) {}

  double value() const { return value_; }
  const std::string& text() const { return text_; }

  friend Written operator+(const Written& a, const Written& b) {
    return {a.value_ + b.value_, a.text_ + " + " + b.text_, Form::sum};
  }
  friend Written operator-(const Written& a, const Written& b) {
    return {a.value_ - b.value_, a.text_ + " - " + (b.form_ == Form::sum ? b.whole() : b.text_), Form::sum};
  }
  friend Written operator*(const Written& a, const Written& b) {
    return {a.value_ * b.value_, a.beside(Form::product) + " x " + b.beside(Form::product), Form::product};
  }
  friend Written operator/(const Written& a, const Written& b) {
    return {a.value_ / b.value_, a.whole() + " / " + b.whole(), Form::quotient};
  }
  friend Written sqrt(const Written& a) { return {std::sqrt(a.value_), "√(" + a.text_ + ")"}; }

 private:
  enum class Form { single, sum, product, quotient };

  Written(double value, std::string text, Form form) : value_(value), text_(std::move(text)), form_(form) {}

  std::string whole() const { return form_ == Form::single ? text_ : "(" + text_ + ")"; }
  // Products of products need no brackets.
  std::string beside(Form form) const { return form_ == form ? text_ : whole(); }

  double value_;
  std::string text_;
  Form form_ = Form::single;
};

}  // namespace driftwarden
