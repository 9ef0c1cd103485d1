// Opening, dropping, recent files, preferences: real files.
#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QDragEnterEvent>
#include <QMimeData>
#include <QPushButton>
#include <QSettings>
#include <QTimer>
#include <QUrl>

#include "app/panels/theme.h"
#include "app/window/forms/folder_form.h"
#include "app/window/forms/preferences_form.h"
#include "app/models/spoken_time.h"
#include "core/base/parallel.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

class Documents : public OpenWindow {
 protected:
  QString path(const std::filesystem::path& file) const {
    return QString::fromStdString(file.string());
  }
  /// Runs `look` on the form that opens, then cancels it.
  template <typename Look>
  void withForm(Look look) {
    bool seen = false;
    QTimer watch;
    QObject::connect(&watch, &QTimer::timeout, [&] {
      auto* form = qobject_cast<FolderForm*>(QApplication::activeModalWidget());
      if (!form || seen) return;
      seen = true;
      look(*form);
      form->reject();
    });
    watch.start(20);
    EXPECT_TRUE(soon([&] { return seen; }));
  }
};

TEST_F(Documents, SeveralDroppedPartFilesBeginAnAssemblyOfThem) {
  drop({path(folder_.path() / "lid.stl"), path(folder_.path() / "bolt.stl")});
  withForm([&](FolderForm& form) {
    QStringList said;
    for (const QLabel* label : form.findChildren<QLabel*>()) said += label->text();
    EXPECT_TRUE(said.join(QLatin1Char(' ')).contains(QStringLiteral("2 part")))
        << said.join(QLatin1Char('|')).toStdString();
  });
}

TEST_F(Documents, DroppedPartFilesOfTwoFoldersAreToldInASentence) {
  std::filesystem::create_directory(folder_.path() / "other");
  std::filesystem::copy(folder_.path() / "lid.stl", folder_.path() / "other" / "lid2.stl");
  drop({path(folder_.path() / "bolt.stl"), path(folder_.path() / "other" / "lid2.stl")});
  ASSERT_TRUE(soon([&] { return window_->problems().isVisible(); }));
  EXPECT_TRUE(window_->problems().text().contains(QStringLiteral("another folder")));
}

TEST_F(Documents, MissingRecentFileStaysOnTheListUntilItIsForgotten) {
  preferences_.clearRecent();
  const QString gone = path(folder_.write("gone.swing.json", original_));
  preferences_.addRecent(gone);
  preferences_.addRecent(path(file_));
  std::filesystem::remove(gone.toStdString());
  const auto recent = preferences_.recent();
  ASSERT_EQ(recent.size(), 2u);
  EXPECT_EQ(recent[0].file, path(file_));
  EXPECT_TRUE(recent[0].isThere);
  EXPECT_FALSE(recent[1].isThere);
  EXPECT_LT(recent[0].when.secsTo(QDateTime::currentDateTimeUtc()), 60);
  EXPECT_EQ(preferences_.recentFiles(), QStringList(path(file_)));
  const auto forget = [&] {
    for (QPushButton* button : window_->findChildren<QPushButton*>()) {
      if (button->isVisible() && button->text() == QStringLiteral("Forget it")) return button;
    }
    return static_cast<QPushButton*>(nullptr);
  };
  // The list is made anew for each change: the last one stays.
  QPushButton* button = nullptr;
  ASSERT_TRUE(soon([&] {
    QTest::qWait(150);
    QPushButton* before = std::exchange(button, forget());
    return button && button == before;
  }));
  hand_.click(*button, QRectF(button->rect()).center());
  EXPECT_EQ(preferences_.recent().size(), 1u);
}

TEST_F(Documents, PreferencesTakeEffectAtOnce) {
  open();
  auto store = std::make_shared<ResultStore>(folder_.path() / "results");
  store->keep(Digest{}, Digest{}, "a result");
  store->save();
  ASSERT_GT(store->bytesOnDisk(), 0u);
  PreferencesForm form(preferences_, store, nullptr, window_.get());
  form.show();
  const auto boxNamed = [&](const char* name) {
    for (QComboBox* box : form.findChildren<QComboBox*>()) {
      if (box->accessibleName() == QString::fromLatin1(name)) return box;
    }
    return static_cast<QComboBox*>(nullptr);
  };
  const auto choose = [&](const char* name, int index) {
    QComboBox* box = boxNamed(name);
    ASSERT_NE(box, nullptr) << name;
    box->setCurrentIndex(index);
    Q_EMIT box->activated(index);
  };
  choose("Light or dark", 2);
  EXPECT_TRUE(theme().dark);
  choose("Light or dark", 1);
  EXPECT_FALSE(theme().dark);
  const int before = QApplication::font().pixelSize();
  choose("Size of words", 2);
  EXPECT_GT(QApplication::font().pixelSize(), before);
  choose("Size of words", 0);
  EXPECT_EQ(QApplication::font().pixelSize(), before);
  auto* threads = form.findChild<QSpinBox*>();
  threads->setValue(1);
  EXPECT_EQ(defaultThreads(), 1u);
  threads->setValue(0);
  EXPECT_EQ(defaultThreads(), std::max(1u, std::thread::hardware_concurrency()));
  for (QCheckBox* box : form.findChildren<QCheckBox*>()) {
    if (!box->text().startsWith(QStringLiteral("Keep"))) continue;
    box->setChecked(false);
    EXPECT_FALSE(window_->keeper().autosave().isOn());
    box->setChecked(true);
    EXPECT_TRUE(window_->keeper().autosave().isOn());
  }
  for (QPushButton* button : form.findChildren<QPushButton*>()) {
    if (button->text() == QStringLiteral("Empty it")) button->click();
  }
  EXPECT_EQ(store->bytesOnDisk(), 0u);
  EXPECT_FALSE(store->find(Digest{}, Digest{}).has_value());
}

TEST_F(Documents, LastFileIsOpenedAtTheStartIfWanted) {
  preferences_.clearRecent();
  preferences_.addRecent(path(file_));
  window_->begin({});
  EXPECT_FALSE(session().document().isOpen());
  preferences_.setAtStart(Preferences::AtStart::lastFile);
  window_->begin({});
  preferences_.setAtStart(Preferences::AtStart::startPage);
  EXPECT_EQ(session().document().file(), file_);
}

TEST(SpokenTime, IsSaidAsOneSaysIt) {
  const QDateTime now(QDate(2026, 3, 10), QTime(9, 5));
  EXPECT_EQ(spokenTime(now.addSecs(-3600), now), QStringLiteral("at 08:05"));
  EXPECT_EQ(spokenTime(QDateTime(QDate(2026, 3, 9), QTime(23, 59)), now),
            QStringLiteral("yesterday at 23:59"));
  EXPECT_TRUE(spokenTime(QDateTime(QDate(2026, 1, 3), QTime(7, 0)), now)
                  .endsWith(QStringLiteral("at 07:00")));
  EXPECT_TRUE(
      spokenTime(QDateTime(QDate(2025, 1, 3), QTime(7, 0)), now).contains(QStringLiteral("2025")));
}

}  // namespace
}  // namespace swingroom
