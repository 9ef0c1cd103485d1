#include "app/models/plurals.h"

#include <QCoreApplication>
#include <QTranslator>

namespace swingroom {
namespace {

class EnglishPlurals : public QTranslator {
 public:
  using QTranslator::QTranslator;
  bool isEmpty() const override { return false; }
  QString translate(const char*, const char* source, const char*, int n) const override {
    if (n < 0) return {};  // No count in it: as it is written.
    QString text = QString::fromUtf8(source);
    return text.replace(QStringLiteral("(s)"), n == 1 ? QString() : QStringLiteral("s"));
  }
};

}  // namespace

void installEnglishPlurals() {
  static QCoreApplication* counted = nullptr;
  QCoreApplication* app = QCoreApplication::instance();
  if (counted == app) return;
  counted = app;
  QCoreApplication::installTranslator(new EnglishPlurals(app));
}

}  // namespace swingroom
