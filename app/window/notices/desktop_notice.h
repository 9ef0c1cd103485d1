#pragma once

#include <QObject>
#include <QString>
#include <cstdint>
#include <memory>

#include "app/session/latest_worker.h"

namespace swingroom {

/// Notes on the desktop by the Desktop Notifications Specification 1.2
/// (org.freedesktop.Notifications on the session bus). The newest takes the place of the one
/// before. Where there is no bus or no such service, nothing happens. Never makes the window wait.
class DesktopNotice : public QObject {
  Q_OBJECT

 public:
  explicit DesktopNotice(QObject* parent = nullptr);
  ~DesktopNotice() override;

  /// @param stays  Whether it is kept by a desktop that keeps notes.
  void show(const QString& summary, const QString& body, bool stays);
  /// Takes back what is shown: the window is in front now.
  void withdraw();

 Q_SIGNALS:
  /// Somebody clicked the note.
  void clicked();

 private Q_SLOTS:
  void onAction(uint id, const QString& action);

 private:
  struct Bus;
  std::shared_ptr<Bus> bus_;
  LatestWorker worker_;
};

}  // namespace swingroom
