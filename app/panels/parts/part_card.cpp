#include "app/panels/parts/part_card.h"

#include <QCheckBox>
#include <QComboBox>
#include <QCompleter>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPushButton>
#include <QScreen>
#include <QSpinBox>
#include <filesystem>
#include <set>

#include "app/edits/instance_edits.h"
#include "app/models/text.h"
#include "app/panels/plain_widgets.h"
#include "app/panels/theme.h"
#include "core/measure/stage_check.h"
#include "core/report/part_colour.h"

namespace swingroom {
namespace {

constexpr int kCardWidthPx = 288;
constexpr int kMostCount = 999;

QPixmap chipOf(const QColor& colour) {
  QPixmap chip(12, 12);
  chip.fill(colour);
  return chip;
}

}  // namespace

PartCard::PartCard(Session& session, QWidget* window)
    : QFrame(window, Qt::Popup), session_(session) {
  setProperty("ground", QStringLiteral("panel"));
  setProperty("card", QStringLiteral("plain"));
  setAccessibleName(tr("Properties of the part"));
  build();
  // An undone edit is seen too.
  connect(&session.document(), &OpenDocument::changed, this, [this] {
    if (isVisible()) fill();
  });
}

void PartCard::build() {
  form_ = new QFormLayout(this);
  form_->setContentsMargins(16, 12, 16, 12);
  form_->setHorizontalSpacing(12);
  form_->setVerticalSpacing(6);
  const auto add = [this](const QString& word, QWidget* field) {
    auto* label = new QLabel(word, this);
    label->setProperty("role", QStringLiteral("label"));
    label->setBuddy(field);
    field->setAccessibleName(word);
    form_->addRow(label, field);
  };
  name_ = new QLineEdit(this);
  material_ = new QLineEdit(this);
  kind_ = new QComboBox(this);
  kind_->addItems({tr("printed"), tr("bought"), tr("soft")});  // In the order of PartKind.
  stage_ = new QComboBox(this);
  count_ = new QSpinBox(this);
  count_->setRange(1, kMostCount);
  count_->setKeyboardTracking(false);
  clear_ = new QCheckBox(tr("see-through"), this);
  colour_ = new QPushButton(this);
  mesh_ = new QLabel(this);
  mesh_->setProperty("role", QStringLiteral("label"));
  mesh_->setWordWrap(true);
  problem_ = new QLabel(this);
  problem_->setWordWrap(true);
  add(tr("Name"), name_);
  form_->addRow(problem_);
  add(tr("Material"), material_);
  add(tr("Kind"), kind_);
  add(tr("Stage"), stage_);
  add(tr("How many"), count_);
  add(tr("Colour"), colour_);
  form_->addRow(QString(), clear_);
  form_->addRow(mesh_);
  detailFile_ = quietButton(tr("Detail file…"), tr("Chooses the part's detail mesh."), this);
  compare_ = quietButton(tr("Compare stages"),
                         tr("Where the detail's surface moved against the block, and the gaps with both."), this);
  auto* stages = new QHBoxLayout;
  stages->setContentsMargins(0, 0, 0, 0);
  stages->addWidget(detailFile_);
  stages->addWidget(compare_);
  stages->addStretch(1);
  form_->addRow(stages);
  connect(detailFile_, &QPushButton::clicked, this, [this] {
    close();
    Q_EMIT detailFileWanted();
  });
  connect(compare_, &QPushButton::clicked, this, [this] {
    close();
    Q_EMIT compareWanted();
  });

  connect(name_, &QLineEdit::editingFinished, this, &PartCard::takeName);
  connect(material_, &QLineEdit::editingFinished, this, &PartCard::takeProperties);
  connect(kind_, &QComboBox::activated, this, &PartCard::takeProperties);
  connect(stage_, &QComboBox::activated, this, &PartCard::takeProperties);
  connect(count_, &QSpinBox::valueChanged, this, &PartCard::takeProperties);
  connect(clear_, &QCheckBox::toggled, this, &PartCard::takeProperties);
  connect(colour_, &QPushButton::clicked, this, [this] {
    close();
    Q_EMIT colourWanted();
  });
}

const DocumentPart* PartCard::part() const {
  return edits::findNamed(session_.document().document().parts, shown_);
}

void PartCard::openFor(PartId id, const QPoint& onScreen) {
  const ScenePtr& scene = session_.scene();
  if (!scene || id.index >= scene->assembly().parts().size()) return;
  shown_ = scene->assembly().part(id).name;
  id_ = id;
  if (!part()) return;
  fill();
  showProblem("");
  setFixedWidth(kCardWidthPx);
  adjustSize();
  const QScreen* screen =
      window()->parentWidget() ? window()->parentWidget()->screen() : this->screen();
  const QRect sight = screen->availableGeometry().adjusted(4, 4, -4, -4);
  move(std::clamp(onScreen.x() + 8, sight.left(), std::max(sight.left(), sight.right() - width())),
       std::clamp(onScreen.y(), sight.top(), std::max(sight.top(), sight.bottom() - height())));
  show();
  name_->setFocus(Qt::OtherFocusReason);
  name_->selectAll();
}

void PartCard::fill() {
  const DocumentPart* written = part();
  if (!written) return close(), void();
  filling_ = true;
  const edits::PartProperties now = edits::propertiesOf(*written);
  name_->setText(qt(written->name));
  material_->setText(qt(now.material));
  kind_->setCurrentIndex(static_cast<int>(now.kind));
  stage_->clear();
  for (const auto& [stage, path] : written->stages) {
    stage_->addItem(qt(stage));
    stage_->setItemData(stage_->count() - 1, qt(path), Qt::ToolTipRole);
  }
  stage_->setCurrentText(qt(now.stage));
  form_->setRowVisible(stage_, stage_->count() > 1);
  compare_->setVisible(hasBothStages(*written));
  count_->setValue(now.count);
  clear_->setChecked(now.clear);
  const Rgb rgb = partColour(written->colour);
  colour_->setIcon(chipOf(QColor(rgb.red, rgb.green, rgb.blue)));
  colour_->setText(written->colour.empty() ? tr("Choose…") : qt(written->colour));
  std::set<QString> materials;
  for (const DocumentPart& other : session_.document().document().parts) {
    if (!other.material.empty()) materials.insert(qt(other.material));
  }
  auto* completer = new QCompleter(QStringList(materials.begin(), materials.end()), material_);
  completer->setCaseSensitivity(Qt::CaseInsensitive);
  delete material_->completer();
  material_->setCompleter(completer);
  mesh_->setText(meshText());
  filling_ = false;
}

QString PartCard::meshText() const {
  const ScenePtr& scene = session_.scene();
  if (!scene || !id_ || id_->index >= scene->assembly().parts().size()) return {};
  const auto& mesh = scene->assembly().part(*id_).mesh;
  if (!mesh) return tr("No mesh: it is not checked.");
  const bool closed = scene->geometry[id_->index]->solid.isClosed();
  const QString said =
      tr("Mesh: %1 triangles, %2.")
          .arg(QLocale::c().toString(static_cast<qulonglong>(mesh->triangles.size())),
               closed ? tr("closed") : tr("not closed, so checked as a surface only"));
  QStringList lines{said, usedText()};
  for (const Problem& note : session_.stageFits().notesOf(shown_)) {
    lines += tr("The detail %1.").arg(qt(note.what));
  }
  lines.removeAll(QString());
  return lines.join(QLatin1Char('\n'));
}

QString PartCard::usedText() const {
  for (const edits::PartsListRow& row : edits::partsList(session_.document().document())) {
    if (row.count < 2 || !edits::contains(row.parts, shown_)) continue;
    const QString file = qt(std::filesystem::path(row.file).filename().string());
    if (file.isEmpty()) return {};
    return row.mirrored ? tr("%1, mirrored, %2 times.").arg(file).arg(row.count)
                        : tr("%1, %2 times.").arg(file).arg(row.count);
  }
  return {};
}

void PartCard::showProblem(const std::string& what) {
  problem_->setText(qt(what));
  form_->setRowVisible(problem_, !what.empty());
  adjustSize();
}

std::optional<Problem> PartCard::rename(PartId id, const QString& name) {
  const ScenePtr& scene = session_.scene();
  if (!scene || id.index >= scene->assembly().parts().size()) return std::nullopt;
  const std::string was = scene->assembly().part(id).name;
  const auto edited = edits::renamePart(session_.document().document(), was, name.toStdString());
  if (!edited) return edited.problems().front();
  if (shown_ == was) shown_ = edits::trimmed(name.toStdString());
  session_.document().edit(tr("name of part %1").arg(qt(was)), *edited);
  return std::nullopt;
}

void PartCard::takeName() {
  if (filling_ || !id_ || name_->text() == qt(shown_)) return;
  const auto problem = rename(*id_, name_->text());
  showProblem(problem ? toText(*problem) : "");
}

void PartCard::keyPressEvent(QKeyEvent* event) {
  // What is half typed is not taken.
  if (event->matches(QKeySequence::Cancel)) fill();
  QFrame::keyPressEvent(event);
}

void PartCard::takeProperties() {
  if (filling_ || !part()) return;
  edits::PartProperties wanted = edits::propertiesOf(*part());
  wanted.material = edits::trimmed(material_->text().toStdString());
  wanted.kind = static_cast<PartKind>(kind_->currentIndex());
  if (stage_->count() > 1) wanted.stage = stage_->currentText().toStdString();
  wanted.count = count_->value();
  wanted.clear = clear_->isChecked();
  const auto edited = edits::setProperties(session_.document().document(), shown_, wanted);
  if (!edited) return showProblem(toText(edited.problems().front()));
  session_.document().edit(tr("properties of %1").arg(qt(shown_)), *edited);
}

}  // namespace swingroom
