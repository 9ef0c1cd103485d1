#include "tests/app/pictures/variant_pictures.h"

#include <QTest>

#include "app/window/variants/variant_actions.h"

namespace swingroom {

void takeVariants(Photographer& photographer) {
  constexpr int kLongMs = 120'000;
  Session& session = photographer.openSample("harbour_tug_detailed");
  photographer.take(QStringLiteral("variants_plain"));
  VariantActions& variants = photographer.window().variants();
  VariantsForm& table = variants.table();
  table.openFor();
  QTest::qWaitFor([&] { return session.variantsCheck().known() == 1; }, kLongMs);
  photographer.takeWidget(QStringLiteral("variants_busy"), table);
  QTest::qWaitFor([&] { return !session.variantsCheck().isRunning(); }, kLongMs);
  photographer.takeWidget(QStringLiteral("variants_table"), table);
  const QModelIndex wester = table.table().model()->index(2, 0);
  Q_EMIT table.table().activated(wester);
  QTest::qWaitFor([&] { return session.choice().pair().has_value(); }, kLongMs);
  table.close();
  photographer.take(QStringLiteral("variants_wester"));
  photographer.window().header().variants().showPopup();
  QTest::qWait(200);
  photographer.takeWidget(QStringLiteral("variants_list"),
                          *photographer.window().header().variants().view()->window());
  photographer.window().header().variants().hidePopup();
  variants.form().openForPart("head");
  variants.form().name().setText(QStringLiteral("bareheaded"));
  variants.form().file().setText(QStringLiteral("heads/bare.stl"));
  photographer.takeWidget(QStringLiteral("variants_form"), variants.form());
  variants.form().close();
}

}  // namespace swingroom
