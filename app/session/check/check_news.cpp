#include "app/session/check/check_news.h"

#include <algorithm>

namespace swingroom {

CheckNews::CheckNews(Session& session, QObject* parent) : QObject(parent), session_(session) {
  connect(&session, &Session::boardChanged, this, &CheckNews::look);
  connect(&session, &Session::activityChanged, this, &CheckNews::look);
  connect(&session.document(), &OpenDocument::fileChanged, this, [this] {
    scene_ = nullptr;
    files_.clear();
    edits_.clear();
    undoIndex_ = session_.document().undoStack().index();
  });
  connect(&session.document().undoStack(), &QUndoStack::indexChanged, this, &CheckNews::noteEdit);
}

void CheckNews::noteFiles(const std::vector<std::filesystem::path>& files) {
  for (const auto& file : files) {
    if (std::find(files_.begin(), files_.end(), file) == files_.end()) files_.push_back(file);
  }
}

void CheckNews::noteEdit(int index) {
  const QUndoStack& undo = session_.document().undoStack();
  const bool forth = index >= undoIndex_;
  const QString name = forth ? undo.undoText() : tr("Undone: %1").arg(undo.redoText());
  undoIndex_ = index;
  if (!name.isEmpty() && !edits_.contains(name)) edits_ += name;
}

std::vector<std::string> CheckNews::changedParts(const Scene& before, const Scene& now) const {
  std::vector<std::string> changed;
  for (std::size_t p = 0; p < now.geometry.size(); ++p) {
    const std::string& name = now.assembly().parts()[p].name;
    const auto was = before.assembly().findPart(name);
    if (was && before.geometry[was->index] != now.geometry[p]) changed.push_back(name);
  }
  return changed;
}

void CheckNews::look() {
  if (!session_.isProven() || session_.isChecking() || session_.scene() == scene_) return;
  CheckedChange change;
  change.files = std::exchange(files_, {});
  change.edits = std::exchange(edits_, {});
  change.figures = figuresOf(session_.board().report());
  if (scene_) {
    change.parts = changedParts(*scene_, *session_.scene());
    change.comparison = compare(figures_, change.figures);
  }
  scene_ = session_.scene();
  figures_ = change.figures;
  Q_EMIT told(change);
}

}  // namespace swingroom
