#include "engine/base/formula/term.h"

#include <algorithm>
#include <numeric>

namespace lobewise::formula {
namespace {

Term made(Node node) { return Term(std::make_shared<const Node>(std::move(node))); }

/// Applies `f` to values, or to lists element by element; a scalar beside a list is repeated.
template <class F>
Term binary(Op op, const Term& a, const Term& b, F f, const char* function = "") {
  Node node{op};
  node.function = function;
  node.args = {a.node(), b.node()};
  const std::size_t n = std::max(a.node()->list.size(), b.node()->list.size());
  if (n == 0) node.value = f(a.value(), b.value());
  const auto at = [](const Term& t, std::size_t i) { return t.node()->is_list() ? t.node()->list[i] : t.value(); };
  for (std::size_t i = 0; i < n; ++i) node.list.push_back(f(at(a, i), at(b, i)));
  return made(std::move(node));
}

template <class F>
Term unary(Op op, const Term& a, F f, const char* function = "") {
  Node node{op};
  node.function = function;
  node.args = {a.node()};
  if (!a.node()->is_list()) node.value = f(a.value());
  for (const double x : a.node()->list) node.list.push_back(f(x));
  return made(std::move(node));
}

Term fold(const char* function, const Term& list, double value) {
  Node node{Op::call, value};
  node.function = function;
  node.args = {list.node()};
  return made(std::move(node));
}

Term of_all(const char* function, std::initializer_list<Term> list, double value) {
  Node node{Op::call, value};
  node.function = function;
  for (const Term& term : list) node.args.push_back(term.node());
  return made(std::move(node));
}

double total(const std::vector<double>& list) { return std::accumulate(list.begin(), list.end(), 0.0); }

Condition compared(Op op, const Term& a, const Term& b, bool holds) {
  Node node{op, holds ? 1.0 : 0.0};
  node.args = {a.node(), b.node()};
  return Condition(std::make_shared<const Node>(std::move(node)));
}

bool by_value(const Term& a, const Term& b) { return a.value() < b.value(); }

}  // namespace

Term::Term(double value) : node_(std::make_shared<const Node>(Node{Op::number, value})) {}

Term input(std::string symbol, std::string meaning, double value, Quantity quantity) {
  Node node{Op::symbol, value};
  node.symbol = {std::move(symbol), std::move(meaning), quantity};
  return made(std::move(node));
}

Term inputs(std::string symbol, std::string meaning, std::vector<double> values, Quantity quantity) {
  Node node{Op::symbol};
  node.symbol = {std::move(symbol), std::move(meaning), quantity};
  node.list = std::move(values);
  return made(std::move(node));
}

template <>
Term pi<Term>() {
  Node node{Op::symbol, kPi};
  node.symbol = {"pi", "", Quantity::number};
  return made(std::move(node));
}

template <>
Term gravity<Term>() {
  return input("g", "acceleration of gravity", kGravity);
}

Term operator+(const Term& a, const Term& b) { return binary(Op::add, a, b, std::plus<>()); }
Term operator-(const Term& a, const Term& b) { return binary(Op::subtract, a, b, std::minus<>()); }
Term operator*(const Term& a, const Term& b) { return binary(Op::multiply, a, b, std::multiplies<>()); }
Term operator/(const Term& a, const Term& b) { return binary(Op::divide, a, b, std::divides<>()); }
Term operator-(const Term& a) { return unary(Op::negate, a, std::negate<>()); }

Term pow(const Term& base, const Term& exponent) {
  return binary(Op::power, base, exponent, [](double x, double y) { return std::pow(x, y); });
}

#define LOBEWISE_FUNCTION(name)                                         \
  Term name(const Term& x) {                                            \
    return unary(                                                       \
        Op::call, x, [](double v) { return formula::name(v); }, #name); \
  }
LOBEWISE_FUNCTION(sqrt)
LOBEWISE_FUNCTION(exp)
LOBEWISE_FUNCTION(ln)
LOBEWISE_FUNCTION(lg)
LOBEWISE_FUNCTION(sin)
LOBEWISE_FUNCTION(cos)
LOBEWISE_FUNCTION(tan)
LOBEWISE_FUNCTION(asin)
LOBEWISE_FUNCTION(acos)
LOBEWISE_FUNCTION(atan)
LOBEWISE_FUNCTION(sinh)
LOBEWISE_FUNCTION(cosh)
LOBEWISE_FUNCTION(tanh)
LOBEWISE_FUNCTION(abs)
LOBEWISE_FUNCTION(floor)
LOBEWISE_FUNCTION(ceil)
LOBEWISE_FUNCTION(round)
LOBEWISE_FUNCTION(gammaln)
#undef LOBEWISE_FUNCTION

Term atan2(const Term& y, const Term& x) {
  return binary(
      Op::call, y, x, [](double a, double b) { return std::atan2(a, b); }, "atan2");
}
Term min(const Term& a, const Term& b) { return min({a, b}); }
Term max(const Term& a, const Term& b) { return max({a, b}); }
Term min(std::initializer_list<Term> list) {
  return of_all("min", list, std::min_element(list.begin(), list.end(), by_value)->value());
}
Term max(std::initializer_list<Term> list) {
  return of_all("max", list, std::max_element(list.begin(), list.end(), by_value)->value());
}
Term lerp(const Term& a, const Term& b, const Term& t) {
  return of_all("lerp", {a, b, t}, lerp(a.value(), b.value(), t.value()));
}

Term sum(const Term& list) { return fold("sum", list, total(list.node()->list)); }
Term mean(const Term& list) {
  return fold("mean", list, total(list.node()->list) / static_cast<double>(list.node()->list.size()));
}
Term smallest(const Term& list) {
  return fold("min", list, *std::min_element(list.node()->list.begin(), list.node()->list.end()));
}
Term largest(const Term& list) {
  return fold("max", list, *std::max_element(list.node()->list.begin(), list.node()->list.end()));
}

Condition less(const Term& a, const Term& b) { return compared(Op::less, a, b, a.value() < b.value()); }
Condition less_or_equal(const Term& a, const Term& b) {
  return compared(Op::less_or_equal, a, b, a.value() <= b.value());
}

Term choose_between(const Condition& condition, const Term& yes, const Term& no) {
  Node node{Op::choose, condition.holds() ? yes.value() : no.value()};
  node.args = {condition.node(), yes.node(), no.node()};
  return made(std::move(node));
}

Term named(const char* symbol, const char* meaning, Quantity quantity, const Term& value, const char* source) {
  Node node{Op::symbol, value.value()};
  node.symbol = {symbol, meaning, quantity};
  node.definition = value.node();
  node.source = source;
  return made(std::move(node));
}

}  // namespace lobewise::formula
