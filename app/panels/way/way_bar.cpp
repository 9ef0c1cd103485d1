#include "app/panels/way/way_bar.h"

#include "app/models/ribbon.h"
#include "app/models/text.h"
#include "app/panels/elided_label.h"
#include "core/report/words.h"

namespace swingroom {

WayBar::WayBar(Session& session, QWidget* parent) : QWidget(parent), session_(session) {
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(16, 8, 16, 0);
  row->setSpacing(8);
  chooser_ = new QComboBox(this);
  chooser_->setAccessibleName(tr("Which way is shown"));
  chooser_->setToolTip(tr("Which way is shown"));
  run_ = new QPushButton(this);
  run_->setToolTip(tr("Space"));
  modes_ = new QHBoxLayout;
  modes_->setSpacing(0);
  where_ = new ElidedLabel(this);
  where_->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
  where_->setProperty("role", QStringLiteral("soft"));
  row->addWidget(chooser_);
  row->addWidget(run_);
  auto* standIn = new QLabel(tr("Stand in"), this);
  standIn->setProperty("role", QStringLiteral("label"));
  row->addSpacing(8);
  row->addWidget(standIn);
  row->addLayout(modes_);
  row->addWidget(where_, 1);

  connect(chooser_, &QComboBox::activated, this,
          [this](int way) { session_.stand().showWay(static_cast<std::size_t>(way)); });
  connect(run_, &QPushButton::clicked, this,
          [this] { session_.stand().setRunning(!session_.stand().isRunning()); });
  connect(&session.stand(), &Stand::runningChanged, this, &WayBar::showStand);
  connect(&session.stand(), &Stand::moved, this, &WayBar::showStand);
  connect(&session, &Session::sceneChanged, this, &WayBar::showScene);
  connect(&session.stand(), &Stand::wayChanged, this, &WayBar::showStand);
  showScene();
}

void WayBar::showScene() {
  chooser_->clear();
  while (QLayoutItem* item = modes_->takeAt(0)) {
    delete item->widget();
    delete item;
  }
  if (const ScenePtr& scene = session_.scene()) {
    for (std::size_t w = 0; w < scene->ways.size(); ++w) chooser_->addItem(wayTitle(*scene, w));
    QWidget* before = run_;
    for (std::size_t m = 0; m < scene->loaded.modes.size(); ++m) {
      auto* button = new QPushButton(qt(scene->modeName(ModeId{m})), this);
      button->setProperty("look", QStringLiteral("quiet"));
      button->setToolTip(tr("Stand in this mode"));
      connect(button, &QPushButton::clicked, this,
              [this, m] { session_.stand().standIn(ModeId{m}); });
      modes_->addWidget(button);
      setTabOrder(before, button);
      before = button;
    }
  }
  showStand();
}

void WayBar::showStand() {
  const ScenePtr& scene = session_.stand().scene();
  const Stand& stand = session_.stand();
  const bool still = !scene || words::standsStill(scene->ways[stand.way()]);
  run_->setVisible(!still);
  run_->setText(stand.isRunning() ? tr("Stop") : tr("Run"));
  chooser_->setVisible(scene && scene->ways.size() > 1);
  if (!scene) {
    where_->clear();
    return;
  }
  chooser_->setCurrentIndex(static_cast<int>(stand.way()));
  const QString at = qt(words::whereInWay(scene->loaded.modes, scene->ways[stand.way()],
                                          std::round(stand.instant() * 1e4) / 1e4));
  where_->setText(stand.isByHand() ? tr("moved by hand, from %1").arg(at) : at);
}

}  // namespace swingroom
