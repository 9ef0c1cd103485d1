#include "app/panels/header_bar.h"

#include <QHBoxLayout>
#include <QVBoxLayout>
#include <set>

#include "app/edits/stage_edits.h"
#include "app/models/stages/stage_story.h"
#include "app/models/text.h"

namespace swingroom {
namespace {

/// "block stage", or "block and detail stages".
QString stagesText(const AssemblyDocument& document) {
  if (edits::stageMixOf(document).inDetail > 0) return stageMixText(document);
  std::set<std::string> stages;
  for (const DocumentPart& part : document.parts) {
    if (!part.stages.empty()) stages.insert(part.use);
  }
  QStringList names;
  for (const std::string& stage : stages) names += qt(stage);
  if (names.isEmpty()) return {};
  if (names.size() == 1) return HeaderBar::tr("%1 stage").arg(names.front());
  return HeaderBar::tr("stages %1").arg(names.join(QStringLiteral(", ")));
}

}  // namespace

HeaderBar::HeaderBar(Session& session, QWidget* parent) : QWidget(parent), session_(session) {
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(16, 8, 16, 8);
  row->setSpacing(8);
  auto* names = new QVBoxLayout;
  names->setSpacing(1);
  name_ = new QLabel(this);
  name_->setProperty("role", QStringLiteral("title"));
  file_ = new QLabel(this);
  file_->setProperty("role", QStringLiteral("label"));
  names->addWidget(name_);
  names->addWidget(file_);
  variants_ = new VariantChooser(session, this);
  check_ = new QPushButton(this);
  report_ = new QPushButton(tr("Report"), this);
  report_->setToolTip(tr("Write the report into a folder"));
  tally_ = new VerdictTally(this);
  printTally_ = new PrintTally(this);
  row->addLayout(names);
  row->addSpacing(16);
  row->addWidget(variants_);
  row->addWidget(check_);
  row->addWidget(report_);
  row->addWidget(tally_, 1);
  row->addWidget(printTally_);

  connect(check_, &QPushButton::clicked, this, [this] {
    if (session_.isChecking()) {
      session_.stopCheck();
    } else {
      session_.checkAgain();
    }
  });
  connect(&session.document(), &OpenDocument::changed, this, &HeaderBar::showDocument);
  connect(&session.document(), &OpenDocument::fileChanged, this, &HeaderBar::showDocument);
  connect(&session.document(), &OpenDocument::modifiedChanged, this, &HeaderBar::showDocument);
  connect(&session, &Session::boardChanged, this, &HeaderBar::showBoard);
  connect(&session, &Session::activityChanged, this, &HeaderBar::showBoard);
  connect(&session, &Session::problemsChanged, this, &HeaderBar::showBoard);
  showDocument();
  showBoard();
}

void HeaderBar::showDocument() {
  OpenDocument& open = session_.document();
  const QString file = qt(open.file().filename().string());
  QString name = qt(open.document().name);
  if (name.isEmpty()) name = file.section(QLatin1Char('.'), 0, 0);
  name_->setText(name);
  QStringList facts{file, stagesText(open.document())};
  if (open.isModified()) facts += tr("not saved");
  facts.removeAll(QString());
  file_->setText(facts.join(QStringLiteral(", ")));
  file_->setToolTip(qt(open.file().string()));
}

void HeaderBar::showBoard() {
  tally_->setCounts(session_.board().counts());
  check_->setText(session_.isChecking()           ? tr("Stop the check")
                  : session_.board().isComplete() ? tr("Check again")
                                                  : tr("Go on checking"));
  check_->setEnabled(session_.document().isOpen());
  report_->setEnabled(session_.isProven());
}

}  // namespace swingroom
