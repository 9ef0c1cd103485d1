#pragma once

#include <QDialog>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

#include "app/session/session.h"

namespace swingroom {

/// Asks for a new variant: its name, and the other mesh file of the part that was chosen. Or for
/// another name of one that is there.
class VariantForm : public QDialog {
  Q_OBJECT

 public:
  explicit VariantForm(Session& session, QWidget* parent = nullptr);

  void openForPart(const std::string& part);
  void openForName(const std::string& variant);

  QLineEdit& name() { return *name_; }
  QLineEdit& file() { return *file_; }
  QPushButton& keep() { return *keep_; }
  QString says() const { return said_->text(); }

 Q_SIGNALS:
  /// What was done, in a sentence.
  void told(const QString& sentence);

 private:
  void build();
  void chooseFile();
  void showWhatCan();
  void take();
  /// As a stage has it.
  std::string writtenFile() const;

  Session& session_;
  std::string part_;     ///< Whose mesh is replaced; empty: a variant is renamed.
  std::string variant_;  ///< That is renamed.
  QLabel* says_;
  QLineEdit* name_;
  QWidget* fileRow_;
  QLabel* fileLabel_;
  QLineEdit* file_;
  QLabel* said_;
  QPushButton* keep_;
};

}  // namespace swingroom
