#pragma once

#include <QDialog>
#include <QString>
#include <vector>

class QMenuBar;

namespace swingroom {

struct KeyGroup {
  QString title;
  std::vector<std::pair<QString, QString>> keys;  ///< What it does, and by which key or hand.
};

/// What the menus' actions say of themselves, a menu a group; then what view and ribbon take
/// directly.
std::vector<KeyGroup> allKeys(const QMenuBar& menus);

/// All keys and what the mouse does, on one page.
class KeysPage : public QDialog {
  Q_OBJECT

 public:
  explicit KeysPage(const std::vector<KeyGroup>& groups, QWidget* parent = nullptr);
};

}  // namespace swingroom
