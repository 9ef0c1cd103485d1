#include "app/window/notices/desktop_notice.h"

#include <QCoreApplication>
#include <QDBusConnection>
#include <QDBusMessage>
#include <QFileInfo>
#include <atomic>

namespace swingroom {
namespace {

constexpr int kPatienceMs = 2000;

QString service() {
  return QStringLiteral("org.freedesktop.Notifications");
}
QString place() {
  return QStringLiteral("/org/freedesktop/Notifications");
}
QString connectionName() {
  return QStringLiteral("swingroom notices");
}

/// Where the session's bus is; empty: there is none. The library, if it were left to find it, would
/// start one of its own.
QString busAddress() {
  const QString said = qEnvironmentVariable("DBUS_SESSION_BUS_ADDRESS");
  if (!said.isEmpty()) return said;
  const QString socket = qEnvironmentVariable("XDG_RUNTIME_DIR") + QStringLiteral("/bus");
  return QFileInfo::exists(socket) ? QStringLiteral("unix:path=") + socket : QString();
}

QDBusMessage call(const QDBusConnection& bus, const char* method, const QVariantList& arguments) {
  QDBusMessage message =
      QDBusMessage::createMethodCall(service(), place(), service(), QString::fromLatin1(method));
  message.setArguments(arguments);
  return bus.call(message, QDBus::Block, kPatienceMs);
}

}  // namespace

/// Used by the worker's thread, ids by both.
struct DesktopNotice::Bus {
  std::atomic<uint> shown{0};
  bool connected = false;
  bool knowsMarkup = false;
};

DesktopNotice::DesktopNotice(QObject* parent) : QObject(parent), bus_(std::make_shared<Bus>()) {}

DesktopNotice::~DesktopNotice() {
  QDBusConnection::disconnectFromBus(connectionName());
}

void DesktopNotice::show(const QString& summary, const QString& body, bool stays) {
  const QString address = busAddress();
  if (address.isEmpty()) return;
  const QString openWord = tr("Show it");
  worker_.ask([this, bus = bus_, address, summary, body, stays, openWord] {
    QDBusConnection connection = QDBusConnection::connectToBus(address, connectionName());
    if (!connection.isConnected()) {
      QDBusConnection::disconnectFromBus(connectionName());  // Another time it may be there.
      bus->connected = false;
      return;
    }
    if (!bus->connected) {
      bus->connected = true;
      connection.connect(service(), place(), service(), QStringLiteral("ActionInvoked"), this,
                         SLOT(onAction(uint, QString)));
      const QDBusMessage can = call(connection, "GetCapabilities", {});
      if (can.type() == QDBusMessage::ReplyMessage) {
        bus->knowsMarkup =
            can.arguments().value(0).toStringList().contains(QStringLiteral("body-markup"));
      }
    }
    QVariantMap hints;
    hints[QStringLiteral("urgency")] = QVariant::fromValue(static_cast<uchar>(1));
    hints[QStringLiteral("desktop-entry")] = QStringLiteral("swingroom");
    hints[QStringLiteral("transient")] = !stays;
    const QDBusMessage reply = call(connection, "Notify",
                                    {QStringLiteral("Swingroom"), bus->shown.load(), QString(),
                                     summary, bus->knowsMarkup ? body.toHtmlEscaped() : body,
                                     QStringList{QStringLiteral("default"), openWord}, hints, -1});
    if (reply.type() == QDBusMessage::ReplyMessage)
      bus->shown = reply.arguments().value(0).toUInt();
  });
}

void DesktopNotice::withdraw() {
  if (bus_->shown == 0) return;
  worker_.ask([bus = bus_] {
    const uint id = bus->shown.exchange(0);
    if (id != 0) call(QDBusConnection(connectionName()), "CloseNotification", {id});
  });
}

void DesktopNotice::onAction(uint id, const QString& action) {
  if (id != bus_->shown || action != QStringLiteral("default")) return;
  Q_EMIT clicked();
}

}  // namespace swingroom
