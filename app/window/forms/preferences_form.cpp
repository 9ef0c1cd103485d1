#include "app/window/forms/preferences_form.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QLocale>
#include <QPushButton>
#include <QSpinBox>
#include <QVBoxLayout>
#include <thread>

#include "app/models/text.h"
#include "app/panels/plain_widgets.h"

namespace swingroom {
namespace {

/// A box of choices that calls `set` with the value of what is chosen.
template <typename Value, typename Set>
QComboBox* choices(const QString& name, const std::vector<std::pair<QString, Value>>& all,
                   Value chosen, Set set, QWidget* parent) {
  auto* box = new QComboBox(parent);
  box->setAccessibleName(name);
  for (const auto& [text, value] : all) {
    box->addItem(text);
    if (value == chosen) box->setCurrentIndex(box->count() - 1);
  }
  QObject::connect(box, &QComboBox::activated, parent,
                   [all, set](int index) { set(all[static_cast<std::size_t>(index)].second); });
  return box;
}

}  // namespace

PreferencesForm::PreferencesForm(Preferences& preferences, std::shared_ptr<ResultStore> results,
                                 std::shared_ptr<CheckLog> log, QWidget* parent)
    : QDialog(parent),
      preferences_(preferences),
      results_(std::move(results)),
      log_(std::move(log)) {
  setWindowTitle(tr("Preferences"));
  setMinimumWidth(480);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(24, 16, 24, 16);
  column->setSpacing(8);
  addLook();
  addWork();
  addKept();
  addResults();
  addHistory();
  alignFields();
  column->addSpacing(8);
  auto* buttons = new QDialogButtonBox(this);
  QPushButton* close = buttons->addButton(tr("Close"), QDialogButtonBox::RejectRole);
  close->setDefault(true);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::accept);
  column->addWidget(buttons);
}

QFormLayout* PreferencesForm::addGroup(const QString& name) {
  auto* column = static_cast<QVBoxLayout*>(layout());
  auto* heading = new QLabel(name, this);
  heading->setProperty("role", QStringLiteral("heading"));
  if (column->count() > 0) column->addSpacing(8);
  column->addWidget(heading);
  auto* form = new QFormLayout;
  form->setVerticalSpacing(8);
  form->setHorizontalSpacing(16);
  form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
  column->addLayout(form);
  return form;
}

/// Fields of all groups begin at one edge.
void PreferencesForm::alignFields() {
  const auto forms = findChildren<QFormLayout*>();
  std::vector<QWidget*> labels;
  int widest = 0;
  for (QFormLayout* form : forms) {
    for (int row = 0; row < form->rowCount(); ++row) {
      QLayoutItem* item = form->itemAt(row, QFormLayout::LabelRole);
      if (!item || !item->widget()) continue;
      labels.push_back(item->widget());
      widest = std::max(widest, item->widget()->sizeHint().width());
    }
  }
  for (QWidget* label : labels) label->setMinimumWidth(widest);
}

void PreferencesForm::addLook() {
  QFormLayout* form = addGroup(tr("Look"));
  using Look = Preferences::Look;
  form->addRow(tr("Light or dark"),
               choices<Look>(
                   tr("Light or dark"),
                   {{tr("As the system"), Look::asSystem},
                    {tr("Light"), Look::light},
                    {tr("Dark"), Look::dark}},
                   preferences_.look(), [this](Look look) { preferences_.setLook(look); }, this));
  form->addRow(
      tr("Size of words"),
      choices<double>(
          tr("Size of words"), {{tr("Usual"), 1.0}, {tr("Larger"), 1.15}, {tr("Large"), 1.3}},
          preferences_.textScale(), [this](double scale) { preferences_.setTextScale(scale); },
          this));
  auto* reduced = new QCheckBox(tr("Jump to a place instead of moving there"), this);
  reduced->setChecked(preferences_.reducedMotion());
  connect(reduced, &QCheckBox::toggled, &preferences_, &Preferences::setReducedMotion);
  form->addRow(tr("Motion of the view"), reduced);
}

void PreferencesForm::addWork() {
  QFormLayout* form = addGroup(tr("Work"));
  using AtStart = Preferences::AtStart;
  form->addRow(
      tr("At the start show"),
      choices<AtStart>(
          tr("At the start show"),
          {{tr("The start page"), AtStart::startPage},
           {tr("What was open last"), AtStart::lastFile}},
          preferences_.atStart(), [this](AtStart at) { preferences_.setAtStart(at); }, this));
  auto* threads = new QSpinBox(this);
  const auto most = static_cast<int>(std::max(1u, std::thread::hardware_concurrency()));
  threads->setRange(0, std::max(most, static_cast<int>(preferences_.threads())));
  threads->setSpecialValueText(tr("all of the machine: %1").arg(most));
  threads->setValue(static_cast<int>(preferences_.threads()));
  threads->setAccessibleName(tr("Threads of the check"));
  threads->setToolTip(
      tr("Fewer leave more of the machine to other programs; results are the same"));
  connect(threads, &QSpinBox::valueChanged, this,
          [this](int count) { preferences_.setThreads(static_cast<unsigned>(count)); });
  form->addRow(tr("Threads of the check"), threads);
  auto* desktop = new QCheckBox(tr("Tell on the desktop while the window is not in front"), this);
  desktop->setToolTip(tr("What the save of a part by another program has turned"));
  desktop->setChecked(preferences_.tellsDesktop());
  connect(desktop, &QCheckBox::toggled, &preferences_, &Preferences::setTellsDesktop);
  form->addRow(tr("Saved parts"), desktop);
}

void PreferencesForm::addKept() {
  QFormLayout* form = addGroup(tr("Against a crash"));
  auto* on = new QCheckBox(tr("Keep a copy of what is not saved"), this);
  on->setToolTip(tr("Your own file is written only when you save"));
  on->setChecked(preferences_.autosaves());
  connect(on, &QCheckBox::toggled, &preferences_, &Preferences::setAutosaves);
  form->addRow(on);
  form->addRow(softText(tr("in %1").arg(preferences_.recoveryFolder()), this));
}

void PreferencesForm::addResults() {
  QFormLayout* form = addGroup(tr("Results of earlier checks"));
  auto* size = softText(QString(), this);
  auto* empty = new QPushButton(tr("Empty it"), this);
  empty->setAccessibleName(tr("Empty the store of results"));
  empty->setToolTip(tr("Everything is checked anew then; nothing else is lost"));
  const auto show = [this, size, empty] {
    const auto bytes = static_cast<qint64>(results_->bytesOnDisk());
    const QString place = results_->folder() ? qt(results_->folder()->string()) : tr("memory");
    size->setText(
        tr("%1 in %2")
            .arg(QLocale().formattedDataSize(bytes, 1, QLocale::DataSizeSIFormat), place));
    empty->setEnabled(bytes > 0);
  };
  connect(empty, &QPushButton::clicked, this, [this, show] {
    results_->clear();
    show();
  });
  show();
  form->addRow(size);
  auto* row = new QHBoxLayout;
  row->addWidget(empty);
  row->addStretch(1);
  form->addRow(row);
}

void PreferencesForm::addHistory() {
  if (!log_) return;
  QFormLayout* form = addGroup(tr("Log of checks"));
  auto* on = new QCheckBox(tr("Keep names and figures of each check"), this);
  on->setToolTip(tr("So that checks can be held against earlier ones"));
  on->setChecked(preferences_.keepsHistory());
  connect(on, &QCheckBox::toggled, &preferences_, &Preferences::setKeepsHistory);
  form->addRow(on);
  auto* size = softText(QString(), this);
  auto* empty = new QPushButton(tr("Empty it"), this);
  empty->setAccessibleName(tr("Empty the log of checks"));
  empty->setToolTip(tr("Earlier checks of all assemblies are forgotten"));
  const auto show = [this, size, empty] {
    const auto bytes = static_cast<qint64>(log_->bytesOnDisk());
    size->setText(tr("%1 in %2")
                      .arg(QLocale().formattedDataSize(bytes, 1, QLocale::DataSizeSIFormat),
                           qt(log_->folder().string())));
    empty->setEnabled(bytes > 0);
  };
  connect(empty, &QPushButton::clicked, this, [this, show] {
    log_->clear();
    show();
  });
  show();
  form->addRow(size);
  auto* row = new QHBoxLayout;
  row->addWidget(empty);
  row->addStretch(1);
  form->addRow(row);
}

}  // namespace swingroom
