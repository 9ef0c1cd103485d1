#pragma once

#include <QObject>
#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "core/base/id.h"

namespace swingroom {

using PartPair = std::pair<PartId, PartId>;  ///< Lower id first.

/// What is chosen: no part, one or several. Exactly two are a pair. View, tree, ribbon and findings
/// all follow it.
class Choice : public QObject {
  Q_OBJECT

 public:
  using QObject::QObject;

  /// In the order of choosing, each once.
  const std::vector<PartId>& parts() const { return parts_; }
  bool isChosen(PartId part) const {
    return std::find(parts_.begin(), parts_.end(), part) != parts_.end();
  }
  const std::optional<PartPair>& pair() const { return pair_; }
  /// The chosen part; of several, the one that was chosen last.
  const std::optional<PartId>& part() const { return part_; }

  /// `a` is then the one that was chosen last.
  void choosePair(PartId a, PartId b) { chooseParts({b, a}); }
  void choosePart(PartId part) { chooseParts({part}); }
  void chooseParts(const std::vector<PartId>& parts) {
    std::vector<PartId> chosen;
    addEach(parts, chosen);
    set(std::move(chosen));
  }
  /// The part is then the one that was chosen last.
  void addPart(PartId part) {
    std::vector<PartId> chosen = parts_;
    std::erase(chosen, part);
    chosen.push_back(part);
    set(std::move(chosen));
  }
  /// Those that are chosen already stay as they are.
  void addParts(const std::vector<PartId>& parts) {
    std::vector<PartId> chosen = parts_;
    addEach(parts, chosen);
    set(std::move(chosen));
  }
  /// Adds it, or takes it out if it is chosen.
  void togglePart(PartId part) {
    if (!isChosen(part)) return addPart(part);
    std::vector<PartId> chosen = parts_;
    std::erase(chosen, part);
    set(std::move(chosen));
  }
  void clear() { set({}); }

 Q_SIGNALS:
  void changed();

 private:
  static void addEach(const std::vector<PartId>& parts, std::vector<PartId>& chosen) {
    for (const PartId part : parts) {
      if (std::find(chosen.begin(), chosen.end(), part) == chosen.end()) chosen.push_back(part);
    }
  }
  void set(std::vector<PartId> parts) {
    if (parts == parts_) return;
    parts_ = std::move(parts);
    part_ = parts_.empty() ? std::nullopt : std::optional(parts_.back());
    pair_.reset();
    if (parts_.size() == 2)
      pair_.emplace(std::min(parts_[0], parts_[1]), std::max(parts_[0], parts_[1]));
    Q_EMIT changed();
  }

  std::vector<PartId> parts_;
  std::optional<PartPair> pair_;  ///< Of `parts_`, as is
  std::optional<PartId> part_;    ///< this.
};

}  // namespace swingroom
