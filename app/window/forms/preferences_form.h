#pragma once

#include <QDialog>
#include <QFormLayout>
#include <memory>

#include "app/window/preferences.h"
#include "core/store/result_store.h"

namespace swingroom {

/// Preferences, each of which takes effect at once.
class PreferencesForm : public QDialog {
  Q_OBJECT

 public:
  /// @param results  Not null.
  PreferencesForm(Preferences& preferences, std::shared_ptr<ResultStore> results,
                  QWidget* parent = nullptr);

 private:
  QFormLayout* addGroup(const QString& name);
  void addLook();
  void addWork();
  void addKept();
  void addResults();
  void alignFields();

  Preferences& preferences_;
  std::shared_ptr<ResultStore> results_;
};

}  // namespace swingroom
