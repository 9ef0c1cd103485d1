#pragma once

#include <QCheckBox>
#include <QComboBox>
#include <QLineEdit>
#include <QWidget>

#include "app/models/findings_filter.h"

namespace swingroom {

/// Over the list of findings: search, which of them are listed, their order, and whether only pairs
/// of the chosen part are.
class FindingsTools : public QWidget {
  Q_OBJECT

 public:
  explicit FindingsTools(FindingsFilter& filter, QWidget* parent = nullptr);

  QLineEdit& search() { return *search_; }
  QComboBox& listedBox() { return *listed_; }
  QComboBox& orderBox() { return *order_; }
  QCheckBox& onlyBox() { return *only_; }

  /// Takes over from the filter what is listed, and how many there are of each.
  void showFilter();
  /// Whose pairs "only" means; none: no part is chosen.
  void setPart(const std::optional<PartId>& part, const QString& name);
  /// Everything is listed again.
  void clear();

 Q_SIGNALS:
  void changed();
  /// Down or Return in the search box: on to the list, or to its first row.
  void listWanted();
  void firstWanted();

 protected:
  void resizeEvent(QResizeEvent* event) override;
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void build();
  void takePart();
  void elidePart();

  FindingsFilter& filter_;
  QLineEdit* search_;
  QComboBox* listed_;
  QComboBox* order_;
  QCheckBox* only_;
  std::optional<PartId> part_;
};

}  // namespace swingroom
