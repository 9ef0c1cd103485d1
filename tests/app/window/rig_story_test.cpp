// The harbour tug from its bare part files, nineteen of them, port side only and the pins at the
// origin, by real mouse and keys: the assembly that comes out is checked by the program and
// compared, pair by pair, with the one that its sample has.
#include <QAbstractItemView>
#include <QComboBox>
#include <QDialog>
#include <QFileDialog>
#include <QLineEdit>
#include <QMenu>
#include <QProcess>
#include <QTimer>
#include <QTreeWidget>
#include <fstream>
#include <sstream>

#include "app/panels/way/line_of_steps.h"
#include "app/window/forms/folder_form.h"
#include "app/window/forms/side_form.h"
#include "core/files/document/read_document.h"
#include "core/tree/point_query.h"
#include "tests/app/window/counted_hand.h"
#include "tests/app/window/open_window.h"
#include "tests/app/window/same_reports.h"

namespace swingroom {
namespace {

constexpr std::size_t kMostActions = 59;  ///< "Under 60".
constexpr int kPatienceMs = 400'000;      ///< Ends a test that hangs; says nothing about speed.

const std::filesystem::path kSample = SWINGROOM_SOURCE "/sample_assemblies/harbour_tug";

std::string textIn(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

/// The check of a file by the program; nothing is known from other runs.
std::string reportOf(const std::filesystem::path& file, const std::filesystem::path& report) {
  QProcess check;
  check.start(
      QCoreApplication::applicationDirPath() + QStringLiteral("/swingroom"),
      {QStringLiteral("check"), QString::fromStdString(file.string()), QStringLiteral("--no-cache"),
       QStringLiteral("--json"), QString::fromStdString(report.string())});
  EXPECT_TRUE(check.waitForFinished(kPatienceMs));
  EXPECT_EQ(check.exitCode(), 0) << check.readAllStandardError().toStdString()
                                 << check.readAllStandardOutput().toStdString();
  return textIn(report);
}

AssemblyDocument documentAt(const std::filesystem::path& file) {
  const auto read = readDocument(file);
  if (!read) throw std::runtime_error(toText(read.problems().front()));
  return read->document;
}

class RigStory : public OpenWindow {
 protected:
  RigStory() {
    std::filesystem::copy(kSample / "parts", parts());
    window_->resize(1440, 900);
    window_->layOut();
  }
  std::filesystem::path parts() const { return folder_.path() / "tug_parts"; }
  const AssemblyDocument& document() { return session().document().document(); }
  Viewport& view() { return *window_->view(); }
  JointCard& card() { return window_->rigTool()->card(); }
  RigPanel& page() { return window_->rigPanel(); }

  template <typename Condition>
  static bool inTime(Condition condition) {
    return QTest::qWaitFor(condition, kPatienceMs);
  }
  bool isQuiet() { return session().scene() && !session().isLoading(); }
  void settle() {
    ASSERT_TRUE(inTime([&] { return isQuiet() || !session().problems().empty(); }));
    ASSERT_TRUE(session().problems().empty()) << toText(session().problems().front());
  }
  /// A dialog is a loop of its own: what a person does in it comes while the hand waits.
  template <typename Act>
  void inDialog(Act act) {
    auto* timer = new QTimer(window_.get());
    QObject::connect(timer, &QTimer::timeout, window_.get(), [timer, act] {
      if (!QApplication::activeModalWidget() && !QApplication::activePopupWidget()) return;
      timer->stop();
      timer->deleteLater();
      QTest::qWait(200);  // Until it is laid out.
      act();
    });
    timer->start(100);
  }
  /// As a window manager gives it to what has just opened; there is none here.
  static void takeFocus(QWidget& window) {
    window.activateWindow();
    ASSERT_TRUE(soon([&] { return window.isActiveWindow(); }));
  }
  QPushButton* button(const QString& text) {
    for (auto* one : window_->findChildren<QPushButton*>())
      if (one->isVisible() && one->text() == text) return one;
    return nullptr;
  }

  void beginFromTheFolder();
  void showPage();
  void acceptEverything();
  void addLift();
  void addStand();
  void addHandGrip();
  void askStation(bool atEnd, const QString& entry);
  void renameMode(bool atEnd, const QString& name);
  void typeSteps(const QStringList& steps);
  QString turned(const std::string& part, double value, const std::string& there = "");
  void makeTheOtherSide();
  void lowerTheOtherArm();
  void save();
  void compareWithTheSample();
  std::optional<std::pair<PartId, Vector3d>> seenAt(int x, int y);
  QPointF placeOn(const char* part, const std::optional<Vector3d>& normal = std::nullopt);

  CountedHand hand_;
};

void RigStory::beginFromTheFolder() {
  inDialog([this] {
    auto* form = window_->findChild<FolderForm*>();
    ASSERT_NE(form, nullptr);
    takeFocus(*form);
    for (auto* field : form->findChildren<QLineEdit*>()) {
      if (field->accessibleName().startsWith(QStringLiteral("Part files")))
        hand_.click(*field, QStringLiteral("the folder's field"));
    }
    hand_.enter(QString::fromStdString(parts().string()));
  });
  QPushButton* begin = button(QStringLiteral("Begin from part files…"));
  ASSERT_NE(begin, nullptr);
  hand_.click(*begin, QStringLiteral("Begin from part files"));
  ASSERT_TRUE(inTime([&] { return isQuiet() && document().parts.size() == 19; }));
  takeFocus(*window_);
}

/// The part that is seen at a pixel, and which way its face looks there; none: beside all, or
/// something lies over the view.
std::optional<std::pair<PartId, Vector3d>> RigStory::seenAt(int x, int y) {
  const QWidget* over = view().childAt(x, y);
  if (over && over != view().childAt(4, view().height() / 2)) return std::nullopt;
  const auto hit = view().pick(QPointF(x, y));
  if (!hit) return std::nullopt;
  const Pose X_WP =
      posesOf(session().scene()->assembly(), session().stand().standing()).at(hit->part.index);
  const auto& tree = session().scene()->geometry.at(hit->part.index)->surface->tree;
  const auto nearest = closestPoint(tree, X_WP.inverse() * hit->p_W);
  const TriangleCorners& t = tree.triangles()[nearest->triangle];
  const Vector3d normal = X_WP.linear() * (t[1] - t[0]).cross(t[2] - t[0]);
  return std::pair(hit->part, Vector3d(normal.normalized()));
}

/// A visible place of the part in the view; with a normal, well inside a face that looks that way.
QPointF RigStory::placeOn(const char* name, const std::optional<Vector3d>& normal) {
  const PartId wanted = part(name);
  constexpr int kInsidePx = 14;  // Farther than the pointer snaps to an edge.
  const auto fits = [&](int x, int y) {
    const auto seen = seenAt(x, y);
    return seen && seen->first == wanted && (!normal || seen->second.dot(*normal) > 0.999999);
  };
  for (int y = 60; y < view().height() - 8; y += 3) {
    for (int x = 8; x < view().width() - 8; x += 3) {
      if (!fits(x, y)) continue;
      const bool inside = fits(x - kInsidePx, y) && fits(x + kInsidePx, y) &&
                          fits(x, y - kInsidePx) && fits(x, y + kInsidePx);
      if (!normal || inside) return {double(x), double(y)};
    }
  }
  ADD_FAILURE() << "nothing of " << name << " is in sight";
  return {};
}

void RigStory::showPage() {
  QTabBar& pages = window_->leftColumn().words();
  hand_.click(pages, pages.tabRect(LeftColumn::rig).center(), QStringLiteral("Rig"));
  ASSERT_TRUE(soon([&] { return window_->leftColumn().page() == LeftColumn::rig; }));
}

void RigStory::acceptEverything() {
  showPage();
  ASSERT_TRUE(inTime([&] { return page().acceptEverything().isEnabled(); }))
      << page().sentence().toStdString();
  hand_.click(page().acceptEverything(), QStringLiteral("Accept everything"));
  ASSERT_TRUE(inTime(
      [&] { return !window_->rig().isAccepting() && isQuiet() && !document().joints.empty(); }));
  settle();
}

/// Of the whole figure on the ground, to stand it up and set it down: no mesh says that.
void RigStory::addLift() {
  hand_.key(QStringLiteral("j"));
  ASSERT_TRUE(soon([&] { return card().isOpen(); }));
  hand_.click(card().typeButton(JointType::slide), QStringLiteral("slide"));
  hand_.click(view(), placeOn("torso", Vector3d::UnitZ()),
              QStringLiteral("a level face of the torso"));
  EXPECT_EQ(card().along().text(), QStringLiteral("0, 0, 1"));
  hand_.click(card().take(), QStringLiteral("Add"));
  ASSERT_TRUE(soon([&] { return !card().isOpen(); })) << card().words().text().toStdString();
  settle();
}

void RigStory::addStand() {
  hand_.key(QStringLiteral("j"));
  ASSERT_TRUE(soon([&] { return card().isOpen(); }));
  hand_.click(view(), placeOn("torso", Vector3d::UnitZ()), QStringLiteral("the torso"));
  hand_.click(card().through(), QStringLiteral("Through"));
  hand_.enter(QStringLiteral("0 0 0"), QStringLiteral("Tab"));
  hand_.enter(QStringLiteral("0 1 0"));
  ASSERT_TRUE(soon([&] { return !card().isOpen(); })) << card().words().text().toStdString();
  settle();
}

/// The boathook's second mount: in the fist.
void RigStory::addHandGrip() {
  hand_.key(QStringLiteral("j"));
  ASSERT_TRUE(soon([&] { return card().isOpen(); }));
  hand_.click(view(), placeOn("boathook"), QStringLiteral("the boathook"));
  hand_.click(view(), placeOn("forearm"), QStringLiteral("the forearm"));
  EXPECT_EQ(card().on().currentText(), QStringLiteral("forearm"));
  hand_.click(card().through(), QStringLiteral("Through"));
  hand_.enter(QStringLiteral("-6.55 18.5 24.45"), QStringLiteral("Tab"));
  hand_.enter(QStringLiteral("0 -1 0"));
  ASSERT_TRUE(soon([&] { return !card().isOpen(); })) << card().words().text().toStdString();
  settle();
}

/// A number of the sample's joint for the joint that holds the same part here: what the arrow of
/// its axis shows may be the other way.
QString RigStory::turned(const std::string& name, double value, const std::string& there) {
  static const AssemblyDocument sample = documentAt(kSample / "harbour_tug.swing.json");
  const auto jointOf = [](const AssemblyDocument& document, const std::string& child) {
    for (const DocumentJoint& joint : document.joints)
      if (joint.child == child && joint.along) return joint;
    throw std::runtime_error("no joint holds " + child);
  };
  const bool isMiddle = edits::findNamed(sample.parts, name) != nullptr;
  const std::string same = !there.empty() ? there : isMiddle ? name : name + "_port";
  const DocumentJoint wanted = jointOf(sample, same), here = jointOf(document(), name);
  const Vector3d a(wanted.along->data()), b(here.along->data());
  const double sign = a.dot(b) < 0 ? -1 : 1;
  return QString::number(sign * value);
}

void RigStory::typeSteps(const QStringList& steps) {
  hand_.key(QStringLiteral("shift+t"));
  StepLine& line = window_->motionPanel().stepLine();
  ASSERT_TRUE(soon([&] { return line.line().hasFocus(); }));
  for (const QString& step : steps) {
    hand_.enter(step);
    ASSERT_TRUE(soon([&] { return line.line().text().isEmpty(); }))
        << step.toStdString() << ": " << line.problem().toStdString();
    settle();
  }
}

/// An entry of the menu of the mode at an end of the shown way.
void RigStory::askStation(bool atEnd, const QString& entry) {
  inDialog([this, entry] {
    auto* menu = qobject_cast<QMenu*>(QApplication::activePopupWidget());
    ASSERT_NE(menu, nullptr);
    for (QAction* action : menu->actions()) {
      if (action->text().section(QLatin1Char('\t'), 0, 0) != entry) continue;
      return hand_.click(*menu, menu->actionGeometry(action).center(), entry);
    }
    FAIL() << "no such entry";
  });
  const LineOfSteps& line = window_->ribbon().line();
  hand_.ask(line, {window_->ribbon().axis().xAt(atEnd ? 1 : 0), line.lineY()},
            atEnd ? QStringLiteral("the last mode") : QStringLiteral("the first mode"));
}

void RigStory::renameMode(bool atEnd, const QString& name) {
  askStation(atEnd, QStringLiteral("Rename"));
  RowsView& modes = window_->motionPanel().modes();
  ASSERT_TRUE(soon([&] { return modes.findChild<QLineEdit*>() != nullptr; }));
  hand_.enter(name);
  const auto isThere = [&] { return edits::findNamed(document().modes, name.toStdString()); };
  ASSERT_TRUE(soon([&] { return isThere() != nullptr; }));
  settle();
}

/// All of port becomes starboard too; the boathook has no other side.
void RigStory::makeTheOtherSide() {
  hand_.key(QStringLiteral("ctrl+shift+d"));
  SideForm* form = window_->findChild<SideForm*>();
  ASSERT_TRUE(form && soon([&] { return form->isVisible(); }));
  takeFocus(*form);
  // The parts' files do not say where the front is: the plane is chosen.
  hand_.click(form->way(), QStringLiteral("Plane"));
  QAbstractItemView& list = *form->way().view();
  ASSERT_TRUE(soon([&] { return list.isVisible(); }));
  hand_.click(*list.viewport(), list.visualRect(list.model()->index(1, 0)).center(),
              QStringLiteral("between front and back"));
  ASSERT_EQ(form->way().currentText(), QStringLiteral("between front and back"));
  QTreeWidget& tree = form->parts();
  for (int i = 0; i < tree.topLevelItemCount(); ++i) {
    QTreeWidgetItem* item = tree.topLevelItem(i);
    if (item->data(0, Qt::UserRole).toString() != QStringLiteral("boathook")) continue;
    ASSERT_EQ(item->checkState(0), Qt::Checked);
    const QRect row = tree.visualItemRect(item);
    hand_.click(*tree.viewport(), QPointF(row.left() + 12, row.center().y()),
                QStringLiteral("the boathook's tick"));
    EXPECT_EQ(item->checkState(0), Qt::Unchecked);
  }
  ASSERT_TRUE(form->make().isEnabled()) << form->says().toStdString();
  hand_.click(form->make(), QStringLiteral("Make the other side"));
  ASSERT_TRUE(inTime([&] { return document().parts.size() == 40; }));
  takeFocus(*window_);
  settle();
}

/// As the sample has it, one arm is bent less: in the step that is there, and the mode with it.
void RigStory::lowerTheOtherArm() {
  QComboBox& ways = window_->wayBar().chooser();
  hand_.click(ways, QStringLiteral("the ways"));
  QAbstractItemView& list = *ways.view();
  ASSERT_TRUE(soon([&] { return list.isVisible(); }));
  hand_.click(*list.viewport(), list.visualRect(list.model()->index(0, 0)).center(),
              QStringLiteral("the first way"));
  ASSERT_TRUE(soon([&] { return session().stand().way() == 0; }));
  const LineOfSteps& steps = window_->ribbon().line();
  hand_.click(steps, {window_->ribbon().axis().xAt(0.95), steps.lineY()},
              QStringLiteral("its last step"));
  ASSERT_EQ(window_->motion().step(), 8u);
  hand_.key(QStringLiteral("shift+t"));
  StepLine& line = window_->motionPanel().stepLine();
  ASSERT_TRUE(soon([&] { return line.line().hasFocus(); }));
  std::string other;
  for (const DocumentPart& part : document().parts) {
    if (part.mirror && part.stages.at("block").ends_with("forearm.stl")) other = part.name;
  }
  hand_.enter(
      QString::fromStdString(other) + QLatin1Char(' ') + turned(other, 20, "forearm_starboard"),
      QStringLiteral("shift+Return"));
  ASSERT_TRUE(soon([&] { return line.line().text().isEmpty(); })) << line.problem().toStdString();
  settle();
}

void RigStory::compareWithTheSample() {
  const auto mine = session().document().file(), sample = kSample / "harbour_tug.swing.json";
  const auto names = samePlaces(mine, sample);
  EXPECT_EQ(names.size(), 40u);
  for (const auto& [name, there] : names) EXPECT_FALSE(there.empty()) << name << " stands nowhere";
  const auto modesOf = [](const AssemblyDocument& document) {
    std::vector<std::string> all;
    for (const DocumentMode& mode : document.modes) all.push_back(mode.name);
    return all;
  };
  const std::string reports[] = {reportOf(mine, folder_.path() / "mine.json"),
                                 reportOf(sample, folder_.path() / "sample.json")};
  const auto differ =
      differences(reports[0], reports[1], names, modesOf(document()), modesOf(documentAt(sample)));
  for (std::size_t i = 0; i < std::min<std::size_t>(differ.size(), 40); ++i)
    ADD_FAILURE() << differ[i];
  EXPECT_EQ(differ.size(), 0u);
}

void RigStory::save() {
  inDialog([this] {
    auto* dialog = window_->findChild<QFileDialog*>();
    ASSERT_NE(dialog, nullptr);
    takeFocus(*dialog);
    hand_.key(QStringLiteral("Return"));
  });
  hand_.key(QStringLiteral("ctrl+s"));
  ASSERT_TRUE(soon([&] { return !window_->isWindowModified(); }));
}

TEST_F(RigStory, TheTugIsRebuiltFromItsBareFolderInFewerThanSixtyActions) {
  beginFromTheFolder();
  acceptEverything();
  addLift();
  addStand();
  addHandGrip();
  const std::string grip = document().joints.back().name;
  const std::string lift = document().joints[document().joints.size() - 3].name;
  const std::string stand = document().joints[document().joints.size() - 2].name;
  const auto q = [](const std::string& s) { return QString::fromStdString(s); };
  typeSteps({QStringLiteral("funnels down: funnel ") + turned("funnel", 12.2),
             QStringLiteral("keel back: keel ") + turned("keel", 18),
             QStringLiteral("stern board open: stern board ") + turned("stern_board", 150),
             QStringLiteral("wheelhouse aft: carriage ") + turned("carriage", 18),
             QStringLiteral("head up: head ") + turned("head", 90),
             QStringLiteral("feet out: foot ") + turned("foot", 90),
             QStringLiteral("stand up: %1 57.5, %2 90").arg(q(lift), q(stand)),
             QStringLiteral("take the boathook: boathook on %1 90").arg(q(grip)),
             QStringLiteral("bend the arms: forearm ") + turned("forearm", 90)});
  renameMode(false, QStringLiteral("tug"));
  renameMode(true, QStringLiteral("deckhand"));
  askStation(true, QStringLiteral("New way on from it"));
  ASSERT_TRUE(inTime([&] { return document().sequences.size() == 2; }));
  settle();
  typeSteps({QStringLiteral("arms forward: upper arm 0 -35 0, forearm ") + turned("forearm", 55),
             QStringLiteral("sit down: thigh %1, %2 4.56, %3 60")
                 .arg(turned("thigh", 90), q(lift), q(stand)),
             QStringLiteral("bend the knees: foot %1, shin %2, knee link %3")
                 .arg(turned("foot", 32), turned("shin", -31), turned("knee_link", -31))});
  makeTheOtherSide();
  lowerTheOtherArm();
  // What touches by design, once all is known.
  showPage();
  ASSERT_TRUE(inTime([&] { return session().isProven() && !session().isChecking(); }));
  ASSERT_TRUE(inTime([&] { return page().acceptEverything().isEnabled(); }));
  hand_.click(page().acceptEverything(), QStringLiteral("Accept everything"));
  settle();
  ASSERT_TRUE(inTime([&] { return session().isProven(); }));
  save();
  RecordProperty("actions", static_cast<int>(hand_.actions()));
  std::printf("%zu actions:\n%s", hand_.actions(), hand_.text().c_str());
  EXPECT_LE(hand_.actions(), kMostActions);
  compareWithTheSample();
}

}  // namespace
}  // namespace swingroom
