#pragma once
// The recording scalar. A closed formula is one template over its scalar: with `double` it is the plain computation,
// with `Term` it also leaves the tree of what was computed, from which its working is made (record.h). So text, value
// and inputs of a working cannot differ from the code that computes.
//
//   template <class X>
//   X line_pressure(const X& force, const X& modulus, const X& length, const X& radius) {
//     using namespace formula;
//     return sqrt(force * modulus / (pi<X>() * length * radius));
//   }
//
// The technique is that of operator-overloading automatic differentiation (Griewank, Walther: Evaluating Derivatives,
// SIAM 2008, chapter 6, from memory).

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <type_traits>
#include <utility>

#include "engine/base/constants.h"
#include "engine/base/formula/node.h"

namespace lobewise::formula {

class Term {
 public:
  Term(double value);  // NOLINT: a number may stand wherever a term may
  explicit Term(NodePtr node) : node_(std::move(node)) {}
  [[nodiscard]] double value() const { return node_->value; }
  [[nodiscard]] const NodePtr& node() const { return node_; }

 private:
  NodePtr node_;
};

/// An input: its symbol, what it means, its value in SI.
[[nodiscard]] Term input(std::string symbol, std::string meaning, double value, Quantity quantity = Quantity::number);
/// A list of values under one symbol; operators and functions of one argument work element by element, `sum`, `mean`,
/// `min`, `max` fold it. Precondition: not empty; lists of one formula have one length.
[[nodiscard]] Term inputs(std::string symbol, std::string meaning, std::vector<double> values,
                          Quantity quantity = Quantity::number);

/// An input of a template over its scalar: a number stays a number.
template <class X>
[[nodiscard]] X as(const char* symbol, const char* meaning, double value, Quantity quantity = Quantity::number) {
  if constexpr (std::is_same_v<X, Term>)
    return input(symbol, meaning, value, quantity);
  else
    return value;
}
inline double value(double x) { return x; }
inline double value(const Term& x) { return x.value(); }

[[nodiscard]] Term operator+(const Term& a, const Term& b);
[[nodiscard]] Term operator-(const Term& a, const Term& b);
[[nodiscard]] Term operator*(const Term& a, const Term& b);
[[nodiscard]] Term operator/(const Term& a, const Term& b);
[[nodiscard]] Term operator-(const Term& a);

[[nodiscard]] Term pow(const Term& base, const Term& exponent);
[[nodiscard]] Term sqrt(const Term& x);
[[nodiscard]] Term exp(const Term& x);
[[nodiscard]] Term ln(const Term& x);  ///< natural logarithm
[[nodiscard]] Term lg(const Term& x);  ///< logarithm to the base 10
[[nodiscard]] Term sin(const Term& x);
[[nodiscard]] Term cos(const Term& x);
[[nodiscard]] Term tan(const Term& x);
[[nodiscard]] Term asin(const Term& x);
[[nodiscard]] Term acos(const Term& x);
[[nodiscard]] Term atan(const Term& x);
[[nodiscard]] Term atan2(const Term& y, const Term& x);
[[nodiscard]] Term sinh(const Term& x);
[[nodiscard]] Term cosh(const Term& x);
[[nodiscard]] Term tanh(const Term& x);
[[nodiscard]] Term abs(const Term& x);
[[nodiscard]] Term floor(const Term& x);
[[nodiscard]] Term ceil(const Term& x);
[[nodiscard]] Term round(const Term& x);  ///< floor(x + 0.5)
[[nodiscard]] Term gammaln(const Term& x);
[[nodiscard]] Term min(const Term& a, const Term& b);
[[nodiscard]] Term max(const Term& a, const Term& b);
[[nodiscard]] Term min(std::initializer_list<Term> list);
[[nodiscard]] Term max(std::initializer_list<Term> list);
[[nodiscard]] Term lerp(const Term& a, const Term& b, const Term& t);  ///< a + (b - a) t
/// Folds of one list.
[[nodiscard]] Term sum(const Term& list);
[[nodiscard]] Term mean(const Term& list);
[[nodiscard]] Term smallest(const Term& list);
[[nodiscard]] Term largest(const Term& list);

// The same words for `double`, so that one template serves both.
inline double pow(double a, double b) { return std::pow(a, b); }
inline double sqrt(double x) { return std::sqrt(x); }
inline double exp(double x) { return std::exp(x); }
inline double ln(double x) { return std::log(x); }
inline double lg(double x) { return std::log10(x); }
inline double sin(double x) { return std::sin(x); }
inline double cos(double x) { return std::cos(x); }
inline double tan(double x) { return std::tan(x); }
inline double asin(double x) { return std::asin(x); }
inline double acos(double x) { return std::acos(x); }
inline double atan(double x) { return std::atan(x); }
inline double atan2(double y, double x) { return std::atan2(y, x); }
inline double sinh(double x) { return std::sinh(x); }
inline double cosh(double x) { return std::cosh(x); }
inline double tanh(double x) { return std::tanh(x); }
inline double abs(double x) { return std::abs(x); }
inline double floor(double x) { return std::floor(x); }
inline double ceil(double x) { return std::ceil(x); }
inline double round(double x) { return std::floor(x + 0.5); }
inline double gammaln(double x) { return std::lgamma(x); }
inline double min(double a, double b) { return b < a ? b : a; }
inline double max(double a, double b) { return a < b ? b : a; }
inline double min(std::initializer_list<double> list) { return std::min(list); }
inline double max(std::initializer_list<double> list) { return std::max(list); }
inline double lerp(double a, double b, double t) { return a + (b - a) * t; }

template <class X>
[[nodiscard]] X pi() {
  return X(kPi);
}
template <>
[[nodiscard]] Term pi<Term>();

/// Standard acceleration of gravity under its symbol.
template <class X>
[[nodiscard]] X gravity() {
  return X(kGravity);
}
template <>
[[nodiscard]] Term gravity<Term>();

/// A comparison, for `choose` only.
class Condition {
 public:
  explicit Condition(NodePtr node) : node_(std::move(node)) {}
  [[nodiscard]] bool holds() const { return node_->value != 0; }
  [[nodiscard]] const NodePtr& node() const { return node_; }

 private:
  NodePtr node_;
};
[[nodiscard]] Condition less(const Term& a, const Term& b);
[[nodiscard]] Condition less_or_equal(const Term& a, const Term& b);
inline bool less(double a, double b) { return a < b; }
inline bool less_or_equal(double a, double b) { return a <= b; }

/// `yes()` where the condition holds, else `no()`. With `double` only one side is computed; a recorded formula keeps
/// both, of which its reader computes one.
template <class Yes, class No>
double choose(bool condition, Yes&& yes, No&& no) {
  return condition ? yes() : no();
}
[[nodiscard]] Term choose_between(const Condition& condition, const Term& yes, const Term& no);
template <class Yes, class No>
Term choose(const Condition& condition, Yes&& yes, No&& no) {
  return choose_between(condition, yes(), no());
}

/// A value inside a formula under a symbol of its own: it becomes a step before the one that uses it. `double` passes
/// through.
[[nodiscard]] Term named(const char* symbol, const char* meaning, Quantity quantity, const Term& value,
                         const char* source = "");
inline double named(const char*, const char*, Quantity, double value, const char* = "") { return value; }

}  // namespace lobewise::formula
