// shared.h - a value that several advices hold and none of them changes: a copy of it is the same
// object.

#pragma once

#include <cstddef>
#include <memory>
#include <utility>

namespace kartwright {

/// A list to be read as if it were one's own.
template <typename List>
class Shared {
 public:
  Shared() : Shared(List{}) {}
  Shared(List list) : list_(std::make_shared<const List>(std::move(list))) {}  // NOLINT: a List

  operator const List&() const { return *list_; }  // NOLINT: reads as one
  const List& operator*() const { return *list_; }

  const auto& operator[](std::size_t i) const { return (*list_)[i]; }
  const auto* data() const { return list_->data(); }
  std::size_t size() const { return list_->size(); }
  bool empty() const { return list_->empty(); }
  auto begin() const { return list_->begin(); }
  auto end() const { return list_->end(); }

 private:
  std::shared_ptr<const List> list_;
};

}  // namespace kartwright
