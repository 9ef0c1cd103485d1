#include "app/window/forms/print/process_form.h"

#include <QHBoxLayout>
#include <QSignalBlocker>
#include <QTabWidget>
#include <QVBoxLayout>

#include "app/models/text.h"
#include "app/panels/plain_widgets.h"
#include "core/measure/user_tables.h"

namespace swingroom {
namespace {

/// But for what was said at the reading.
bool sameTables(const PrintTables& a, const PrintTables& b) {
  return a.processes == b.processes && a.materials == b.materials && a.kept == b.kept;
}

QString tablesPlace() {
  const auto file = userTablesFile();
  return file ? qt(file->string()) : QString();
}

}  // namespace

ProcessForm::ProcessForm(Session& session, QWidget* parent) : QDialog(parent), session_(session) {
  setWindowTitle(tr("Print processes and materials"));
  tables_ = before_ = builtInTables();
  build();
  read();
}

void ProcessForm::build() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(24, 16, 24, 16);
  column->setSpacing(8);
  tabs_ = new QTabWidget(this);
  tabs_->setDocumentMode(true);
  tabs_->setAccessibleName(tr("Processes or materials"));
  processes_ = new ProcessPage(tables_, this);
  materials_ = new MaterialPage(tables_, this);
  tabs_->addTab(processes_, tr("Processes"));
  tabs_->addTab(materials_, tr("Materials"));
  column->addWidget(tabs_, 1);
  column->addWidget(assemblyRow());
  said_ = softText(QString(), this);
  column->addWidget(said_);
  column->addWidget(buttons());
  resize(1120, 720);
  for (TablePage* page : std::initializer_list<TablePage*>{processes_, materials_}) {
    connect(page, &TablePage::edited, this, [this] {
      fillAssembly();
      showState();
    });
  }
  connect(processes_, &TablePage::renamed, this,
          [this](const std::string& from, const std::string& to) { names_.rename(from, to); });
  connect(processes_, &TablePage::removed, this,
          [this](const std::string& name) { names_.remove(name); });
  // Its materials may be called otherwise now.
  connect(tabs_, &QTabWidget::currentChanged, this, [this] {
    if (tabs_->currentWidget() == processes_) processes_->choose(processes_->chosen());
  });
}

QWidget* ProcessForm::assemblyRow() {
  assembly_ = new QWidget(this);
  auto* row = new QHBoxLayout(assembly_);
  row->setContentsMargins(0, 8, 0, 0);
  row->setSpacing(16);
  ofAssembly_ = new QComboBox(assembly_);
  ofAssembly_->setAccessibleName(tr("This assembly is printed by"));
  ofAssembly_->setToolTip(tr("All its parts that name no process of their own"));
  row->addWidget(new QLabel(tr("This assembly is printed by"), assembly_));
  row->addWidget(ofAssembly_);
  row->addStretch(1);
  connect(ofAssembly_, &QComboBox::activated, this, [this] {
    names_.pick(ofAssembly_->currentText().toStdString());
    showState();
  });
  return assembly_;
}

QWidget* ProcessForm::buttons() {
  auto* both = new QWidget(this);
  auto* row = new QHBoxLayout(both);
  row->setContentsMargins(0, 8, 0, 0);
  row->setSpacing(8);
  again_ = new QPushButton(tr("Read the file again"), both);
  auto* cancel = new QPushButton(tr("Cancel"), both);
  save_ = new QPushButton(tr("Save"), both);
  save_->setProperty("look", QStringLiteral("main"));
  save_->setDefault(true);
  for (QPushButton* button : {again_, cancel}) button->setAutoDefault(false);
  row->addWidget(again_);
  row->addStretch(1);
  row->addWidget(cancel);
  row->addWidget(save_);
  connect(again_, &QPushButton::clicked, this, &ProcessForm::read);
  connect(cancel, &QPushButton::clicked, this, &QDialog::reject);
  connect(save_, &QPushButton::clicked, this, &ProcessForm::take);
  return both;
}

/// A file that cannot be read is never written over: it is the maker's.
void ProcessForm::read() {
  const Outcome<PrintTables> tables = userTables();
  readable_ = tables.ok();
  tables_ = before_ = tables ? *tables : builtInTables();
  processes_->takeTables();
  materials_->takeTables();
  names_.start(tables_.processes);
  problem_ = readable_ ? QString() : qt(toText(tables.problems().front()));
  tabs_->setEnabled(readable_);
  assembly_->setEnabled(readable_);
  fillAssembly();
  showState();
}

void ProcessForm::fillAssembly() {
  assembly_->setVisible(session_.document().isOpen());
  const std::string wanted = names_.wanted(session_.document().document());
  const QSignalBlocker quiet(ofAssembly_);
  ofAssembly_->clear();
  for (const PrintProcess& process : tables_.processes) ofAssembly_->addItem(qt(process.name));
  const PrintProcess* known = findProcess(tables_.processes, wanted);
  // Text of the file that no table knows, or none, stays what it is until another is chosen.
  if (!known) ofAssembly_->insertItem(0, qt(wanted));
  ofAssembly_->setCurrentIndex(known ? static_cast<int>(known - tables_.processes.data()) : 0);
}

bool ProcessForm::assemblyChanges() const {
  const OpenDocument& document = session_.document();
  return document.isOpen() && !(names_.written(document.document()) == document.document());
}

QString ProcessForm::wrongText() const {
  for (const PrintProcess& process : tables_.processes) {
    if (process.leastPinClearanceMm.value > process.mostPinClearanceMm.value) {
      return tr("%1: a pin needs more clearance to turn than the most before it flops.")
          .arg(qt(process.name));
    }
  }
  // Whatever else the file's reader would refuse.
  const auto again = parsePrintTables(toJson(tables_), "print.json");
  return again ? QString() : qt(toText(again.problems().front()));
}

void ProcessForm::showState() {
  const bool tablesChanged = !sameTables(tables_, before_);
  const QString wrong = readable_ && tablesChanged ? wrongText() : QString();
  save_->setEnabled(readable_ && wrong.isEmpty() && (tablesChanged || assemblyChanges()));
  said_->setText(problem_.isEmpty() ? stateText(wrong, tablesChanged) : problem_);
  save_->setToolTip(save_->isEnabled() ? QString() : said_->text());
  again_->setVisible(!problem_.isEmpty());
}

QString ProcessForm::stateText(const QString& wrong, bool tablesChanged) const {
  if (!wrong.isEmpty()) return wrong;
  QStringList sentences;
  if (tablesChanged) {
    sentences += tr("Figures that you change are yours: measured. They are kept in %1.")
                     .arg(tablesPlace());
  }
  if (assemblyChanges()) {
    sentences += tr("The assembly's process changes; that can be undone.");
  }
  if (sentences.isEmpty()) {
    sentences += tr("Nothing is changed. Your own figures are kept in %1.").arg(tablesPlace());
  }
  return sentences.join(QLatin1Char(' '));
}

void ProcessForm::take() {
  if (!sameTables(tables_, before_)) {
    const Outcome<PrintTables> there = userTables();
    if (!there || !sameTables(*there, before_)) {
      problem_ =
          tr("The file was changed by another program since it was read here. Read it "
             "again; what you changed here has to be changed once more.");
      return showState();
    }
    if (const auto problem = saveUserTables(tables_)) {
      said_->setText(qt(toText(*problem)));
      return;
    }
    before_ = tables_;
    Q_EMIT tablesSaved();
  }
  OpenDocument& document = session_.document();
  if (assemblyChanges()) {
    document.edit(tr("print process"), names_.written(document.document()));
  }
  accept();
}

}  // namespace swingroom
