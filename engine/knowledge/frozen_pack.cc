#include "engine/knowledge/frozen_pack.h"

#include <array>
#include <bit>
#include <cassert>
#include <cstdint>
#include <map>
#include <optional>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "engine/knowledge/pack_members.h"

namespace kartwright {
namespace {

// Whole numbers are little-endian base 128, others eight bytes, the least first; texts, lists and
// maps are a length and what they hold, what may be missing is a flag before it, and of variants
// the place of the one that is held.

template <typename T>
concept Whole = std::is_integral_v<T> || std::is_enum_v<T>;

class PackFreezer {
 public:
  template <typename... Members>
  void operator()(const Members&... members) {
    (put(members), ...);
  }

  std::string out() && { return std::move(out_); }

 private:
  template <Whole T>
  void put(const T& value) {
    auto number = static_cast<std::size_t>(value);
    assert(static_cast<T>(number) == value);
    for (; number >= 128; number >>= 7U) out_.push_back(static_cast<char>((number & 127U) | 128U));
    out_.push_back(static_cast<char>(number));
  }

  void put(const double& value) {
    const auto bits = std::bit_cast<std::uint64_t>(value);
    for (unsigned shift = 0; shift < 64; shift += 8)
      out_.push_back(static_cast<char>((bits >> shift) & 255U));
  }

  void put(const std::string& text) {
    put(text.size());
    out_ += text;
  }

  template <typename T>
  void put(const std::optional<T>& value) {
    put(value.has_value());
    if (value) put(*value);
  }

  template <typename T>
  void put(const std::vector<T>& all) {
    put(all.size());
    for (const T& each : all) put(each);
  }

  template <typename T, std::size_t n>
  void put(const std::array<T, n>& all) {
    for (const T& each : all) put(each);
  }

  template <typename Key, typename T>
  void put(const std::map<Key, T>& all) {
    put(all.size());
    for (const auto& [key, value] : all) (*this)(key, value);
  }

  template <typename A, typename B>
  void put(const std::pair<A, B>& both) {
    (*this)(both.first, both.second);
  }

  template <typename... Ts>
  void put(const std::variant<Ts...>& held) {
    put(held.index());
    std::visit([&](const auto& value) { put(value); }, held);
  }

  template <typename T>
  requires std::is_aggregate_v<T>
  void put(const T& part) { PackMembers::visit(*this, part); }

  std::string out_;
};

class PackThawer {
 public:
  explicit PackThawer(std::string_view bytes) : at_(bytes.data()), end_(at_ + bytes.size()) {}

  template <typename... Members>
  void operator()(Members&... members) {
    (take(members), ...);
  }

  bool done() const { return at_ == end_; }

 private:
  std::size_t number() {
    std::size_t value = 0;
    for (unsigned shift = 0;; shift += 7) {
      assert(at_ != end_);
      const auto byte = static_cast<unsigned char>(*at_++);
      value |= static_cast<std::size_t>(byte & 127U) << shift;
      if (byte < 128) return value;
    }
  }

  template <Whole T>
  void take(T& value) {
    value = static_cast<T>(number());
  }

  void take(double& value) {
    assert(end_ - at_ >= 8);
    std::uint64_t bits = 0;
    for (unsigned shift = 0; shift < 64; shift += 8)
      bits |= static_cast<std::uint64_t>(static_cast<unsigned char>(*at_++)) << shift;
    value = std::bit_cast<double>(bits);
  }

  std::string_view text() {
    const std::size_t size = number();
    assert(size <= static_cast<std::size_t>(end_ - at_));
    at_ += size;
    return {at_ - size, size};
  }

  void take(std::string& taken) { taken.assign(text()); }

  void take(std::vector<std::string>& all) {
    std::size_t left = number();
    for (all.reserve(left); left > 0; --left) all.emplace_back(text());
  }

  template <typename T>
  void take(std::optional<T>& value) {
    if (number() == 0) return;
    value = T{};
    take(*value);
  }

  template <typename T>
  void take(std::vector<T>& all) {
    all.resize(number());
    for (T& each : all) take(each);
  }

  template <typename T, std::size_t n>
  void take(std::array<T, n>& all) {
    for (T& each : all) take(each);
  }

  template <typename Key, typename T>
  void take(std::map<Key, T>& all) {
    for (std::size_t left = number(); left > 0; --left) {
      Key key{};
      take(key);
      take(all[std::move(key)]);
    }
  }

  template <typename A, typename B>
  void take(std::pair<A, B>& both) {
    (*this)(both.first, both.second);
  }

  template <typename... Ts>
  void take(std::variant<Ts...>& held) {
    const std::size_t index = number();
    std::size_t i = 0;
    ((i++ == index ? take(held.template emplace<Ts>()) : void()), ...);
  }

  template <typename T>
  requires std::is_aggregate_v<T>
  void take(T& part) { PackMembers::visit(*this, part); }

  const char* at_;
  const char* end_;
};

}  // namespace

std::string freeze_pack(const Pack& pack) {
  PackFreezer freezer;
  PackMembers::visit(freezer, pack);
  return std::move(freezer).out();
}

Pack thaw_pack(std::string_view bytes) {
  Pack pack;
  PackThawer thawer(bytes);
  PackMembers::visit(thawer, pack);
  assert(thawer.done());
  return pack;
}

}  // namespace kartwright
