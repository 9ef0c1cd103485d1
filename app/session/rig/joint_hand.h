#pragma once

#include <QObject>
#include <optional>

#include "app/session/check/free_spans.h"

namespace swingroom {

/// A hand that moves one joint by slider or handle: it follows, stops where parts touch, and can
/// put everything back.
class JointHand : public QObject {
  Q_OBJECT

 public:
  /// @param stand, spans  Outlive this.
  JointHand(Stand& stand, FreeSpans& spans, QObject* parent = nullptr);

  /// Takes hold as everything stands; what it held before is let go.
  void take(const DriveRange& range);
  /// Where the joint should go, rad or mm. Clamped to its range and, unless it goes past, to what
  /// is proven free; until that is known it waits.
  void moveTo(double wanted, bool goPast = false);
  void letGo();
  /// As everything stood when it took hold.
  void putBack();

  bool isHolding() const { return held_.has_value(); }
  const std::optional<DriveRange>& held() const { return held_; }
  /// Where it was brought, rad or mm.
  double number() const { return number_; }
  /// As known when it was taken; none: not yet.
  const std::optional<FreeTravel>& travel() const { return travel_; }
  /// What keeps the joint from where it should go.
  const std::optional<TravelStop>& stoppedBy() const { return stoppedBy_; }

  /// Whether it stops where parts touch.
  bool stops() const { return stops_; }
  void setStops(bool stops);

 Q_SIGNALS:
  /// Took hold, moved, was stopped or let go.
  void changed();
  void stopsChanged(bool stops);

 private:
  void follow();
  void drop();

  Stand& stand_;
  FreeSpans& spans_;
  bool stops_ = true;
  std::optional<DriveRange> held_;
  ScenePtr scene_;
  Configuration start_;
  bool wasByHand_ = false;
  std::optional<FreeTravel> travel_;  ///< Of `start_`.
  std::optional<double> wanted_;
  double number_ = 0;
  bool goPast_ = false;
  bool leaving_ = false;  ///< Let go before it could follow.
  std::optional<TravelStop> stoppedBy_;
};

}  // namespace swingroom
