#pragma once

#include <QWidget>
#include <functional>

#include "app/models/growth_words.h"
#include "app/session/room/growth_board.h"

class QComboBox;
class QLabel;
class QPushButton;
class QVBoxLayout;

namespace swingroom {

/// On the page of a part's room: how far it may grow as a whole, about a point, and all of its
/// surface outward.
class GrowthSection : public QWidget {
  Q_OBJECT

 public:
  GrowthSection(Session& session, GrowthBoard& board, QWidget* parent = nullptr);

  /// The part that the page is about; none: nothing is shown.
  void showPart(std::optional<PartId> part);
  /// Asks for what is not known yet of the part that is shown.
  void look();
  /// A point of its own, in the part's frame, in place of a joint or the middle.
  void setPoint(const Vector3d& p_P);
  /// Whether a point can be picked in the view.
  void offerPicking(bool offered);

  QComboBox& about() { return *about_; }
  QLabel& scale() { return *scale_.figure; }
  QLabel& scaleWhere() { return *scale_.where; }
  QPushButton& showScale() { return *scale_.show; }
  QLabel& offset() { return *offset_.figure; }
  QLabel& offsetWhere() { return *offset_.where; }
  QPushButton& showOffset() { return *offset_.show; }

 Q_SIGNALS:
  void stopWanted(const GrowthStop& stop);
  /// The next place that is clicked on the part is to be the point.
  void pickWanted(bool wanted);

 private:
  struct Limit {
    QLabel *figure, *where;
    QPushButton* show;
  };
  Limit addLimit(QVBoxLayout& column);
  void fillCentres();
  void takeCentre(int row);
  void refresh();
  void showLimit(const Limit& limit, const std::optional<GrowthLimit>& known,
                 const std::function<QString(const GrowthLimit&)>& figure);

  Session& session_;
  GrowthBoard& board_;
  std::optional<PartId> part_;
  std::vector<GrowthCentre> centres_;
  std::optional<Vector3d> picked_P_;
  std::optional<std::string> filledFor_;  ///< The part whose centres are offered.
  bool offersPicking_ = false;
  QComboBox* about_;
  Limit scale_, offset_;
};

}  // namespace swingroom
