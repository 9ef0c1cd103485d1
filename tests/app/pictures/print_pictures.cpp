#include "tests/app/pictures/print_pictures.h"

#include <QPushButton>
#include <QTest>

#include "app/panels/print/print_table_view.h"
#include "app/panels/rows_view.h"

namespace swingroom {
namespace {

bool waitForPrint(PrintBoard& board) {
  return QTest::qWaitFor([&] { return board.state() == PrintBoard::State::done && !board.isOld(); },
                         300'000);
}

/// The first finding or hint of a section, brought out; none: there is none.
std::optional<int> firstOf(PrintModel& model, PrintSection section) {
  for (const PrintRow& row : model.rows()) {
    if (row.section == section) return model.bringOut(row);
  }
  return std::nullopt;
}

void takeTable(Photographer& photographer, PrintSection section, const char* name) {
  PrintPanel& panel = photographer.window().printPanel();
  for (PrintTableView* table : panel.tables().tables()) {
    table->heading().setChecked(table->table().section == section);
    if (table->table().section != section || table->table().rows.empty()) continue;
    Q_EMIT table->rows().chosen(std::min(1, static_cast<int>(table->table().rows.size()) - 1));
    QTest::qWait(400);
    panel.ensureSeen(*table);
  }
  QTest::qWait(800);
  photographer.take(QString::fromLatin1(name));
}

}  // namespace

void takePrint(Photographer& photographer) {
  photographer.openSample("harbour_tug");
  MainWindow& window = photographer.window();
  window.rightColumn().showPage(RightColumn::print);
  photographer.takeOnce(QStringLiteral("print_busy"), Preferences::Look::light, QSize(1440, 900));
  if (!waitForPrint(window.prints())) return;
  photographer.take(QStringLiteral("print"));
  PrintModel& model = window.printPanel().model();
  const std::pair<PrintSection, const char*> sections[] = {
      {PrintSection::asPrinted, "print_gap"}, {PrintSection::walls, "print_wall"},
      {PrintSection::fits, "print_fit"},      {PrintSection::hold, "print_hold"},
      {PrintSection::stand, "print_falls"},  {PrintSection::cautions, "print_caution"},
  };
  for (const auto& [section, name] : sections) {
    const auto row = firstOf(model, section);
    if (!row) continue;
    window.printPanel().choose(*row);
    QTest::qWait(1500);
    photographer.take(QString::fromLatin1(name));
  }
  window.printPanel().list().closeRow();
  takeTable(photographer, PrintSection::stand, "print_stand");
  takeTable(photographer, PrintSection::fits, "print_joints");
  takeTable(photographer, PrintSection::set, "print_parts");
  window.printPanel().wallsButton().setChecked(true);
  QTest::qWait(2000);
  photographer.take(QStringLiteral("print_walls"));
  window.printPanel().wallsButton().setChecked(false);
}

}  // namespace swingroom
