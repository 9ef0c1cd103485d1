#pragma once

#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QWidget>
#include <optional>

#include "app/window/forms/print/figure_rows.h"
#include "core/base/outcome.h"

class QFormLayout;
class QVBoxLayout;

namespace swingroom {

/// One list of the maker's tables, processes or materials: all of them at the left, the figures of
/// the chosen one beside it. Own ones can be made from any, called otherwise and taken out.
class TablePage : public QWidget {
  Q_OBJECT

 public:
  ~TablePage() override;

  QListWidget& list() { return *list_; }
  QPushButton& copyButton() { return *copy_; }
  QPushButton& removeButton() { return *remove_; }
  FigureRows& figures() { return *figures_; }
  /// Why a name was not taken, or one not taken out; empty.
  QString says() const { return said_->text(); }

  std::size_t chosen() const;
  void choose(std::size_t place);
  /// The tables are others now.
  void takeTables();

 Q_SIGNALS:
  void edited();
  /// An own one is called otherwise; before `edited`.
  void renamed(const std::string& from, const std::string& to);
  /// An own one was taken out; before `edited`.
  void removed(const std::string& name);

 protected:
  enum class Owner { builtIn, changed, own };

  TablePage(const std::vector<FigureLine>& lines, QWidget* parent);
  /// Last of all in a page's making: it asks the functions below.
  void build(const QString& listName);

  virtual void forgetUsual() = 0;  ///< Another table: what is usual is what it says now.
  virtual std::size_t count() const = 0;
  virtual std::string nameOf(std::size_t place) const = 0;
  virtual Owner ownerOf(std::size_t place) const = 0;
  virtual std::vector<Sourced> figuresOf(std::size_t place) const = 0;
  virtual std::vector<Sourced> usualOf(std::size_t place) const = 0;
  virtual void setFigure(std::size_t place, std::size_t line, const Sourced& figure) = 0;
  virtual void addCopyOf(std::size_t place) = 0;  ///< Behind all.
  virtual std::optional<Problem> rename(std::size_t place, const std::string& name) = 0;
  virtual std::optional<Problem> takeOut(std::size_t place) = 0;
  /// Fields that are no figures.
  virtual void addFields(QFormLayout& form) = 0;
  virtual void showFields(std::size_t place) = 0;

  /// Something of the chosen one was changed by hand.
  void noteEdit();

 private:
  QWidget* leftColumn(const QString& listName);
  QWidget* rightColumn();
  void fillList();
  void showChosen();
  void showOwner();
  void takeName(QListWidgetItem* item);
  void say(const QString& sentence);

  QListWidget* list_ = nullptr;
  QPushButton* copy_ = nullptr;
  QPushButton* remove_ = nullptr;
  QLabel* said_ = nullptr;
  QLabel* title_ = nullptr;
  QLabel* owner_ = nullptr;
  FigureRows* figures_;
};

}  // namespace swingroom
