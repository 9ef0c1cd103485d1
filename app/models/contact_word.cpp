#include "app/models/contact_word.h"

#include <QCoreApplication>

namespace swingroom {
namespace {

struct ContactText {
  Q_DECLARE_TR_FUNCTIONS(ContactText)
};

}  // namespace

QString contactWord(ContactKind kind) {
  switch (kind) {
    case ContactKind::grip:
      return ContactText::tr("grip");
    case ContactKind::rest:
      return ContactText::tr("rest");
    case ContactKind::snap:
      return ContactText::tr("snap");
    case ContactKind::seam:
      return ContactText::tr("seam");
  }
  return {};
}

}  // namespace swingroom
