#pragma once

#include <QFrame>
#include <QLabel>
#include <functional>
#include <vector>

class QHBoxLayout;

namespace swingroom {

/// One thing to know or to answer, in a quiet line above the work, which goes on meanwhile. Hidden
/// while there is nothing.
class NoticeBar : public QFrame {
  Q_OBJECT

 public:
  struct Answer {
    QString text;
    QString tip;
    std::function<void()> act;  ///< May be empty. The bar is hidden before it is called.
    bool isMain = false;
  };

  explicit NoticeBar(QWidget* parent = nullptr);

  /// In place of what was told before.
  void tell(const QString& sentence, const std::vector<Answer>& answers);
  QString text() const { return sentence_->text(); }

 private:
  QLabel* sentence_;
  QWidget* buttons_ = nullptr;
  QHBoxLayout* row_;
};

}  // namespace swingroom
