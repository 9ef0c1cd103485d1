#pragma once

#include <QFrame>
#include <QLabel>
#include <QPlainTextEdit>
#include <QPushButton>

#include "core/base/outcome.h"

namespace swingroom {

/// What is wrong with the document or a file, one line each, and what to do; can be copied. Hidden
/// while nothing is.
class ProblemsView : public QFrame {
  Q_OBJECT

 public:
  explicit ProblemsView(QWidget* parent = nullptr);

  /// @param heading  What could not be done, in a sentence.
  void show(const QString& heading, const Problems& problems);
  /// What is worth knowing and not wrong.
  void showNotes(const Problems& notes);
  /// What came out of something, not wrong in itself.
  void showFound(const QString& heading, const Problems& found);
  /// What can be done about what is shown now, on a button.
  void offer(const QString& words);
  QPushButton& offerButton() { return *offer_; }
  QString text() const;

 protected:
  void resizeEvent(QResizeEvent* event) override;

 private:
  void fitLines();
  void put(const QString& heading, const Problems& lines);

  QWidget* mark_;
  QLabel* heading_;
  QPlainTextEdit* lines_;
  QPushButton* offer_;
};

}  // namespace swingroom
