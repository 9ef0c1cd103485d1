#pragma once

#include <QObject>
#include <set>
#include <vector>

#include "core/base/id.h"

namespace swingroom {

/// Which parts are hidden in the view, and which are ghosts: drawn pale, and not to be picked. Not
/// part of the document: the check looks at all.
class Visibility : public QObject {
  Q_OBJECT

 public:
  using QObject::QObject;

  bool isHidden(PartId part) const { return now_.hidden.contains(part); }
  bool isGhost(PartId part) const { return now_.ghosts.contains(part); }
  /// Whether any part is not shown as it is.
  bool anyHidden() const { return !now_.hidden.empty() || !now_.ghosts.empty(); }

  void setHidden(PartId part, bool hidden) { setHidden(std::vector{part}, hidden); }
  void setHidden(const std::vector<PartId>& parts, bool hidden) {
    Kept kept = now_;
    put(parts, hidden, kept.hidden);
    set(std::move(kept));
  }
  /// A hidden part that becomes a ghost is seen again.
  void setGhost(const std::vector<PartId>& parts, bool ghost) {
    Kept kept = now_;
    put(parts, ghost, kept.ghosts);
    if (ghost) put(parts, false, kept.hidden);
    set(std::move(kept));
  }
  void showAll() { set({}); }
  void showOnly(const std::vector<PartId>& shown, std::size_t partsInAll) {
    Kept kept;
    for (std::size_t p = 0; p < partsInAll; ++p) kept.hidden.insert(PartId{p});
    put(shown, false, kept.hidden);
    set(std::move(kept));
  }

 Q_SIGNALS:
  void changed();

 private:
  struct Kept {
    std::set<PartId> hidden, ghosts;
    bool operator==(const Kept&) const = default;
  };
  static void put(const std::vector<PartId>& parts, bool in, std::set<PartId>& set) {
    for (const PartId part : parts) {
      if (in) {
        set.insert(part);
      } else {
        set.erase(part);
      }
    }
  }
  void set(Kept kept) {
    if (kept == now_) return;
    now_ = std::move(kept);
    Q_EMIT changed();
  }

  Kept now_;
};

}  // namespace swingroom
