#pragma once

#include <QObject>
#include <set>
#include <vector>

#include "core/base/id.h"

namespace swingroom {

/// Which parts are hidden in the view. Not part of the document: the check looks at all.
class Visibility : public QObject {
  Q_OBJECT

 public:
  using QObject::QObject;

  bool isHidden(PartId part) const { return hidden_.contains(part); }
  bool anyHidden() const { return !hidden_.empty(); }

  void setHidden(PartId part, bool hidden) {
    const bool changes = hidden ? hidden_.insert(part).second : hidden_.erase(part) > 0;
    if (changes) Q_EMIT changed();
  }
  void showAll() { set({}); }
  void showOnly(const std::vector<PartId>& shown, std::size_t partsInAll) {
    std::set<PartId> hidden;
    for (std::size_t p = 0; p < partsInAll; ++p) hidden.insert(PartId{p});
    for (const PartId part : shown) hidden.erase(part);
    set(std::move(hidden));
  }

 Q_SIGNALS:
  void changed();

 private:
  void set(std::set<PartId> hidden) {
    if (hidden == hidden_) return;
    hidden_ = std::move(hidden);
    Q_EMIT changed();
  }

  std::set<PartId> hidden_;
};

}  // namespace swingroom
