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

/// Asked first: without an address the library would start a bus of its own.
bool hasBus() {
  if (!qEnvironmentVariableIsEmpty("DBUS_SESSION_BUS_ADDRESS")) return true;
  const QString runtime = qEnvironmentVariable("XDG_RUNTIME_DIR");
  return !runtime.isEmpty() && QFileInfo::exists(runtime + QStringLiteral("/bus"));
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
  if (!hasBus()) return;
  const QString openWord = tr("Show it");
  worker_.ask([this, bus = bus_, summary, body, stays, openWord] {
    QDBusConnection connection =
        QDBusConnection::connectToBus(QDBusConnection::SessionBus, connectionName());
    if (!connection.isConnected()) return;
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
