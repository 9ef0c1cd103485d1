// What those rely on who do not see the window, or do not read English, or use no mouse.
#include <QAbstractButton>
#include <QAbstractSpinBox>
#include <QAccessible>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QMenuBar>
#include <QRegularExpression>
#include <QScrollBar>
#include <QTranslator>
#include <set>

#include "app/window/forms/folder_form.h"
#include "app/window/forms/keys_page.h"
#include "app/window/forms/preferences_form.h"
#include "app/window/forms/print/loads_form.h"
#include "app/window/forms/print/process_form.h"
#include "app/window/forms/print/snap_form.h"
#include "app/window/forms/print/test_piece_form.h"
#include "app/window/forms/robot_form.h"
#include "app/window/room/space_form.h"
#include "core/measure/user_tables.h"
#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

/// Parts of other controls, which speak for them.
bool isInner(const QWidget& widget) {
  const QWidget* parent = widget.parentWidget();
  return qobject_cast<const QAbstractSpinBox*>(parent) || qobject_cast<const QComboBox*>(parent) ||
         widget.objectName().startsWith(QStringLiteral("qt_")) ||
         qobject_cast<const QScrollBar*>(&widget) || widget.inherits("QComboBoxPrivateContainer") ||
         widget.inherits("QComboBoxListView");
}

QString pathOf(const QWidget& widget) {
  QStringList names;
  for (const QWidget* at = &widget; at; at = at->parentWidget()) {
    names.prepend(QString::fromLatin1(at->metaObject()->className()));
  }
  return names.join(QStringLiteral(" > "));
}

void expectNames(const QWidget& root) {
  for (QWidget* widget : root.findChildren<QWidget*>()) {
    if (widget->focusPolicy() == Qt::NoFocus || isInner(*widget)) continue;
    if (qobject_cast<QLabel*>(widget) || qobject_cast<QMenu*>(widget)) continue;
    // One that is hidden may get its words when it is shown.
    auto* button = qobject_cast<QAbstractButton*>(widget);
    if (button && button->text().isEmpty() && !button->isVisibleTo(&root)) continue;
    QAccessibleInterface* spoken = QAccessible::queryAccessibleInterface(widget);
    const QString name = spoken ? spoken->text(QAccessible::Name) : QString();
    EXPECT_FALSE(name.trimmed().isEmpty()) << "no name: " << pathOf(*widget).toStdString();
  }
}

/// The letter after a single "&".
QChar mnemonicOf(const QString& text) {
  static const QRegularExpression letter(QStringLiteral("(?<!&)&([^&])"));
  const auto found = letter.match(text);
  return found.hasMatch() ? found.captured(1).at(0).toLower() : QChar();
}

void collect(const QMenu& menu, std::vector<QAction*>& all) {
  std::map<QChar, QString> letters;
  for (QAction* action : menu.actions()) {
    if (action->isSeparator()) continue;
    const QChar letter = mnemonicOf(action->text());
    if (!letter.isNull()) {
      EXPECT_FALSE(letters.contains(letter))
          << letters[letter].toStdString() << " and " << action->text().toStdString();
      letters[letter] = action->text();
    }
    all.push_back(action);
    if (action->menu()) collect(*action->menu(), all);
  }
}

TEST_F(OpenWindow, EveryControlHasAName) {
  open();
  session().choice().choosePair(part("box"), part("bolt"));
  QTest::qWait(200);
  expectNames(*window_);
  const FolderForm folders(MeshReader::besideThisProgram(), window_.get());
  expectNames(folders);
  const RobotForm robots(MeshReader::besideThisProgram(), window_.get());
  expectNames(robots);
  const PreferencesForm preferences(preferences_, std::make_shared<ResultStore>(), nullptr, window_.get());
  expectNames(preferences);
  const KeysPage keys(allKeys(*window_->menuBar()), window_.get());
  expectNames(keys);
  for (const auto space : {SpaceForm::Space::fills, SpaceForm::Space::sweeps}) {
    const SpaceForm form(session().scene(), part("bolt"), space, folder_.path(), {}, window_.get());
    expectNames(form);
  }
  const ProcessForm process(session(), window_.get());
  expectNames(process);
  const TestPieceForm piece({}, window_.get());
  expectNames(piece);
  const SnapForm snap(builtInTables(), {}, true, window_.get());
  expectNames(snap);
  const LoadsForm loads(loadsOfScene(session().scene(), builtInTables(), "file"), window_.get());
  expectNames(loads);
  expectNames(window_->instances().sideForm());
  expectNames(window_->instances().placeForm());
}

TEST_F(OpenWindow, NoLetterAndNoKeyStandsForTwoThings) {
  open();
  std::vector<QAction*> all;
  std::map<QChar, QString> letters;
  for (QAction* top : window_->menuBar()->actions()) {
    const QChar letter = mnemonicOf(top->text());
    EXPECT_FALSE(letter.isNull()) << top->text().toStdString();
    EXPECT_FALSE(letters.contains(letter)) << top->text().toStdString();
    letters[letter] = top->text();
    collect(*top->menu(), all);
  }
  std::map<QString, QString> keys;
  for (const QAction* action : all) {
    for (const QKeySequence& key : action->shortcuts()) {
      const QString name = key.toString();
      EXPECT_FALSE(keys.contains(name)) << name.toStdString() << ": " << keys[name].toStdString()
                                        << " and " << action->text().toStdString();
      keys[name] = action->text();
    }
  }
  EXPECT_GT(keys.size(), 10u);
}

TEST_F(OpenWindow, AllKeysOfTheMenusStandOnThePageOfKeys) {
  open();
  const auto groups = allKeys(*window_->menuBar());
  std::set<QString> told;
  for (const KeyGroup& group : groups) {
    for (const auto& [what, keys] : group.keys) told.insert(what);
  }
  std::vector<QAction*> all;
  for (QAction* top : window_->menuBar()->actions()) collect(*top->menu(), all);
  for (const QAction* action : all) {
    if (action->shortcuts().isEmpty()) continue;
    EXPECT_TRUE(told.contains(QString(action->text()).remove(QLatin1Char('&'))))
        << action->text().toStdString();
  }
  hand_.key(QStringLiteral("F1"));
  auto* page = window_->findChild<KeysPage*>();
  ASSERT_NE(page, nullptr);
  EXPECT_TRUE(page->isVisible());
}

TEST_F(OpenWindow, TabGoesToTheRightAndDown) {
  open();
  session().choice().choosePair(part("box"), part("bolt"));
  QTest::qWait(200);
  std::vector<QWidget*> chain;
  QWidget* at = window_->nextInFocusChain();
  for (; at != window_.get(); at = at->nextInFocusChain()) {
    const bool stops = at->isVisible() && at->isEnabled() && !isInner(*at) &&
                       (at->focusPolicy() & Qt::TabFocus) && !qobject_cast<QLabel*>(at);
    if (stops) chain.push_back(at);
  }
  ASSERT_GT(chain.size(), 8u);
  for (std::size_t i = 1; i < chain.size(); ++i) {
    const auto place = [&](const QWidget* w) {
      return QRect(w->mapTo(window_.get(), QPoint()), w->size());
    };
    const QRect a = place(chain[i - 1]), b = place(chain[i]);
    const bool isBelow = b.center().y() > a.bottom();
    const bool isRight = b.left() >= a.left();
    EXPECT_TRUE(isBelow || isRight)
        << pathOf(*chain[i - 1]).toStdString() << "\n  then " << pathOf(*chain[i]).toStdString();
  }
}

/// Marks every text that is translated, and makes it 40 % longer.
class MarkingTranslator : public QTranslator {
 public:
  bool isEmpty() const override { return false; }
  QString translate(const char*, const char* source, const char*, int) const override {
    const QString text = QString::fromUtf8(source);
    if (text.trimmed().isEmpty()) return text;
    const QString tab = text.section(QLatin1Char('\t'), 1);
    const QString words = text.section(QLatin1Char('\t'), 0, 0);
    const QString longer = QStringLiteral("⟦") + words +
                           QString(words.size() * 2 / 5, QChar(0x00EB)) + QStringLiteral("⟧");
    return tab.isEmpty() ? longer : longer + QStringLiteral("\t⟦") + tab + QStringLiteral("⟧");
  }
};

class TranslatedWindow : public OpenWindow {
 protected:
  TranslatedWindow() {
    preferences_.clearRecent();
    QCoreApplication::installTranslator(&translator_);
    window_ = std::make_unique<MainWindow>(preferences_);
    window_->resize(1440, 900);
    window_->show();
  }
  ~TranslatedWindow() override {
    window_.reset();
    QCoreApplication::removeTranslator(&translator_);
  }

  /// What is left of a text without what is translated, what the document says, units and figures.
  QString rest(QString text) const {
    static const QRegularExpression marked(QStringLiteral("⟦[^⟦⟧]*⟧"));
    static const QRegularExpression tags(QStringLiteral("<[^>]*>"));
    text.remove(tags);
    while (text.contains(marked)) text.remove(marked);
    QStringList longestFirst = data_;
    std::sort(longestFirst.begin(), longestFirst.end(),
              [](const QString& a, const QString& b) { return a.size() > b.size(); });
    for (const QString& word : longestFirst) text.remove(word);
    static const QRegularExpression other(QStringLiteral("[^A-Za-z]"));
    return text.remove(other);
  }
  /// "step 1 bolt back, instant 0.5", "0.60 mm apart", "between 0.59 and 0.60 mm": the words of
  /// core/report/words.h, which report and command line share; and units.
  static bool isOfCore(const QString& rest) {
    static const QRegularExpression core(
        QStringLiteral("^(step|instant|mm|cm|m|inch|apart|between|and)+$"));
    return core.match(rest).hasMatch();
  }
  void expectTranslated(const QString& text, const QObject& where) {
    const QString left = rest(text);
    EXPECT_TRUE(left.size() < 2 || isOfCore(left))
        << '"' << text.toStdString() << "\" in " << where.metaObject()->className();
  }
  void expectAllTranslated(const QWidget& root) {
    for (QWidget* widget : root.findChildren<QWidget*>()) {
      if (widget->inherits("QComboBoxPrivateContainer")) continue;
      expectTranslated(widget->toolTip(), *widget);
      expectTranslated(widget->accessibleName(), *widget);
      if (auto* label = qobject_cast<QLabel*>(widget)) expectTranslated(label->text(), *label);
      if (auto* button = qobject_cast<QAbstractButton*>(widget)) {
        expectTranslated(button->text(), *button);
      }
      if (auto* line = qobject_cast<QLineEdit*>(widget)) {
        expectTranslated(line->placeholderText(), *line);
      }
      if (auto* box = qobject_cast<QComboBox*>(widget)) {
        for (int i = 0; i < box->count(); ++i) expectTranslated(box->itemText(i), *box);
      }
    }
    for (QAction* action : root.findChildren<QAction*>()) {
      expectTranslated(action->text(), *action);
    }
  }

  /// Sources of figures are names of sheets and books.
  template <typename Entry>
  void addSources(const std::vector<Entry>& entries, const TableKey<Entry>& key) {
    for (const Entry& entry : entries) {
      const QString source = QString::fromStdString((entry.*key.figure).source);
      if (!source.isEmpty()) data_ += source;
    }
  }

  MarkingTranslator translator_;
  /// What the document says itself.
  QStringList data_{QString::fromStdString(folder_.path().string()),
                    QStringLiteral("hatch_box.swing.json"), QStringLiteral("hatch box"),
                    QStringLiteral("Hatch box"), QStringLiteral("Swingroom")};
};

TEST_F(TranslatedWindow, EveryTextCanBeTranslated) {
  expectAllTranslated(*window_);
  open();
  session().choice().choosePair(part("box"), part("bolt"));
  QTest::qWait(300);
  for (const Part& part : session().scene()->assembly().parts())
    data_ += QString::fromStdString(part.name);
  for (const Joint& joint : session().scene()->assembly().joints()) data_ += QString::fromStdString(joint.name);
  for (const auto& mode : session().scene()->loaded.modes)
    data_ += QString::fromStdString(mode.name);
  for (const auto& way : session().scene()->ways) {
    data_ += QString::fromStdString(way.name);
    for (const auto& step : way.steps) data_ += QString::fromStdString(step.name);
  }
  ASSERT_TRUE(soon([&] { return window_->prints().known() && !window_->prints().isOld(); }));
  // What core says of the print in its own words.
  const PrintKnown& print = *window_->prints().known();
  data_ += processName(print);
  for (const PrinterLimit& limit : print.result.printers.limits)
    data_ += QString::fromStdString(limit.what);
  for (const Problem& note : print.asked.notes)
    data_ << QString::fromStdString(note.what) << QString::fromStdString(note.hint);
  window_->rightColumn().showPage(RightColumn::print);
  expectAllTranslated(*window_);
  const FolderForm folders(MeshReader::besideThisProgram(), window_.get());
  expectAllTranslated(folders);
  const RobotForm robots(MeshReader::besideThisProgram(), window_.get());
  expectAllTranslated(robots);
  data_ += preferences_.recoveryFolder();
  const PreferencesForm preferences(preferences_, std::make_shared<ResultStore>(), nullptr, window_.get());
  expectAllTranslated(preferences);
  for (const PrintProcess& one : builtInProcesses()) data_ += QString::fromStdString(one.name);
  for (const Material& one : builtInMaterials()) data_ += QString::fromStdString(one.name);
  for (const auto& key : processKeys()) addSources(builtInProcesses(), key);
  for (const auto& key : materialKeys()) addSources(builtInMaterials(), key);
  data_ += QString::fromStdString(userTablesFile().value_or("").string());
  const ProcessForm process(session(), window_.get());
  expectAllTranslated(process);
  const TestPieceForm piece({}, window_.get());
  expectAllTranslated(piece);
  const SnapForm snap(builtInTables(), {}, true, window_.get());
  expectAllTranslated(snap);
  const LoadsForm loads(loadsOfScene(session().scene(), builtInTables(), "file"), window_.get());
  expectAllTranslated(loads);
  const KeysPage keys(allKeys(*window_->menuBar()), window_.get());
  expectAllTranslated(keys);
  const QByteArray pictures = qgetenv("SWINGROOM_PICTURES");
  if (!pictures.isEmpty()) {
    window_->layOut();
    QTest::qWait(500);
    window_->grab().save(QString::fromLocal8Bit(pictures) + QStringLiteral("/long_words.png"));
  }
}

}  // namespace
}  // namespace swingroom
