#pragma once

#include <QDialog>
#include <QFormLayout>
#include <memory>

#include "app/window/preferences.h"
#include "core/history/check_log.h"
#include "core/store/result_store.h"

namespace swingroom {

/// Preferences, each of which takes effect at once.
class PreferencesForm : public QDialog {
  Q_OBJECT

 public:
  /// @param results  Not null.
  /// @param log  Of checks; null: there is none.
  PreferencesForm(Preferences& preferences, std::shared_ptr<ResultStore> results,
                  std::shared_ptr<CheckLog> log = nullptr, QWidget* parent = nullptr);

 private:
  QFormLayout* addGroup(const QString& name);
  void addLook();
  void addWork();
  void addKept();
  void addResults();
  void addHistory();
  void alignFields();

  Preferences& preferences_;
  std::shared_ptr<ResultStore> results_;
  std::shared_ptr<CheckLog> log_;
};

}  // namespace swingroom
