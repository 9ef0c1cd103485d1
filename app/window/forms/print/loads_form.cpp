#include "app/window/forms/print/loads_form.h"

#include <QFileDialog>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QPainter>
#include <QVBoxLayout>

#include "app/models/text.h"
#include "app/panels/plain_widgets.h"
#include "app/panels/theme.h"
#include "core/print/set/set_loads.h"

namespace swingroom {
namespace {

constexpr int kMostSets = 1000;
constexpr int kColourColumn = 3, kLoadsColumn = 4, kPiecesColumn = 5;
constexpr double kMostAsideMm = 100;

/// A patch of the material's own colour; of words that are no colour, none.
QIcon colourPatch(const QString& colour) {
  const QColor fill(colour);
  if (!fill.isValid()) return {};
  QPixmap patch(28, 28);
  patch.setDevicePixelRatio(2);
  patch.fill(Qt::transparent);
  QPainter painter(&patch);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen(theme().soft, 1));
  painter.setBrush(fill);
  painter.drawRoundedRect(QRectF(1.5, 1.5, 11, 11), 2, 2);
  return QIcon(patch);
}

QString gramsText(const PieceMass& mass) {
  const auto grams = [](double g) { return QString::number(g, 'f', 1); };
  return LoadsForm::tr("%1 g (between %2 and %3 g, by infill and skin)")
      .arg(grams(mass.massG), grams(mass.lowerG), grams(mass.upperG));
}

QString totalsText(const SetTotals& totals, const PrintSet& set, int sets) {
  const auto count = [](std::size_t n) { return static_cast<int>(n); };
  QStringList lines{LoadsForm::tr("%1 on %2.")
                        .arg(LoadsForm::tr("%n piece(s)", nullptr, count(totals.pieces)),
                             LoadsForm::tr("%n load(s)", nullptr, count(totals.loads)))};
  QString material = gramsText(totals.mass);
  if (totals.strandMm > 0) {
    material += LoadsForm::tr(", about %1 m of filament").arg(totals.strandMm / 1000, 0, 'f', 1);
  }
  lines += material + QLatin1Char('.');
  lines += LoadsForm::tr("To put together: %1, of them %2.")
               .arg(LoadsForm::tr("%n piece(s)", nullptr,
                                  count(set.assembledPieces * static_cast<std::size_t>(sets))),
                    LoadsForm::tr("%n pin(s) of joints", nullptr,
                                  count(set.jointPins * static_cast<std::size_t>(sets))));
  if (totals.notLaid > 0) {
    lines += LoadsForm::tr("%n piece(s) are on no load: too large for the bed, or without a mesh.",
                           nullptr, count(totals.notLaid));
  }
  if (totals.massUnknown > 0) {
    lines += LoadsForm::tr("The mass of %n piece(s) is not known and not in the sum.", nullptr,
                           count(totals.massUnknown));
  }
  return lines.join(QLatin1Char('\n'));
}

}  // namespace

struct LoadsForm::Work {
  LoadsMaker make;
  LoadsOf source;
  WorkMonitor monitor;

  const LoadsOf& made() {
    if (!source.set) source = make(monitor);
    return source;
  }
};

LoadsForm::LoadsForm(LoadsMaker make, QWidget* parent)
    : QDialog(parent), work_(std::make_shared<Work>()) {
  work_->make = std::move(make);
  setWindowTitle(tr("Bed loads"));
  build();
  lay();
}

LoadsForm::~LoadsForm() {
  work_->monitor.cancel();
}

void LoadsForm::build() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(24, 20, 24, 16);
  column->setSpacing(8);
  column->addWidget(wish_ = wishRow());
  files_ = new QTreeWidget(this);
  files_->setAccessibleName(tr("Files: one process, material and colour each"));
  files_->setHeaderLabels(
      {tr("File"), tr("Process"), tr("Material"), tr("Colour"), tr("Loads"), tr("Pieces")});
  files_->setRootIsDecorated(false);
  files_->setUniformRowHeights(true);
  files_->setMinimumHeight(160);
  files_->header()->setStretchLastSection(false);
  files_->header()->setSectionResizeMode(0, QHeaderView::Stretch);
  for (const int column : {kLoadsColumn, kPiecesColumn}) {
    files_->headerItem()->setTextAlignment(column, Qt::AlignRight | Qt::AlignVCenter);
  }
  column->addWidget(files_, 1);
  progress_ = new QProgressBar(this);
  progress_->setRange(0, 0);
  progress_->setTextVisible(false);
  progress_->setFixedHeight(4);
  progress_->setAccessibleName(tr("Pieces are being laid on the bed"));
  keepPlace(progress_);
  column->addWidget(progress_);
  totals_ = new QLabel(this);
  totals_->setWordWrap(true);
  totals_->setTextInteractionFlags(Qt::TextSelectableByMouse);
  column->addWidget(totals_);
  said_ = softText(QString(), this);
  column->addWidget(said_);
  column->addWidget(buttons());
  resize(800, 480);
}

QWidget* LoadsForm::wishRow() {
  auto* box = new QWidget(this);
  auto* row = new QHBoxLayout(box);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(8);
  sets_ = new QSpinBox(box);
  sets_->setRange(1, kMostSets);
  sets_->setAccessibleName(tr("How many figures"));
  const auto aside = [&](const QString& name, double now) {
    auto* field = new QDoubleSpinBox(box);
    field->setRange(0, kMostAsideMm);
    field->setDecimals(1);
    field->setValue(now);
    field->setSuffix(tr(" mm"));
    field->setAccessibleName(name);
    return field;
  };
  const LoadSettings usual;
  spacing_ = aside(tr("Between two pieces"), usual.spacingMm);
  margin_ = aside(tr("To the bed's edges"), usual.marginMm);
  row->addWidget(new QLabel(tr("Figures"), box));
  row->addWidget(sets_);
  row->addSpacing(16);
  row->addWidget(new QLabel(tr("between two pieces"), box));
  row->addWidget(spacing_);
  row->addSpacing(16);
  row->addWidget(new QLabel(tr("to the bed's edges"), box));
  row->addWidget(margin_);
  row->addStretch(1);
  connect(sets_, &QSpinBox::valueChanged, this, &LoadsForm::lay);
  for (QDoubleSpinBox* field : {spacing_, margin_}) {
    connect(field, &QDoubleSpinBox::valueChanged, this, &LoadsForm::lay);
  }
  return box;
}

QWidget* LoadsForm::buttons() {
  auto* box = new QWidget(this);
  auto* row = new QHBoxLayout(box);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(8);
  auto* close = new QPushButton(tr("Close"), box);
  close->setAutoDefault(false);
  save_ = new QPushButton(tr("Save 3MF…"), box);
  save_->setProperty("look", QStringLiteral("main"));
  save_->setDefault(true);
  row->addStretch(1);
  row->addWidget(close);
  row->addWidget(save_);
  connect(close, &QPushButton::clicked, this, &QDialog::reject);
  connect(save_, &QPushButton::clicked, this, &LoadsForm::askFolder);
  return box;
}

void LoadsForm::showWorking(bool working, const QString& sentence) {
  working_ = working;
  progress_->setVisible(working);
  said_->setText(sentence);
  save_->setEnabled(!working && laid_ && !laid_->loads.empty());
  save_->setToolTip(save_->isEnabled() ? tr("A file for each process, material and colour")
                                       : said_->text());
}

void LoadsForm::lay() {
  showWorking(true, tr("The pieces are being laid on the bed…"));
  const LoadSettings settings{spacing_->value(), margin_->value()};
  worker_.ask(
      [this, work = work_, settings, sets = sets_->value(), asked = ++asked_] {
        stepBack();
        const LoadsOf& of = work->made();
        if (work->monitor.cancelled()) return;
        PrintSet laid = *of.set;
        laid.loads = loadsOf(*of.subject, laid.items, sets, settings);
        Answer answer;
        answer.totals = armyTotals(*of.subject, *of.set, sets, settings);
        answer.files = setFilesOf(*of.subject, laid);
        answer.notes = of.notes;
        answer.laid = std::make_shared<const PrintSet>(std::move(laid));
        QMetaObject::invokeMethod(
            this,
            [this, answer, asked] {
              if (asked == asked_) takeAnswer(answer);
            },
            Qt::QueuedConnection);
      },
      [this, asked = asked_](const std::string& why) {
        QMetaObject::invokeMethod(
            this,
            [this, why, asked] {
              if (asked != asked_) return;
              laid_.reset();  // Of another wish: not to be saved under this one.
              files_->clear();
              showWorking(false, qt(why));
            },
            Qt::QueuedConnection);
      });
}

void LoadsForm::takeAnswer(const Answer& answer) {
  laid_ = answer.laid;
  files_->clear();
  for (const SetFile& file : answer.files) {
    auto* row = new QTreeWidgetItem(
        files_, {qt(file.name), qt(file.process), qt(file.material), qt(file.colour),
                 QString::number(file.loads.size()), QString::number(file.pieces)});
    row->setIcon(kColourColumn, colourPatch(qt(file.colour)));
    for (const int column : {kLoadsColumn, kPiecesColumn}) {
      row->setTextAlignment(column, Qt::AlignRight | Qt::AlignVCenter);
    }
  }
  for (int column = 1; column < files_->columnCount(); ++column) {
    files_->resizeColumnToContents(column);
  }
  QStringList told{totalsText(answer.totals, *answer.laid, sets_->value())};
  for (const Problem& note : answer.notes) told += qt(toText(note));
  totals_->setText(told.join(QLatin1Char('\n')));
  showWorking(false, laid_->loads.empty()
                         ? tr("There is nothing to print: no part is printed, has a mesh and fits "
                              "the bed.")
                         : tr("Fewer loads may do: pieces are laid one by one, largest first. "
                              "Masses are estimates; weigh a real print."));
}

void LoadsForm::askFolder() {
  const QString folder = QFileDialog::getExistingDirectory(this, tr("Folder for the 3MF files"));
  if (!folder.isEmpty()) writeInto(folder.toStdString());
}

void LoadsForm::writeInto(const std::filesystem::path& folder) {
  if (!laid_) return;
  showWorking(true, tr("The files are being written…"));
  wish_->setEnabled(false);  // Another question would take the place of this one.
  const auto tell = [this](const QString& sentence) {
    QMetaObject::invokeMethod(
        this,
        [this, sentence] {
          wish_->setEnabled(true);
          showWorking(false, sentence);
        },
        Qt::QueuedConnection);
  };
  worker_.ask(
      [work = work_, laid = laid_, folder, tell] {
        const auto files = writeSetFiles(folder, *work->made().subject, *laid);
        if (!files) return tell(qt(toText(files.problems().front())));
        tell(tr("%n file(s) are saved in %1.", nullptr, static_cast<int>(files->size()))
                 .arg(qt(folder.string())));
      },
      [tell](const std::string& why) { tell(qt(why)); });
}

}  // namespace swingroom
