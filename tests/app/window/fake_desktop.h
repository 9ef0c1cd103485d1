#pragma once

#include <QDBusConnection>
#include <QDBusVirtualObject>
#include <QProcess>
#include <QVariantMap>
#include <vector>

namespace swingroom {

/// A bus of the test's own (dbus-daemon), to which DBUS_SESSION_BUS_ADDRESS points while it is
/// there.
class PrivateBus {
 public:
  PrivateBus();
  ~PrivateBus();
  bool works() const { return !address_.isEmpty(); }
  const QString& address() const { return address_; }

 private:
  QProcess daemon_;
  QString address_;
  QByteArray before_;
};

/// What a desktop does with notes (Desktop Notifications Specification 1.2), as far as to remember
/// what it was asked.
class FakeDesktop : public QDBusVirtualObject {
 public:
  struct Note {
    QString program, summary, body;
    uint replaces = 0;
    QStringList actions;
    QVariantMap hints;
  };

  explicit FakeDesktop(const QString& address);
  ~FakeDesktop() override;

  /// As if a person clicked the note.
  void click(uint id);

  std::vector<Note> notes;
  std::vector<uint> closed;

 protected:
  QString introspect(const QString&) const override { return {}; }
  bool handleMessage(const QDBusMessage& message, const QDBusConnection& connection) override;

 private:
  QDBusConnection bus_;
  uint last_ = 0;
};

}  // namespace swingroom
