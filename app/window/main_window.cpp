#include "app/window/main_window.h"

#include <QApplication>
#include <QCloseEvent>
#include <QMimeData>
#include <QProgressBar>
#include <QPushButton>
#include <QSplitter>
#include <QStatusBar>
#include <QTimer>
#include <QVBoxLayout>

#include "app/models/activity.h"
#include "app/models/gap_there.h"
#include "app/models/kept_part.h"
#include "app/models/pair_story.h"
#include "app/models/plurals.h"
#include "app/models/ribbon.h"
#include "app/models/text.h"
#include "app/panels/elided_label.h"
#include "app/panels/theme.h"
#include "app/window/stages/stage_actions.h"
#include "app/window/start_page.h"
#include "app/window/variants/variant_actions.h"
#include "app/window/view/look_bar.h"
#include "core/base/parallel.h"
#include "core/measure/user_tables.h"

namespace swingroom {
namespace {

constexpr int kToldMs = 8000;

QWidget* onPanel(QWidget* widget) {
  widget->setProperty("ground", QStringLiteral("panel"));
  widget->setAttribute(Qt::WA_StyledBackground);
  return widget;
}

QFrame* hairline(QWidget* parent) {
  auto* line = new QFrame(parent);
  line->setProperty("hairline", true);
  line->setFixedHeight(1);
  return line;
}

QWidget* stacked(std::initializer_list<QWidget*> widgets, QWidget* stretched, QWidget* parent) {
  auto* box = onPanel(new QWidget(parent));
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  for (QWidget* widget : widgets) column->addWidget(widget, widget == stretched ? 1 : 0);
  return box;
}

QSplitter* makeSplitter(Qt::Orientation orientation, QWidget* parent) {
  auto* splitter = new QSplitter(orientation, parent);
  splitter->setChildrenCollapsible(false);
  splitter->setHandleWidth(1);
  return splitter;
}

}  // namespace

MainWindow::MainWindow(Preferences& preferences, bool withView,
                       std::shared_ptr<ResultStore> results, std::shared_ptr<CheckLog> log)
    : preferences_(preferences),
      results_(std::move(results)),
      log_(std::move(log)),
      session_(MeshReader::besideThisProgram(), results_) {
  installEnglishPlurals();
  showTheme();  // Before the widgets, so that they are made in its font.
  files_ = new FileActions(session_, preferences_, *this);
  keeper_ = new DocumentKeeper(session_, preferences_, *files_, this);
  setAcceptDrops(true);
  setMinimumSize(860, 560);
  resize(1440, 900);
  buildBody(withView);
  buildStatus();
  connectRibbon();
  connectSession();
  connectMotion();
  connectPartCard();
  connectRig();
  connectNews();
  connectStages();
  connectRoom();
  connectPrint();
  buildFileMenu();
  connectPrintForms();
  buildEditMenu();
  buildViewMenu();
  buildRigMenu();
  buildRoomMenu();
  buildWayMenu();
  buildHelpMenu();
  connect(&preferences_, &Preferences::lookChanged, this, &MainWindow::showTheme);
  connect(&preferences_, &Preferences::changed, this,
          [this] { setDefaultThreads(preferences_.threads()); });
  setDefaultThreads(preferences_.threads());
  connect(keeper_, &DocumentKeeper::told, this,
          [this](const QString& words) { statusBar()->showMessage(words, kToldMs); });
  showTitle();
  showActivity();
}

MainWindow::~MainWindow() {
  delete keeper_;  // Before the document: what is kept of it stays, as after a crash.
}

QWidget* MainWindow::buildView() {
  view_ = new Viewport(this);
  view_->setMinimumSize(240, 180);
  view_->setReducedMotion(preferences_.reducedMotion());
  bridge_ = new ViewBridge(session_, *view_, this);
  new LookBar(*view_);
  section_ = new SectionCard(session_, *view_);
  drawing_ = new DrawingCard(session_, *view_);
  new HandBar(*motion_, *view_);
  guides_ = new RigGuides(*rig_, *view_, this);
  rigTool_ = new RigTool(*rig_, *view_, *guides_, this);
  return view_;
}

void MainWindow::buildBody(bool withView) {
  header_ = new HeaderBar(session_, this);
  problems_ = new ProblemsView(this);
  parts_ = new PartsPanel(session_, this);
  joints_ = new JointsPanel(session_, this);
  motion_ = new MotionEditor(session_, this);
  typing_ = new StepTyping(*motion_, this);
  motionPanel_ = new MotionPanel(*motion_, *typing_, this);
  finder_ = new RigFinder(session_, this);
  rig_ = new RigEditor(session_, *finder_, this);
  rigPanel_ = new RigPanel(*rig_, this);
  roomBoard_ = new RoomBoard(session_, this);
  growthBoard_ = new GrowthBoard(session_, this);
  roomPanel_ = new RoomPanel(session_, *roomBoard_, this);
  left_ = new LeftColumn(parts_, motionPanel_, rigPanel_, roomPanel_, this);
  findings_ = new FindingsPanel(session_, this);
  printBoard_ = new PrintBoard(session_, userTables, this);
  printPanel_ = new PrintPanel(session_, *printBoard_, this);
  wayBar_ = new WayBar(session_, this);
  ribbon_ = new WayRibbon(this);

  across_ = makeSplitter(Qt::Horizontal, this);
  jointsLine_ = hairline(this);
  across_->addWidget(stacked({left_, jointsLine_, joints_}, left_, this));
  if (withView) across_->addWidget(buildView());
  saveNews_ = new SaveNews(session_, keeper_->outsideChanges(), preferences_, log_,
                           view_ ? static_cast<QWidget&>(*view_) : *across_, this);
  history_ = new HistoryPanel(session_, saveNews_->history(), this);
  right_ = new RightColumn(findings_, printPanel_, history_, this);
  across_->addWidget(onPanel(right_));
  across_->setStretchFactor(withView ? 1 : 0, 1);
  down_ = makeSplitter(Qt::Vertical, this);
  down_->addWidget(across_);
  down_->addWidget(stacked({wayBar_, ribbon_}, ribbon_, this));
  down_->setStretchFactor(0, 1);

  partActions_ = new PartActions(session_, *parts_, bridge_, this);
  instances_ = new InstanceActions(session_, this);
  stages_ = new StageActions(session_, this);
  variants_ = new VariantActions(session_, this);
  connect(&header_->variants(), &VariantChooser::tableWanted, variants_, &VariantActions::openTable);
  connect(variants_, &VariantActions::told, this,
          [this](const QString& words) { statusBar()->showMessage(words, kToldMs); });
  partActions_->addMore(instances_->ofParts() + stages_->ofParts() << &variants_->keepPart());
  if (view_ != nullptr)
    connect(view_, &Viewport::menuWanted, partActions_, &PartActions::openMenu);

  auto* start = new StartPage(preferences_, this);
  pages_ = new QStackedWidget(this);
  pages_->addWidget(start);
  pages_->addWidget(down_);
  connect(start, &StartPage::openWanted, files_, &FileActions::askOpen);
  connect(start, &StartPage::folderWanted, files_, [this] { files_->beginFromFolder(); });
  connect(start, &StartPage::fileWanted, files_, &FileActions::open);
  connect(files_, &FileActions::noted, problems_, &ProblemsView::showNotes);
  connect(files_, &FileActions::opened, this, [this] {
    problems_->hide();
    pages_->setCurrentIndex(1);
    ribbon_->setFocus();
  });

  setCentralWidget(stacked({header_, hairline(this), keeper_, problems_, pages_}, pages_, this));
  header_->setVisible(false);
}

void MainWindow::buildStatus() {
  activity_ = new ElidedLabel(this);
  tightest_ = new ElidedLabel(this);
  progress_ = new QProgressBar(this);
  progress_->setFixedSize(120, 6);
  progress_->setTextVisible(false);
  for (QLabel* label : {activity_, tightest_}) label->setProperty("role", QStringLiteral("label"));
  notes_ = new QPushButton(this);
  notes_->setProperty("look", QStringLiteral("link"));
  connect(notes_, &QPushButton::clicked, this, [this] { problems_->showNotes(session_.notes()); });
  tightest_->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
  auto* line = new QWidget(this);
  auto* row = new QHBoxLayout(line);
  row->setContentsMargins(16, 0, 16, 0);
  row->setSpacing(12);
  row->addWidget(progress_);
  row->addWidget(activity_, 1);
  row->addWidget(notes_);
  row->addWidget(tightest_, 1);
  statusBar()->setSizeGripEnabled(false);
  statusBar()->addWidget(line, 1);
}

void MainWindow::connectRibbon() {
  Stand& stand = session_.stand();
  const auto scrub = [this](double instant) {
    session_.stand().setRunning(false);
    session_.stand().moveTo(instant);
  };
  connect(ribbon_, &WayRibbon::instantWanted, this, scrub);
  connect(ribbon_, &WayRibbon::pairWanted, this, [this, scrub](PartId a, PartId b, double instant) {
    session_.choice().choosePair(a, b);
    scrub(instant);
  });
  connect(ribbon_, &WayRibbon::partWanted, &session_.choice(), &Choice::choosePart);
  connect(ribbon_, &WayRibbon::onlyChosenChanged, this, &MainWindow::showRibbon);
  connect(&session_.liveGaps(), &LiveGaps::pairMeasured, this, [this](const PairNow& now) {
    if (session_.choice().pair() == now.pair) ribbon_->setFigureNow(labelText(now));
  });
  ribbon_->setGapThere([this](PartId a, PartId b, double instant) {
    return gapThere(session_.board(), session_.stand().way(), a, b, instant);
  });
  connect(ribbon_, &WayRibbon::runWanted, this,
          [this] { session_.stand().setRunning(!session_.stand().isRunning()); });
  connect(&stand, &Stand::moved, this, [this] { ribbon_->setInstant(session_.stand().instant()); });
  connect(&stand, &Stand::wayChanged, this, &MainWindow::showRibbon);
  connect(&session_, &Session::boardChanged, this, &MainWindow::showRibbon);
  connect(&session_.choice(), &Choice::changed, this, &MainWindow::showRibbon);
}

void MainWindow::connectSession() {
  OpenDocument& document = session_.document();
  connect(&document, &OpenDocument::modifiedChanged, this, &MainWindow::showTitle);
  connect(&document, &OpenDocument::fileChanged, this, &MainWindow::showTitle);
  connect(&session_, &Session::activityChanged, this, &MainWindow::showActivity);
  connect(&session_, &Session::boardChanged, this, &MainWindow::showActivity);
  connect(&session_, &Session::problemsChanged, this, &MainWindow::showProblems);
  connect(files_, &FileActions::failed, this,
          [this](const QString& heading, const Problems& problems) {
            problems_->show(heading, problems);
          });
  connect(&header_->reportButton(), &QPushButton::clicked, this, &MainWindow::askReport);
  connect(&header_->tally(), &VerdictTally::verdictClicked, findings_, &FindingsPanel::toggleOnly);
  connect(
      &reports_, &ReportWriter::done, this,
      [this](const std::filesystem::path& folder, const std::optional<Problem>& problem) {
        if (problem) problems_->show(tr("The report was not written"), {*problem});
        showActivity();
        if (!problem) {
          activity_->setText(tr("The report is in %1").arg(qt((folder / "report.html").string())));
        }
      });
  connect(&reports_, &ReportWriter::started, this, &MainWindow::showActivity);
}

void MainWindow::connectNews() {
  connect(saveNews_, &SaveNews::historyWanted, this,
          [this] { right_->showPage(RightColumn::history); });
  connect(&header_->tally(), &VerdictTally::verdictClicked, right_,
          [this] { right_->showPage(RightColumn::findings); });
  if (!drawing_) return;
  OutsideChanges& changes = keeper_->outsideChanges();
  DrawingBoard& drawings = drawing_->board();
  connect(&changes, &OutsideChanges::drawingsChanged, &drawings, &DrawingBoard::readAgain);
  connect(&drawings, &DrawingBoard::notRead, &changes, &OutsideChanges::drawingFailed);
}

void MainWindow::showRibbon() {
  const ScenePtr& scene = session_.scene();
  const std::size_t way = session_.stand().way();
  const Choice& choice = session_.choice();
  keptPart_ = scene ? keptPart(keptPart_, choice) : std::nullopt;
  const auto only = ribbon_->onlyChosen() ? keptPart_ : std::nullopt;
  ribbon_->setWay(scene ? lineOf(*scene, way) : WayLine());
  ribbon_->setRibbon(ribbonOf(session_.board(), way, choice.pair(), only));
  ribbon_->setKeptPart(keptPart_ ? qt(scene->assembly().part(*keptPart_).name) : QString());
  ribbon_->setInstant(session_.stand().instant());
  ribbon_->setChosen(choice.pair(), choice.part());
}

void MainWindow::showTheme() {
  const Preferences::Look look = preferences_.look();
  static const bool systemIsDark =
      QApplication::palette().color(QPalette::Window).lightness() < 128;
  const bool dark =
      look == Preferences::Look::dark || (look == Preferences::Look::asSystem && systemIsDark);
  const bool resized = textScale() != preferences_.textScale();
  setTextScale(preferences_.textScale());
  if (!themed_ || theme().dark != dark || resized)
    applyTheme(*qApp, dark ? darkTheme() : lightTheme());
  themed_ = true;
  if (bridge_) bridge_->showTheme();
  if (roomView_) roomView_->showTheme();
  if (wallsView_) wallsView_->showTheme();
  if (view_) view_->setReducedMotion(preferences_.reducedMotion());
}

void MainWindow::showTitle() {
  const OpenDocument& document = session_.document();
  header_->setVisible(document.isOpen());
  setWindowModified(document.isModified());
  setWindowTitle(document.isOpen()
                     ? tr("%1[*] - Swingroom").arg(qt(document.file().filename().string()))
                     : tr("Swingroom"));
}

void MainWindow::showActivity() {
  activity_->setText(reports_.isWriting() ? tr("Writing the report…") : activityText(session_, printStanding(*printBoard_)));
  tightest_->setText(tightestText(session_.board()));
  const auto notes = static_cast<int>(session_.notes().size());
  notes_->setText(tr("%n note(s)", nullptr, notes));
  notes_->setVisible(notes > 0);
  const CheckBoard& board = session_.board();
  const bool busy = session_.isLoading() || session_.isChecking() || reports_.isWriting();
  progress_->setVisible(busy);
  progress_->setRange(0, session_.isChecking() ? static_cast<int>(board.pairsInAll()) : 0);
  progress_->setValue(static_cast<int>(board.pairsKnown()));
}

void MainWindow::showProblems() {
  problems_->show(tr("It cannot be checked as it is"), session_.problems());
  if (motion_->shortWay()) problems_->offer(tr("Finish the way"));
}

void MainWindow::closeEvent(QCloseEvent* event) {
  if (!files_->mayLeave()) return event->ignore();
  preferences_.setValue(QStringLiteral("window"), saveGeometry());
  session_.stopCheck();
  keeper_->leave();
  event->accept();
}

void MainWindow::begin(const QString& file) {
  const bool last = file.isEmpty() && preferences_.atStart() == Preferences::AtStart::lastFile;
  const QString wanted = last ? preferences_.recentFiles().value(0) : file;
  if (!wanted.isEmpty()) open(wanted);
  keeper_->offerLeftWork();
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event) {
  if (FileActions::canTake(*event->mimeData())) event->acceptProposedAction();
}

void MainWindow::dropEvent(QDropEvent* event) {
  event->acceptProposedAction();
  // What is asked then must not keep the program that the file was dragged from waiting.
  const QStringList places = FileActions::placesIn(*event->mimeData());
  if (takeStageDrop(event->position().toPoint(), places)) return;
  QTimer::singleShot(0, this, [this, places] { files_->openDropped(places); });
}

void MainWindow::showEvent(QShowEvent* event) {
  QMainWindow::showEvent(event);
  if (laidOut_) return;
  laidOut_ = true;
  layOut();
}

void MainWindow::layOut() {
  const bool narrow = width() < 1200;
  const int left = narrow ? 212 : 256, right = narrow ? 276 : 320;
  across_->setSizes(view_ ? QList<int>{left, width() - left - right, right}
                          : QList<int>{left, width() - left});
  const int below = height() < 800 ? 230 : 310;
  down_->setSizes({height() - below, below});
}

}  // namespace swingroom
