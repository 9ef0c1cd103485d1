#pragma once

#include <QObject>
#include <optional>
#include <utility>

#include "core/base/id.h"

namespace swingroom {

using PartPair = std::pair<PartId, PartId>;  ///< Lower id first.

/// What is chosen: nothing, one part, or a pair of parts. View, tree, ribbon and findings all
/// follow it.
class Choice : public QObject {
  Q_OBJECT

 public:
  using QObject::QObject;

  const std::optional<PartPair>& pair() const { return pair_; }
  /// The chosen part; with a pair, the one that was chosen last.
  const std::optional<PartId>& part() const { return part_; }

  void choosePair(PartId a, PartId b) { set(PartPair(std::min(a, b), std::max(a, b)), a); }
  void choosePart(PartId part) { set(std::nullopt, part); }
  /// A second part beside the chosen one makes a pair.
  void addPart(PartId part) {
    if (part_ && *part_ != part) {
      choosePair(part, *part_);
    } else {
      choosePart(part);
    }
  }
  void clear() { set(std::nullopt, std::nullopt); }

 Q_SIGNALS:
  void changed();

 private:
  void set(const std::optional<PartPair>& pair, const std::optional<PartId>& part) {
    if (pair == pair_ && part == part_) return;
    pair_ = pair;
    part_ = part;
    Q_EMIT changed();
  }

  std::optional<PartPair> pair_;
  std::optional<PartId> part_;
};

}  // namespace swingroom
