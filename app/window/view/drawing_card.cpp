#include "app/window/view/drawing_card.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QEvent>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QSignalBlocker>
#include <QSlider>
#include <QVBoxLayout>
#include <cmath>

#include "app/edits/drawing_edits.h"
#include "app/models/text.h"
#include "app/panels/plain_widgets.h"
#include "app/window/view/card_edge.h"
#include "core/assembly/figure_size.h"

namespace swingroom {
namespace {

constexpr int kBelowLookBarPx = 52;

using Side = Viewport::LookFrom;

struct SideEntry {
  StandardView view;
  Side look;
  QString word;
};

std::vector<SideEntry> sideEntries() {
  return {{StandardView::front, Side::front, DrawingCard::tr("front")},
          {StandardView::back, Side::back, DrawingCard::tr("back")},
          {StandardView::left, Side::left, DrawingCard::tr("left")},
          {StandardView::right, Side::right, DrawingCard::tr("right")},
          {StandardView::top, Side::top, DrawingCard::tr("top")},
          {StandardView::below, Side::below, DrawingCard::tr("below")}};
}

QSlider* shareSlider(const QString& name, const QString& tip, QWidget* parent) {
  auto* slider = new QSlider(Qt::Horizontal, parent);
  slider->setRange(1, 100);
  slider->setMinimumWidth(56);
  slider->setAccessibleName(name);
  slider->setToolTip(tip);
  return slider;
}

QLabel* smallWord(const QString& text, QWidget* parent) {
  auto* label = new QLabel(text, parent);
  label->setProperty("role", QStringLiteral("label"));
  return label;
}

}  // namespace

QString comparisonText(const DrawingComparison& comparison) {
  const OutlineMatch& match = comparison.match;
  const auto area = [](double mm2) { return QString::number(mm2, 'f', mm2 < 100 ? 1 : 0); };
  QString text =
      DrawingCard::tr("%1 % in common. Only the figure: %2 mm², only the drawing: %3 mm².")
          .arg(100 * match.share(), 0, 'f', 1)
          .arg(area(match.onlyFirstMm2()), area(match.onlySecondMm2()));
  if (!match.firstToSecond || !match.secondToFirst) return text;
  return text + QLatin1Char(' ') +
         DrawingCard::tr(
             "Outlines are up to %1 mm apart (figure to drawing %2, back %3; all to "
             "%4 mm).")
             .arg(match.largestMm(), 0, 'f', 2)
             .arg(match.firstToSecond->mm, 0, 'f', 2)
             .arg(match.secondToFirst->mm, 0, 'f', 2)
             .arg(2 * match.cellMm + comparison.mmPerPixel, 0, 'f', 2);
}

DrawingCard::DrawingCard(Session& session, Viewport& view)
    : QFrame(&view), session_(session), view_(view), board_(session), hand_(view) {
  setProperty("card", QStringLiteral("plain"));
  setAccessibleName(tr("Drawing"));
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(10, 4, 6, 6);
  column->setSpacing(2);
  addPictureRow();
  addPlaceRow();
  addCompareRow();
  said_ = smallWord(QString(), this);
  said_->setWordWrap(true);
  said_->setTextInteractionFlags(Qt::TextSelectableByMouse);
  column->addWidget(said_);
  connectFields();
  view.installEventFilter(this);
  hide();
}

QHBoxLayout* DrawingCard::addRow() {
  auto* box = new QWidget(this);
  auto* row = new QHBoxLayout(box);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(4);
  layout()->addWidget(box);
  return row;
}

void DrawingCard::addPictureRow() {
  QHBoxLayout* row = addRow();
  row->addWidget(smallWord(tr("Drawing"), this));
  sides_ = new QComboBox(this);
  sides_->setAccessibleName(tr("Side of the drawing"));
  for (const SideEntry& entry : sideEntries()) sides_->addItem(entry.word);
  choose_ = cardButton(tr("Picture…"), tr("Lays a picture of yours on this side"), this);
  remove_ = cardButton(tr("Take away"), tr("The picture's file stays as it is"), this);
  QPushButton* off =
      cardButton(tr("Close"), tr("Drawings are not shown; they stay in the file"), this);
  connect(off, &QPushButton::clicked, this, [this] { setOn(false); });
  row->addWidget(sides_);
  row->addWidget(choose_);
  row->addWidget(remove_);
  row->addStretch(1);
  row->addWidget(off);
}

void DrawingCard::addPlaceRow() {
  QHBoxLayout* row = addRow();
  placeRow_ = row->parentWidget();
  row->addWidget(smallWord(tr("Opacity"), this));
  opacity_ = shareSlider(tr("Opacity of the drawing"), tr("How much of the parts it hides"), this);
  move_ = cardButton(tr("Move"), tr("Drag the drawing in the view; Escape ends it"), this);
  points_ =
      cardButton(tr("Scale by two points"),
                 tr("Click two points of the drawing, then say how far apart they are"), this);
  for (QPushButton* button : {move_, points_}) button->setCheckable(true);
  distanceWord_ = smallWord(tr("apart"), this);
  distance_ = new QDoubleSpinBox(this);
  distance_->setRange(0.01, 100'000);
  distance_->setDecimals(2);
  distance_->setSuffix(tr(" mm"));
  distance_->setKeyboardTracking(false);
  distance_->setAccessibleName(tr("How far apart the two points are"));
  row->addWidget(opacity_, 1);
  row->addWidget(move_);
  row->addWidget(points_);
  row->addWidget(distanceWord_);
  row->addWidget(distance_);
}

void DrawingCard::addCompareRow() {
  QHBoxLayout* row = addRow();
  compareRow_ = row->parentWidget();
  compares_ = new QCheckBox(tr("Compare outlines"), this);
  compares_->setToolTip(tr("The figure's outline from this side with the shape of the drawing"));
  mode_ = new QComboBox(this);
  mode_->setAccessibleName(tr("Mode that the drawing shows"));
  mode_->setToolTip(tr("The mode that the drawing shows"));
  inkWord_ = smallWord(tr("Ink"), this);
  ink_ = shareSlider(tr("From how dark on it is ink"),
                     tr("To the left, paler lines of the drawing count too"), this);
  row->addWidget(compares_);
  row->addWidget(mode_, 1);
  row->addWidget(inkWord_);
  row->addWidget(ink_, 1);
}

void DrawingCard::connectFields() {
  connect(sides_, &QComboBox::activated, this,
          [this](int index) { showSide(sideEntries()[static_cast<std::size_t>(index)].view); });
  connect(choose_, &QPushButton::clicked, this, &DrawingCard::choose);
  connect(remove_, &QPushButton::clicked, this, [this] {
    hand_.setUse(DrawingHand::Use::none);
    session_.document().edit(tr("Take the drawing away"),
                             edits::withoutDrawing(session_.document().document(), side_));
  });
  connect(move_, &QPushButton::clicked, this,
          [this](bool on) { hand_.setUse(on ? DrawingHand::Use::move : DrawingHand::Use::none); });
  connect(points_, &QPushButton::clicked, this, [this](bool on) {
    hand_.setUse(on ? DrawingHand::Use::points : DrawingHand::Use::none);
  });
  connect(distance_, &QDoubleSpinBox::valueChanged, this, &DrawingCard::scale);
  const auto connectSlider = [this](QSlider* slider, const QString& name, auto set) {
    connect(slider, &QSlider::valueChanged, this, [this, slider, name, set](int value) {
      auto changed = drawing();
      if (!changed) return;
      set(*changed, value / 100.0);
      slider->isSliderDown() ? preview(*changed) : commit(name, *changed);
    });
    connect(slider, &QSlider::sliderReleased, this, [this, name] { keepDraft(name); });
  };
  connectSlider(opacity_, tr("Opacity of the drawing"),
                [](DocumentDrawing& drawing, double share) { drawing.opacity = share; });
  connectSlider(ink_, tr("Ink of the drawing"),
                [](DocumentDrawing& drawing, double share) { drawing.threshold = share; });
  connect(compares_, &QCheckBox::toggled, this, [this](bool on) {
    board_.compare(on && on_ ? std::optional(side_) : std::nullopt);
    showSaid();
  });
  connect(mode_, &QComboBox::activated, this, [this](int index) {
    auto changed = drawing();
    if (!changed) return;
    changed->mode = index == 0 ? std::nullopt : std::optional(mode_->currentText().toStdString());
    commit(tr("Mode of the drawing"), *changed);
  });
  connect(&hand_, &DrawingHand::useChanged, this, &DrawingCard::showUse);
  connect(&hand_, &DrawingHand::pointsChanged, this, &DrawingCard::showUse);
  connect(&hand_, &DrawingHand::dragged, this, [this](const Eigen::Vector2d& by) {
    auto changed = drawing();
    if (!changed) return;
    if (!draft_) grabbed_ = changed->at;
    for (int i = 0; i < 2; ++i) {
      const auto place = static_cast<std::size_t>(i);
      changed->at[place] = std::round((grabbed_[place] + by[i]) * 100) / 100 + 0.0;
    }
    preview(*changed);
  });
  connect(&hand_, &DrawingHand::dropped, this, [this] { keepDraft(tr("Move the drawing")); });
  connect(&board_, &DrawingBoard::picturesChanged, this, &DrawingCard::showAll);
  connect(&board_, &DrawingBoard::comparisonChanged, this, [this] {
    showSaid();
    showInView();
  });
  connect(&session_, &Session::sceneChanged, this, &DrawingCard::showAll);
}

void DrawingCard::setOn(bool on) {
  if (on == on_ || (on && !session_.scene())) return Q_EMIT toggled(on_);
  on_ = on;
  setVisible(on);
  hand_.setUse(DrawingHand::Use::none);
  draft_.reset();
  if (on) {
    const auto& drawings = session_.document().document().drawings;
    const bool here = edits::drawingOn(session_.document().document(), side_) != nullptr;
    view_.setPerspective(false);
    showSide(here || drawings.empty() ? side_ : drawings.front().view);
  } else {
    board_.compare(std::nullopt);
    showInView();
  }
  Q_EMIT toggled(on);
}

void DrawingCard::showSide(StandardView side) {
  side_ = side;
  hand_.setUse(DrawingHand::Use::none);
  hand_.setAxes(board_.axes(side));
  for (const SideEntry& entry : sideEntries()) {
    if (entry.view == side) view_.lookFrom(entry.look);
  }
  sides_->setCurrentIndex(static_cast<int>(side));
  board_.compare(compares_->isChecked() ? std::optional(side_) : std::nullopt);
  showAll();
}

void DrawingCard::choose() {
  const QString folder = qt(session_.document().file().parent_path().string());
  const QString file =
      QFileDialog::getOpenFileName(this, tr("Picture for this side"), folder,
                                   tr("Pictures (*.png *.jpg *.jpeg *.bmp *.webp);;All files (*)"));
  if (!file.isEmpty()) take(file);
}

void DrawingCard::take(const QString& picture) {
  const std::filesystem::path file = picture.toStdString();
  const auto read = DrawingBoard::read(file);
  if (read->image.isNull()) {
    said_->setText(tr("%1.").arg(read->problem));
    return standInCorner();
  }
  const auto relative =
      file.lexically_relative(std::filesystem::absolute(session_.document().file()).parent_path());
  const ViewAxes axes = board_.axes(side_);
  const Silhouette figure(session_.scene()->assembly(),
                          posesOf(session_.scene()->assembly(), session_.stand().standing()), axes);
  const bool some = !figure.box().isEmpty();
  const Eigen::Vector2d middle =
      some ? Eigen::Vector2d(figure.box().center()) : Eigen::Vector2d(0, 0);
  commit(tr("Lay a drawing on this side"),
         edits::freshDrawing(side_, (relative.empty() ? file : relative).generic_string(),
                             read->image.height(), some ? figure.box().sizes().y() : 100,
                             {middle.x(), middle.y()}));
}

std::optional<DocumentDrawing> DrawingCard::drawing() const {
  if (draft_) return draft_;
  const DocumentDrawing* there = edits::drawingOn(session_.document().document(), side_);
  return there ? std::optional(*there) : std::nullopt;
}

void DrawingCard::preview(const DocumentDrawing& drawing) {
  draft_ = drawing;
  showInView();
}

void DrawingCard::keepDraft(const QString& name) {
  if (draft_) commit(name, *draft_);
}

void DrawingCard::commit(const QString& name, const DocumentDrawing& drawing) {
  draft_.reset();
  session_.document().edit(name, edits::withDrawing(session_.document().document(), drawing));
}

/// The two points that were picked are as far apart as was typed.
void DrawingCard::scale() {
  const auto& points = hand_.points();
  const auto now = drawing();
  if (!now || points.size() < 2) return;
  const auto changed = edits::scaledByPoints(*now, {points[0].x(), points[0].y()},
                                             {points[1].x(), points[1].y()}, distance_->value());
  hand_.setUse(DrawingHand::Use::none);
  if (changed) commit(tr("Scale the drawing"), *changed);
}

void DrawingCard::showAll() {
  if (!on_) return;
  if (!session_.scene()) return setOn(false);
  hand_.setAxes(board_.axes(side_));
  showFields();
  showUse();
  showSaid();
  showInView();
}

void DrawingCard::showFields() {
  const auto shown = drawing();
  placeRow_->setVisible(shown.has_value());
  compareRow_->setVisible(shown.has_value());
  remove_->setVisible(shown.has_value());
  choose_->setText(shown ? tr("Other picture…") : tr("Picture…"));
  showModes();
  if (!shown) return;
  const QSignalBlocker noOpacity(opacity_), noInk(ink_);
  opacity_->setValue(static_cast<int>(std::lround(100 * shown->opacity)));
  const auto picture = board_.picture(side_);
  const double likely = picture ? picture->likelyThreshold / 255.0 : 0.5;
  ink_->setValue(static_cast<int>(std::lround(100 * shown->threshold.value_or(likely))));
}

void DrawingCard::showModes() {
  const QSignalBlocker noMode(mode_);
  const auto shown = drawing();
  mode_->clear();
  mode_->addItem(tr("as it stands"));
  for (const DocumentMode& mode : session_.document().document().modes) {
    mode_->addItem(qt(mode.name));
    if (shown && shown->mode == mode.name) mode_->setCurrentIndex(mode_->count() - 1);
  }
}

void DrawingCard::showUse() {
  using Use = DrawingHand::Use;
  move_->setChecked(hand_.use() == Use::move);
  points_->setChecked(hand_.use() == Use::points);
  const bool both = hand_.points().size() == 2;
  distanceWord_->setVisible(both);
  distance_->setVisible(both);
  if (both) {
    const QSignalBlocker noDistance(distance_);
    distance_->setValue((hand_.points()[0] - hand_.points()[1]).norm());
    distance_->setFocus(Qt::OtherFocusReason);
    distance_->selectAll();
  }
  showSaid();
  showInView();
}

QString DrawingCard::said() const {
  return said_->text();
}

void DrawingCard::showSaid() {
  using Use = DrawingHand::Use;
  const auto shown = drawing();
  const auto picture = board_.picture(side_);
  QString words;
  if (!shown) {
    words = tr("A drawing or photograph of yours, laid on this side to work after.");
  } else if (picture && picture->image.isNull()) {
    words = tr("%1. Its place is kept: put it back, or choose another.").arg(picture->problem);
  } else if (hand_.use() == Use::points && hand_.points().size() < 2) {
    words = hand_.points().empty() ? tr("Click a point of the drawing.") : tr("And another one.");
  } else if (hand_.use() == Use::points) {
    words = tr("Type how far apart they are, and press Enter.");
  } else if (compares_->isChecked()) {
    words = board_.comparison() ? comparisonText(*board_.comparison()) : tr("Comparing…");
  }
  said_->setText(words);
  said_->setVisible(!words.isEmpty());
  standInCorner();
}

void DrawingCard::addMarks(ViewDrawing& shown, const ViewAxes& axes) const {
  const double arm = 0.02 * std::max(shown.widthMm, shown.heightMm);
  for (const Eigen::Vector2d& point : hand_.points()) {
    for (const Eigen::Vector2d& way : {Eigen::Vector2d(arm, 0), Eigen::Vector2d(0, arm)}) {
      shown.figure_W.push_back({axes.inWorld(point - way), axes.inWorld(point + way)});
    }
  }
}

ViewDrawing DrawingCard::viewOf(const DocumentDrawing& drawing) const {
  ViewDrawing shown;
  const ViewAxes axes = board_.axes(drawing.view);
  const auto picture = board_.picture(drawing.view);
  shown.right_W = axes.right_W, shown.up_W = axes.up_W;
  shown.middle_W = axes.inWorld({drawing.at[0], drawing.at[1]});
  shown.opacity = drawing.opacity;
  if (picture && !picture->image.isNull()) {
    shown.image = picture->image;
    shown.widthMm = drawing.mmPerPixel * picture->image.width();
    shown.heightMm = drawing.mmPerPixel * picture->image.height();
  }
  if (drawing.view == side_) addMarks(shown, axes);
  const auto& comparison = board_.comparison();
  if (!comparison || comparison->view != drawing.view || draft_) return shown;
  for (const auto& [from, to] : comparison->figure) {
    shown.figure_W.push_back({axes.inWorld(from), axes.inWorld(to)});
  }
  for (const auto& [from, to] : comparison->drawn) {
    shown.drawn_W.push_back({axes.inWorld(from), axes.inWorld(to)});
  }
  return shown;
}

void DrawingCard::showInView() {
  std::vector<ViewDrawing> shown;
  if (on_) {
    for (const DocumentDrawing& drawing : session_.document().document().drawings) {
      shown.push_back(viewOf(draft_ && drawing.view == draft_->view ? *draft_ : drawing));
    }
  }
  view_.setDrawings(shown);
}

void DrawingCard::standInCorner() {
  const int width = std::min(520, view_.width() - 2 * kFromViewEdgePx);
  resize(std::max(width, minimumSizeHint().width()), height());
  layout()->activate();
  const int high =
      layout()->hasHeightForWidth() ? layout()->heightForWidth(this->width()) : sizeHint().height();
  resize(this->width(), high);
  move(kFromViewEdgePx, kBelowLookBarPx);
  raise();
}

bool DrawingCard::eventFilter(QObject* watched, QEvent* event) {
  if (watched == &view_ && event->type() == QEvent::Resize) standInCorner();
  return QFrame::eventFilter(watched, event);
}

}  // namespace swingroom
