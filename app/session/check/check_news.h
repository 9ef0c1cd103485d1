#pragma once

#include <QObject>
#include <QStringList>
#include <array>
#include <filesystem>
#include <optional>
#include <vector>

#include "app/session/session.h"
#include "core/history/comparison.h"

namespace swingroom {

/// A check that came to its end, and what has changed since the one before.
struct CheckedChange {
  std::vector<std::filesystem::path> files;  ///< Saved by other programs.
  std::vector<std::string> parts;            ///< Whose surfaces are others now; in file order.
  QStringList edits;                         ///< Of this program's undo list.
  CheckFigures figures;
  /// None: it is the first of this document.
  std::optional<Comparison> comparison;
};

/// Waits for each check to come to its end and tells what it brought, by names: what is edited or
/// saved while it runs counts to the same.
class CheckNews : public QObject {
  Q_OBJECT

 public:
  explicit CheckNews(Session& session, QObject* parent = nullptr);

  /// Other programs have saved these; the check of them follows.
  void noteFiles(const std::vector<std::filesystem::path>& files);

 Q_SIGNALS:
  void told(const CheckedChange& change);

 private:
  void look();
  void noteEdit(int index);
  std::vector<std::string> changedParts(const Scene& before, const Scene& now) const;

  Session& session_;
  ScenePtr scene_;  ///< Of `figures_`; null: nothing has been told of this document.
  CheckFigures figures_;
  std::vector<std::filesystem::path> files_;
  QStringList edits_;
  int undoIndex_ = 0;
};

}  // namespace swingroom
