#include "tests/app/window/fake_desktop.h"

#include <QDBusArgument>
#include <QDBusMessage>

namespace swingroom {
namespace {

QString notesPlace() {
  return QStringLiteral("/org/freedesktop/Notifications");
}
QString notesName() {
  return QStringLiteral("org.freedesktop.Notifications");
}

}  // namespace

PrivateBus::PrivateBus() : before_(qgetenv("DBUS_SESSION_BUS_ADDRESS")) {
  daemon_.start(QStringLiteral("dbus-daemon"),
                {QStringLiteral("--session"), QStringLiteral("--nofork"),
                 QStringLiteral("--print-address=1")});
  if (!daemon_.waitForStarted() || !daemon_.waitForReadyRead(20'000)) return;
  address_ = QString::fromUtf8(daemon_.readLine()).trimmed();
  qputenv("DBUS_SESSION_BUS_ADDRESS", address_.toUtf8());
}

PrivateBus::~PrivateBus() {
  before_.isEmpty() ? qunsetenv("DBUS_SESSION_BUS_ADDRESS")
                    : qputenv("DBUS_SESSION_BUS_ADDRESS", before_);
  daemon_.kill();
  daemon_.waitForFinished();
}

FakeDesktop::FakeDesktop(const QString& address)
    : bus_(QDBusConnection::connectToBus(address, QStringLiteral("fake desktop"))) {
  bus_.registerVirtualObject(notesPlace(), this);
  bus_.registerService(notesName());
}

FakeDesktop::~FakeDesktop() {
  QDBusConnection::disconnectFromBus(QStringLiteral("fake desktop"));
}

bool FakeDesktop::handleMessage(const QDBusMessage& message, const QDBusConnection& connection) {
  const QVariantList words = message.arguments();
  QDBusMessage reply = message.createReply();
  if (message.member() == QStringLiteral("GetCapabilities")) {
    reply << QStringList{QStringLiteral("body"), QStringLiteral("body-markup"),
                         QStringLiteral("actions")};
  } else if (message.member() == QStringLiteral("Notify") &&
             message.signature() == QStringLiteral("susssasa{sv}i")) {
    Note note;
    note.program = words[0].toString();
    note.replaces = words[1].toUInt();
    note.summary = words[3].toString();
    note.body = words[4].toString();
    note.actions = words[5].toStringList();
    note.hints = qdbus_cast<QVariantMap>(words[6]);
    notes.push_back(note);
    reply << (note.replaces > 0 ? note.replaces : ++last_);
  } else if (message.member() == QStringLiteral("CloseNotification")) {
    closed.push_back(words[0].toUInt());
  } else {
    return false;
  }
  return connection.send(reply);
}

void FakeDesktop::click(uint id) {
  QDBusMessage said =
      QDBusMessage::createSignal(notesPlace(), notesName(), QStringLiteral("ActionInvoked"));
  said << id << QStringLiteral("default");
  bus_.send(said);
}

}  // namespace swingroom
