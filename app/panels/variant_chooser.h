#pragma once

#include <QComboBox>

#include "app/session/session.h"

namespace swingroom {

/// Which variant is shown and checked; not there while the document has none.
class VariantChooser : public QComboBox {
  Q_OBJECT

 public:
  explicit VariantChooser(Session& session, QWidget* parent = nullptr);

 Q_SIGNALS:
  void tableWanted();

 private:
  void showVariants();
  void take(int index);

  Session& session_;
};

}  // namespace swingroom
