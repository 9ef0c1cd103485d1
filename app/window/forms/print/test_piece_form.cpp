#include "app/window/forms/print/test_piece_form.h"

#include <QFileDialog>
#include <QSignalBlocker>

#include "app/models/text.h"
#include "core/measure/test_piece_files.h"
#include "core/measure/user_tables.h"
#include "core/print/process/loose_name.h"
#include "core/print/process/table_edits.h"

namespace swingroom {
namespace {

std::optional<double> measuredIn(const QDoubleSpinBox& field) {
  return field.value() > field.minimum() ? std::optional(field.value()) : std::nullopt;
}

bool saysNothing(const TestReadings& readings) {
  return readings.pins.empty() && readings.tongues.empty() && !readings.pinMm &&
         !readings.tongueMm && !readings.hole && !readings.slot;
}

}  // namespace

TestPieceForm::TestPieceForm(const std::string& process, QWidget* parent) : QDialog(parent) {
  setWindowTitle(tr("Test piece"));
  const Outcome<PrintTables> read = userTables();
  tables_ = read ? *read : builtInTables();
  if (!read) unreadable_ = qt(toText(read.problems().front()));
  build();
  fillProcesses(process);
  showPiece();
}

void TestPieceForm::fillProcesses(const std::string& wanted) {
  const QSignalBlocker quiet(process_);
  process_->clear();
  for (const PrintProcess& one : tables_.processes) process_->addItem(qt(one.name));
  const PrintProcess* known = findProcess(tables_.processes, wanted);
  process_->setCurrentIndex(known ? static_cast<int>(known - tables_.processes.data()) : 0);
}

const PrintProcess* TestPieceForm::chosen() const {
  return &tables_.processes[static_cast<std::size_t>(std::max(0, process_->currentIndex()))];
}

/// Another process may have another piece: what was felt at one says nothing of the other.
void TestPieceForm::showPiece() {
  const TestPieceWish wish = testPieceWish(*chosen());
  keepAs_->setText(process_->currentText());
  piece_->setText(tr("A plate with %1 holes and slots, a pin of %2 mm and a tongue of %3 mm. Try "
                     "both from the tightest place on, and say how they went.")
                      .arg(wish.clearancesMm.size())
                      .arg(wish.pinMm, 0, 'f', 2)
                      .arg(wish.tongueMm, 0, 'f', 2));
  if (!(wish == wish_)) {
    wish_ = wish;
    fillTable();
    forgetAll();
  }
  showFollows();
}

TestReadings TestPieceForm::readings() const {
  TestReadings readings;
  for (std::size_t i = 0; i < rows_.size(); ++i) {
    const double clearance = wish_.clearancesMm[i];
    if (const auto felt = rows_[i].pin->felt()) readings.pins.push_back({clearance, *felt});
    if (const auto felt = rows_[i].tongue->felt()) readings.tongues.push_back({clearance, *felt});
  }
  readings.pinMm = measuredIn(*pinAcross_);
  readings.tongueMm = measuredIn(*tongueAcross_);
  const auto opening = [this](const Opening& one) -> std::optional<MeasuredOpening> {
    const auto across = measuredIn(*one.across);
    if (!across || one.which->currentIndex() < 0) return std::nullopt;
    const auto place = static_cast<std::size_t>(one.which->currentIndex());
    return MeasuredOpening{wish_.clearancesMm[place], *across};
  };
  readings.hole = opening(hole_);
  readings.slot = opening(slot_);
  return readings;
}

QString TestPieceForm::nameProblem(const PrintTables& tables, const PrintProcess& read) const {
  const std::string name = looseName(keepAs_->text().toStdString());
  if (name.empty()) return tr("The process needs a name with a letter or a digit.");
  const PrintProcess* known = findProcess(tables.processes, name);
  if (!known || known == &read) return {};
  return tr("%1 is another process: it would lose its own figures.").arg(qt(known->name));
}

void TestPieceForm::showFollows() {
  const TestReadings said = readings();
  const auto read = readingsApplied(*chosen(), wish_, said);
  QStringList lines;
  QString wrong = unreadable_;
  if (read) {
    for (const ReadFigure& figure : read->figures) lines += qt(toText(figure));
    for (const std::string& note : read->notes) lines += qt(note);
  } else if (wrong.isEmpty()) {
    wrong = qt(toText(read.problems().front()));
  }
  if (wrong.isEmpty()) wrong = nameProblem(tables_, *chosen());
  if (wrong.isEmpty() && saysNothing(said)) {
    wrong = tr("Nothing is said yet: how one place felt is enough.");
  } else if (wrong.isEmpty() && read->figures.empty()) {
    wrong = tr("No figure follows from this alone.");
  }
  follows_->setText(lines.isEmpty() ? tr("No figure yet.") : lines.join(QLatin1Char('\n')));
  said_->setText(wrong);
  keep_->setEnabled(wrong.isEmpty());
  keep_->setToolTip(wrong);
  forget_->setEnabled(!saysNothing(said));
}

void TestPieceForm::forgetAll() {
  for (const Row& row : rows_) {
    row.pin->setFelt(std::nullopt);
    row.tongue->setFelt(std::nullopt);
  }
  for (QDoubleSpinBox* field : {pinAcross_, tongueAcross_, hole_.across, slot_.across}) {
    const QSignalBlocker quiet(field);
    field->setValue(field->minimum());
  }
  showFollows();
}

void TestPieceForm::askFolder() {
  const QString folder = QFileDialog::getExistingDirectory(this, tr("Folder for the test piece"));
  if (!folder.isEmpty()) writeInto(folder.toStdString());
}

void TestPieceForm::writeInto(const std::filesystem::path& folder) {
  savePiece_->setEnabled(false);
  said_->setText(tr("The test piece is being written…"));
  const auto tell = [this](const QString& sentence) {
    QMetaObject::invokeMethod(
        this,
        [this, sentence] {
          savePiece_->setEnabled(true);
          said_->setText(sentence);
        },
        Qt::QueuedConnection);
  };
  worker_.ask(
      [folder, tell, wish = wish_, process = *chosen()] {
        const auto files = writeTestPiece(folder, makeTestPiece(wish), process);
        if (!files) return tell(qt(toText(files.problems().front())));
        tell(tr("%1 is saved: print it as it lies. Beside it, an assembly to check it with.")
                 .arg(qt(files->front().string())));
      },
      [tell](const std::string& why) { tell(qt(why)); });
}

/// To what the file says now: it may have been changed meanwhile.
void TestPieceForm::takeReadings() {
  Outcome<PrintTables> now = userTables();
  if (!now) return said_->setText(qt(toText(now.problems().front())));
  const PrintProcess* process = findProcess(now->processes, chosen()->name);
  if (!process) {
    return said_->setText(tr("%1 is not in your tables any more.").arg(qt(chosen()->name)));
  }
  const QString taken = nameProblem(*now, *process);
  if (!taken.isEmpty()) return said_->setText(taken);
  auto read = readingsApplied(*process, wish_, readings());
  if (!read) return said_->setText(qt(toText(read.problems().front())));
  const std::string name = keepAs_->text().trimmed().toStdString();
  if (looseName(name) != looseName(process->name)) read->process.name = name;
  tables::keep(*now, read->process);
  if (const auto problem = saveUserTables(*now)) return said_->setText(qt(toText(*problem)));
  tables_ = *now;
  fillProcesses(read->process.name);
  said_->setText(tr("Kept as %1, measured.").arg(qt(read->process.name)));
  keep_->setEnabled(false);
  keep_->setToolTip(said_->text());
  Q_EMIT tablesSaved();
}

}  // namespace swingroom
