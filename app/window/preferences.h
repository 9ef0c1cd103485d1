#pragma once

#include <QObject>
#include <QStringList>

namespace swingroom {

/// What the program remembers between runs: recent files, light or dark, how the window stood.
class Preferences : public QObject {
  Q_OBJECT

 public:
  enum class Look { asSystem, light, dark };

  explicit Preferences(QObject* parent = nullptr) : QObject(parent) {}

  /// Newest first; files that are gone are left out.
  QStringList recentFiles() const;
  void addRecent(const QString& file);
  void clearRecent();

  Look look() const;
  void setLook(Look look);
  bool reducedMotion() const;
  void setReducedMotion(bool reduced);

  QByteArray value(const QString& key) const;
  void setValue(const QString& key, const QByteArray& value);

 Q_SIGNALS:
  void recentChanged();
  void lookChanged();
};

}  // namespace swingroom
