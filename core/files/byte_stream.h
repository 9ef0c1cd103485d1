#pragma once

#include <cstdint>
#include <cstring>
#include <string>
#include <string_view>
#include <vector>

#include "core/files/printable.h"

namespace swingroom {

/// Values as they lie in memory, one after the other; for a reader on the same machine.
class ByteWriter {
 public:
  template <typename T>
  void value(const T& x) {
    raw(&x, sizeof x);
  }
  void text(const std::string& s) {
    value<std::uint32_t>(static_cast<std::uint32_t>(s.size()));
    raw(s.data(), s.size());
  }
  template <typename T>
  void list(const std::vector<T>& items) {
    value<std::uint64_t>(items.size());
    raw(items.data(), items.size() * sizeof(T));
  }
  std::string take() { return std::move(bytes_); }

 private:
  void raw(const void* data, std::size_t size) {
    bytes_.append(static_cast<const char*>(data), size);
  }
  std::string bytes_;
};

/// Reads until something does not fit; from then on `sound()` is false and everything is empty.
class ByteReader {
 public:
  explicit ByteReader(std::string_view bytes) : bytes_(bytes) {}

  template <typename T>
  T value() {
    T x{};
    if (fits(sizeof x)) std::memcpy(static_cast<void*>(&x), take(sizeof x), sizeof x);
    return x;
  }
  std::string text() {
    const auto size = value<std::uint32_t>();
    return fits(size) ? printable({take(size), size}) : std::string();
  }
  template <typename T>
  std::vector<T> list() {
    const auto count = value<std::uint64_t>();
    if (count > bytes_.size() / sizeof(T)) sound_ = false;
    if (!sound_) return {};
    std::vector<T> items(count);
    if (count > 0)
      std::memcpy(static_cast<void*>(items.data()), take(count * sizeof(T)), count * sizeof(T));
    return items;
  }
  /// `read` as often as the next number says, as long as all is sound.
  template <typename T, typename Read>
  std::vector<T> each(Read read) {
    const auto count = value<std::uint64_t>();
    std::vector<T> items;
    for (std::uint64_t i = 0; i < count && sound_; ++i) items.push_back(read());
    return items;
  }
  bool sound() const { return sound_; }
  bool atEnd() const { return sound_ && bytes_.empty(); }

 private:
  bool fits(std::size_t size) { return sound_ = sound_ && size <= bytes_.size(); }
  const char* take(std::size_t size) {
    const char* start = bytes_.data();
    bytes_.remove_prefix(size);
    return start;
  }

  std::string_view bytes_;
  bool sound_ = true;
};

}  // namespace swingroom
