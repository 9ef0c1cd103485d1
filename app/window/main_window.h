#pragma once

#include <QMainWindow>
#include <QStackedWidget>

#include "app/panels/findings/findings_panel.h"
#include "app/panels/header_bar.h"
#include "app/panels/history/history_panel.h"
#include "app/panels/parts/hand_bar.h"
#include "app/panels/parts/joints_panel.h"
#include "app/panels/parts/part_card.h"
#include "app/panels/parts/parts_panel.h"
#include "app/panels/print/print_panel.h"
#include "app/panels/rig/rig_panel.h"
#include "app/panels/room/growth_section.h"
#include "app/panels/room/room_panel.h"
#include "app/panels/room/space_section.h"
#include "app/panels/stages/stage_panel.h"
#include "app/panels/steps/motion_panel.h"
#include "app/panels/way/line_handles.h"
#include "app/panels/way/way_bar.h"
#include "app/panels/way/way_ribbon.h"
#include "app/session/check/report_writer.h"
#include "app/session/session.h"
#include "app/window/document_keeper.h"
#include "app/window/forms/problems_view.h"
#include "app/window/left_column.h"
#include "app/window/menus/file_actions.h"
#include "app/window/menus/instance_actions.h"
#include "app/window/menus/part_actions.h"
#include "app/window/notices/save_news.h"
#include "app/window/preferences.h"
#include "app/window/print/print_view.h"
#include "app/window/print/walls_view.h"
#include "app/window/rig/rig_tool.h"
#include "app/window/right_column.h"
#include "app/window/room/room_view.h"
#include "app/window/room/space_form.h"
#include "app/window/view/drawing_card.h"
#include "app/window/view/section_card.h"
#include "app/window/view/view_bridge.h"

class QProgressBar;
class QSplitter;

namespace swingroom {

class PrintForms;
class SizeActions;
class StageActions;
class VariantActions;

/// The window: what stands where, and who hears of whom.
class MainWindow : public QMainWindow {
  Q_OBJECT

 public:
  /// @param withView  Whether there is a 3D view; without a display that can draw it, none.
  /// @param results  Of earlier checks.
  /// @param log  Where checks are kept; null: nowhere.
  explicit MainWindow(Preferences& preferences, bool withView = true,
                      std::shared_ptr<ResultStore> results = std::make_shared<ResultStore>(),
                      std::shared_ptr<CheckLog> log = nullptr);
  ~MainWindow() override;

  void open(const QString& place) { files_->open(place); }
  /// At the start of the program: what was not saved when it ended last, and what is to be open.
  void begin(const QString& file);
  /// In the background, into that folder.
  void writeReport(const std::filesystem::path& folder);
  /// Shares the room among the panels as fits the window's size.
  void layOut();

  Session& session() { return session_; }
  FileActions& files() { return *files_; }
  DocumentKeeper& keeper() { return *keeper_; }
  Viewport* view() { return view_; }
  SectionCard* section() { return section_; }  ///< Null without a 3D view.
  DrawingCard* drawing() { return drawing_; }  ///< Null without a 3D view.
  WayRibbon& ribbon() { return *ribbon_; }
  WayBar& wayBar() { return *wayBar_; }
  PartsPanel& parts() { return *parts_; }
  JointsPanel& joints() { return *joints_; }
  MotionEditor& motion() { return *motion_; }
  MotionPanel& motionPanel() { return *motionPanel_; }
  RigEditor& rig() { return *rig_; }
  RigPanel& rigPanel() { return *rigPanel_; }
  RigTool* rigTool() { return rigTool_; }  ///< Null without a 3D view.
  RoomBoard& room() { return *roomBoard_; }
  RoomPanel& roomPanel() { return *roomPanel_; }
  GrowthSection& growth() { return *growth_; }
  SpaceSection& spaceSection() { return *spaceSection_; }
  PrintBoard& prints() { return *printBoard_; }
  PrintPanel& printPanel() { return *printPanel_; }
  LineHandles& lineHandles() { return *lineHandles_; }
  PartCard& partCard() { return *partCard_; }
  SizeActions& sizes() { return *sizes_; }
  PrintForms& printForms() { return *printForms_; }
  LeftColumn& leftColumn() { return *left_; }
  InstanceActions& instances() { return *instances_; }
  VariantActions& variants() { return *variants_; }
  FindingsPanel& findings() { return *findings_; }
  HistoryPanel& history() { return *history_; }
  RightColumn& rightColumn() { return *right_; }
  SaveNews& saveNews() { return *saveNews_; }
  HeaderBar& header() { return *header_; }
  ProblemsView& problems() { return *problems_; }
  StageActions& stages() { return *stages_; }
  StageCompare& stageCompare() { return *stageCompare_; }
  StagePanel& stagePanel() { return *stagePanel_; }

 protected:
  void closeEvent(QCloseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void dragEnterEvent(QDragEnterEvent* event) override;
  void dropEvent(QDropEvent* event) override;
  void showEvent(QShowEvent* event) override;

 private:
  void buildBody(bool withView);
  QWidget* buildView();
  void buildStatus();
  void connectRibbon();
  void connectSession();
  void connectMotion();
  void connectPartCard();
  void connectRig();
  void connectStages();
  void showFindings();
  bool takeStageDrop(const QPoint& place, const QStringList& files);
  void connectRoom();
  void connectGrowth();
  void connectPrint();
  void connectPrintForms();
  /// Of what is shown; null: not known, or of before an edit.
  PrintKnownPtr printsNow() const;
  void renameModeInPage(const std::string& mode);
  void addMotionTo(QMenu& menu);
  void buildFileMenu();
  void buildEditMenu();
  void buildViewMenu();
  void buildRigMenu();
  void buildRoomMenu();
  void openSpaceForm(SpaceForm::Space space);
  void buildWayMenu();
  void buildHelpMenu();
  void fillRecent(QMenu& menu);
  void showTheme();
  void showRibbon();
  void showTitle();
  void connectNews();
  void showActivity();
  void showProblems();
  void moveBy(int key, Qt::KeyboardModifiers modifiers);
  void askReport();
  void askPicture();
  void askPreferences();

  Preferences& preferences_;
  std::shared_ptr<ResultStore> results_;
  std::shared_ptr<CheckLog> log_;
  Session session_;
  ReportWriter reports_;
  FileActions* files_;
  DocumentKeeper* keeper_;
  Viewport* view_ = nullptr;
  ViewBridge* bridge_ = nullptr;
  PartActions* partActions_ = nullptr;
  InstanceActions* instances_ = nullptr;
  SizeActions* sizes_ = nullptr;
  PrintForms* printForms_ = nullptr;
  StageActions* stages_ = nullptr;
  StageCompare* stageCompare_ = nullptr;
  StagePanel* stagePanel_ = nullptr;
  Problems stageNotesTold_;
  VariantActions* variants_ = nullptr;
  QString stageNotesShown_;
  SectionCard* section_ = nullptr;
  DrawingCard* drawing_ = nullptr;
  HeaderBar* header_;
  ProblemsView* problems_;
  PartsPanel* parts_;
  JointsPanel* joints_;
  MotionEditor* motion_;
  StepTyping* typing_;
  MotionPanel* motionPanel_;
  RigFinder* finder_;
  RigEditor* rig_;
  RigPanel* rigPanel_;
  RigGuides* guides_ = nullptr;
  RigTool* rigTool_ = nullptr;
  RoomBoard* roomBoard_;
  RoomPanel* roomPanel_;
  RoomView* roomView_ = nullptr;
  GrowthBoard* growthBoard_;
  GrowthSection* growth_ = nullptr;
  SpaceSection* spaceSection_ = nullptr;
  QAction* roomAction_ = nullptr;
  PrintBoard* printBoard_;
  PrintPanel* printPanel_;
  PrintView* printView_ = nullptr;
  WallsView* wallsView_ = nullptr;
  LeftColumn* left_;
  QWidget* jointsLine_;  ///< Over the sliders.
  LineHandles* lineHandles_ = nullptr;
  PartCard* partCard_ = nullptr;
  FindingsPanel* findings_;
  SaveNews* saveNews_;
  HistoryPanel* history_;
  RightColumn* right_;
  WayBar* wayBar_;
  WayRibbon* ribbon_;
  QStackedWidget* pages_;
  QSplitter* across_;
  QSplitter* down_;
  QLabel* activity_;
  QLabel* tightest_;
  QPushButton* notes_;
  QProgressBar* progress_;
  std::optional<PartId> keptPart_;  ///< Whose rows "only what is chosen" means.
  bool laidOut_ = false;
  bool themed_ = false;
};

}  // namespace swingroom
