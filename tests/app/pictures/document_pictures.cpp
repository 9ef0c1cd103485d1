#include "tests/app/pictures/document_pictures.h"

#include <QFile>
#include <QMenuBar>
#include <QTemporaryDir>
#include <QTest>

#include "app/edits/pair_edits.h"
#include "app/window/forms/keys_page.h"
#include "app/window/forms/preferences_form.h"

namespace swingroom {
namespace {

/// A copy of the hatch box that may be changed.
QString copyInto(const QTemporaryDir& folder) {
  const std::filesystem::path from = SWINGROOM_SOURCE "/sample_assemblies/hatch_box";
  const std::filesystem::path to = folder.path().toStdString();
  for (const auto& entry : std::filesystem::directory_iterator(from)) {
    std::filesystem::copy(entry.path(), to / entry.path().filename());
  }
  return folder.path() + QStringLiteral("/hatch_box.swing.json");
}

void editGap(Session& session) {
  session.document().edit(QStringLiteral("Required gap of box and bolt"),
                          edits::requiredGap(session.document().document(), "box", "bolt", 0.5));
}

void takeRecent(Photographer& photographer, const QString& file) {
  Preferences& preferences = photographer.preferences();
  preferences.clearRecent();
  for (const QString& one : {QStringLiteral("/media/card/old_crane.swing.json"),
                             sampleAt("folding_lamp"), sampleAt("harbour_tug_draft"), file}) {
    preferences.addRecent(one);
  }
  photographer.begin();
  photographer.take(QStringLiteral("recent"));
}

void takeNotices(Photographer& photographer, const QString& file) {
  Session& session = photographer.open(file);
  editGap(session);
  photographer.window().keeper().autosave().writeNow();
  photographer.open(file);  // As after a crash: nobody was asked.
  photographer.take(QStringLiteral("recovery"));
  Session& again = photographer.window().session();
  editGap(again);
  QFile changed(file);
  if (changed.open(QIODevice::Append)) changed.write(" \n");
  changed.close();
  AssemblyDocument theirs = again.document().document();
  theirs.requiredGap = 0.4;
  OpenDocument other;
  other.show(theirs, file.toStdString(), false);
  other.save();
  NoticeBar& bar = photographer.window().keeper().outsideBar();
  QTest::qWaitFor([&] { return bar.isVisible(); }, 10'000);
  photographer.take(QStringLiteral("changed_outside"));
}

}  // namespace

void takeDocuments(Photographer& photographer) {
  const QTemporaryDir folder;
  const QString file = copyInto(folder);
  Preferences& preferences = photographer.preferences();
  const QString before = preferences.recoveryFolder();
  preferences.setRecoveryFolder(folder.path() + QStringLiteral("/recovery"));
  takeRecent(photographer, file);
  takeNotices(photographer, file);
  photographer.openSample("harbour_tug_draft");
  MainWindow& window = photographer.window();
  PreferencesForm form(preferences, makeUserStore(), makeUserLog(), &window);
  form.show();
  photographer.takeWidget(QStringLiteral("preferences"), form);
  form.close();
  KeysPage keys(allKeys(*window.menuBar()), &window);
  keys.show();
  photographer.takeWidget(QStringLiteral("keys"), keys);
  keys.close();
  preferences.setTextScale(1.3);
  photographer.take(QStringLiteral("large_words"));
  preferences.setTextScale(1);
  preferences.clearRecent();
  preferences.setRecoveryFolder(before);
}

}  // namespace swingroom
