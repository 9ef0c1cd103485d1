#include "tests/app/pictures/sides_pictures.h"

#include <QTemporaryDir>
#include <QTest>

#include "core/files/document/moved_document.h"
#include "core/files/document/write_document.h"

namespace swingroom {
namespace {

/// The tug without its starboard side, in a folder of its own.
QString portHalf(const QTemporaryDir& folder, const AssemblyDocument& whole) {
  std::set<std::string> starboard;
  for (const DocumentPart& part : whole.parts) {
    if (part.name.ends_with("starboard")) starboard.insert(part.name);
  }
  const auto half = edits::removeParts(whole, starboard);
  if (!half) return {};
  const std::filesystem::path to = folder.path().toStdString();
  const auto from = std::filesystem::path(sampleAt("harbour_tug").toStdString()).parent_path();
  const QString file = folder.path() + QStringLiteral("/port_half.swing.json");
  saveDocument(movedDocument(half->document, from, to), file.toStdString());
  return file;
}

}  // namespace

void takeSides(Photographer& photographer) {
  const QTemporaryDir folder;
  Session& whole = photographer.openUntil(
      sampleAt("harbour_tug"), [](const Session& session) { return session.scene() != nullptr; });
  const QString file = portHalf(folder, whole.document().document());
  Session& session =
      photographer.openUntil(file, [](const Session& one) { return one.scene() != nullptr; });
  MainWindow& window = photographer.window();
  window.instances().otherSide().trigger();
  SideForm& form = window.instances().sideForm();
  QTest::qWait(500);
  photographer.takeWidget(QStringLiteral("side_form"), form);
  form.hide();
  photographer.takeOnce(QStringLiteral("side_chosen"), Preferences::Look::light, QSize(1440, 900));
  form.openFor();
  QTest::qWait(100);
  form.make().click();
  QTest::qWaitFor([&] { return !session.isLoading(); }, 20'000);
  QTest::qWait(500);
  photographer.takeOnce(QStringLiteral("side_made"), Preferences::Look::light, QSize(1440, 900));
  const auto pin = session.scene()->assembly().findPart("hip_pin_port");
  if (!pin) return;
  session.choice().choosePart(*pin);
  window.partCard().openFor(*pin, window.mapToGlobal(QPoint(260, 260)));
  photographer.takeWidget(QStringLiteral("part_card_used"), window.partCard());
  window.partCard().close();
  PlaceForm& place = window.instances().placeForm();
  place.openFor(*pin, true);
  QTest::qWait(200);
  photographer.takeWidget(QStringLiteral("place_another"), place);
  place.openFor(*pin, false);
  QTest::qWait(200);
  photographer.takeWidget(QStringLiteral("place_part"), place);
  place.hide();
}

}  // namespace swingroom
