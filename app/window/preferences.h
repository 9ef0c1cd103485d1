#pragma once

#include <QDateTime>
#include <QObject>
#include <QStringList>
#include <vector>

namespace swingroom {

/// What the program remembers between runs: recent files, how it looks and behaves, how the window
/// stood.
class Preferences : public QObject {
  Q_OBJECT

 public:
  enum class Look { asSystem, light, dark };
  enum class AtStart { startPage, lastFile };

  struct Recent {
    QString file;
    QDateTime when;  ///< Opened or saved; invalid: not known.
    bool isThere = true;
  };

  explicit Preferences(QObject* parent = nullptr) : QObject(parent) {}

  /// Newest first, also those that are not there any more.
  std::vector<Recent> recent() const;
  /// Newest first; files that are gone are left out.
  QStringList recentFiles() const;
  void addRecent(const QString& file);
  void forgetRecent(const QString& file);
  void clearRecent();

  Look look() const;
  void setLook(Look look);
  bool reducedMotion() const;
  void setReducedMotion(bool reduced);
  /// How much larger than usual words are.
  double textScale() const;
  void setTextScale(double scale);

  /// Threads of the check; 0: as many as the machine has.
  unsigned threads() const;
  void setThreads(unsigned threads);
  bool autosaves() const;
  void setAutosaves(bool on);
  /// Where copies of what is not saved are kept.
  QString recoveryFolder() const;
  void setRecoveryFolder(const QString& folder);
  /// Whether checks are kept in the log.
  bool keepsHistory() const;
  void setKeepsHistory(bool on);
  /// Whether saves are told on the desktop while the window is not in front.
  bool tellsDesktop() const;
  void setTellsDesktop(bool on);
  AtStart atStart() const;
  void setAtStart(AtStart atStart);

  QByteArray value(const QString& key) const;
  void setValue(const QString& key, const QByteArray& value);

 Q_SIGNALS:
  void recentChanged();
  void lookChanged();
  /// Anything but recent files and the look.
  void changed();

 private:
  void putRecent(const std::vector<Recent>& recent);
};

}  // namespace swingroom
