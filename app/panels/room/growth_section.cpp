#include "app/panels/room/growth_section.h"

#include <QComboBox>
#include <QPushButton>
#include <QSignalBlocker>
#include <QVBoxLayout>

#include "app/panels/plain_widgets.h"
#include "core/report/words.h"

namespace swingroom {

GrowthSection::GrowthSection(Session& session, GrowthBoard& board, QWidget* parent)
    : QWidget(parent), session_(session), board_(board) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(4);
  column->addWidget(labelOf(tr("All of its surface may come out"), "heading", this));
  offset_ = addLimit(*column);
  column->addSpacing(12);
  column->addWidget(labelOf(tr("As a whole it may grow"), "heading", this));
  about_ = new QComboBox(this);
  about_->setAccessibleName(tr("The point that it grows about"));
  about_->setToolTip(tr("The point that stays where it is when the part grows"));
  about_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
  about_->setMinimumContentsLength(6);
  auto* row = new QHBoxLayout;
  row->addWidget(labelOf(tr("about"), "label", this));
  row->addWidget(about_, 1);
  column->addLayout(row);
  scale_ = addLimit(*column);
  connect(about_, &QComboBox::activated, this, &GrowthSection::takeCentre);
  connect(&board_, &GrowthBoard::changed, this, &GrowthSection::refresh);
  connect(offset_.show, &QPushButton::clicked, this, [this] {
    if (board_.offset() && board_.offset()->stop) Q_EMIT stopWanted(*board_.offset()->stop);
  });
  connect(scale_.show, &QPushButton::clicked, this, [this] {
    if (board_.scale() && board_.scale()->stop) Q_EMIT stopWanted(*board_.scale()->stop);
  });
  offset_.show->setAccessibleName(tr("Show what stops its surface"));
  scale_.show->setAccessibleName(tr("Show what stops it as a whole"));
  refresh();
}

GrowthSection::Limit GrowthSection::addLimit(QVBoxLayout& column) {
  Limit limit{};
  limit.figure = labelOf(QString(), "figure", this);
  limit.where = softText(QString(), this);
  limit.show = new QPushButton(tr("Show where"), this);
  limit.show->setProperty("narrow", true);
  limit.where->setAlignment(Qt::AlignLeft | Qt::AlignTop);
  limit.where->setMinimumHeight(2 * limit.where->fontMetrics().lineSpacing());
  keepPlace(limit.where);
  keepPlace(limit.show);
  limit.show->setToolTip(tr("At the instant when it is stopped, with the pair chosen"));
  column.addWidget(limit.figure);
  column.addWidget(limit.where);
  auto* row = new QHBoxLayout;
  row->addWidget(limit.show);
  row->addStretch(1);
  column.addLayout(row);
  return limit;
}

void GrowthSection::offerPicking(bool offered) {
  offersPicking_ = offered;
  filledFor_.reset();
  refresh();
}

void GrowthSection::showPart(std::optional<PartId> part) {
  part_ = part;
  refresh();
}

void GrowthSection::fillCentres() {
  const ScenePtr& scene = session_.scene();
  const std::string name = scene->assembly().part(*part_).name;
  auto centres = growthCentres(*scene, *part_);
  if (filledFor_ != name) picked_P_.reset();
  if (picked_P_)
    centres.push_back(
        {tr("the point %1").arg(QString::fromStdString(words::point(*picked_P_))), *picked_P_});
  if (filledFor_ == name && centres == centres_) return;
  const QSignalBlocker quiet(about_);
  const int before = filledFor_ == name ? about_->currentIndex() : 0;
  filledFor_ = name;
  centres_ = std::move(centres);
  about_->clear();
  for (const GrowthCentre& centre : centres_) about_->addItem(centre.name);
  if (offersPicking_) about_->addItem(tr("a point picked on it…"));
  about_->setCurrentIndex(before < static_cast<int>(centres_.size()) ? before : 0);
}

void GrowthSection::look() {
  if (!part_ || centres_.empty()) return;
  const auto row = static_cast<std::size_t>(std::max(0, about_->currentIndex()));
  const bool known = board_.part() == part_ && board_.scene() == session_.scene();
  const Vector3d& centre = centres_[std::min(row, centres_.size() - 1)].p_P;
  if (known && board_.centre_P() == centre &&
      (board_.isLooking() || (board_.scale() && board_.offset())))
    return;
  board_.ask(*part_, centre);
}

void GrowthSection::takeCentre(int row) {
  const bool picks = row >= static_cast<int>(centres_.size());
  Q_EMIT pickWanted(picks);
  if (!picks) look();
}

void GrowthSection::setPoint(const Vector3d& p_P) {
  picked_P_ = p_P;
  refresh();
  about_->setCurrentIndex(static_cast<int>(centres_.size()) - 1);
  look();
}

void GrowthSection::showLimit(const Limit& limit, const std::optional<GrowthLimit>& known,
                              const std::function<QString(const GrowthLimit&)>& figure) {
  const QString stop = known ? growthStop(*board_.scene(), *known) : QString();
  limit.figure->setText(known                ? figure(*known)
                        : board_.isLooking() ? tr("looking…")
                                             : tr("not looked at"));
  limit.figure->setEnabled(known.has_value());
  limit.where->setText(known && !known->done ? tr("%1 (not closer looked at)").arg(stop) : stop);
  limit.where->setVisible(!stop.isEmpty());
  limit.show->setVisible(!stop.isEmpty());
}

void GrowthSection::refresh() {
  const ScenePtr& scene = session_.scene();
  const bool has =
      scene && part_ && part_->index < scene->geometry.size() && scene->geometry[part_->index];
  setVisible(has);
  if (!has) return;
  fillCentres();
  const bool mine = board_.part() == part_ && board_.scene() == scene;
  const auto none = std::optional<GrowthLimit>();
  const double mostScale = board_.settings().mostScale, mostMm = board_.settings().mostOffsetMm;
  showLimit(scale_, mine ? board_.scale() : none,
            [&](const GrowthLimit& limit) { return scaleFigure(limit, mostScale); });
  showLimit(offset_, mine ? board_.offset() : none,
            [&](const GrowthLimit& limit) { return offsetFigure(limit, mostMm); });
}

}  // namespace swingroom
