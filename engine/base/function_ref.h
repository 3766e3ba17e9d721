#pragma once
// A non-owning reference to something callable, for functions below `api` that take a model as a parameter and live in
// a .cc file. Two words, no allocation. The callable must outlive the call it is handed to.
#include <memory>
#include <type_traits>
#include <utility>

namespace lobewise {

template <class Signature>
class FunctionRef;

template <class R, class... Args>
class FunctionRef<R(Args...)> {
 public:
  template <class F>
  requires(!std::is_same_v<std::remove_cvref_t<F>, FunctionRef> && std::is_object_v<std::remove_reference_t<F>> &&
           std::is_invocable_r_v<R, F&, Args...>) FunctionRef(F&& callable)  // NOLINT(google-explicit-constructor)
      : object_(const_cast<void*>(static_cast<const void*>(std::addressof(callable)))),
        call_([](void* object, Args... args) -> R {
          return (*static_cast<std::remove_reference_t<F>*>(object))(std::forward<Args>(args)...);
        }) {}

  R operator()(Args... args) const { return call_(object_, std::forward<Args>(args)...); }

 private:
  void* object_;
  R (*call_)(void*, Args...);
};

}  // namespace lobewise
