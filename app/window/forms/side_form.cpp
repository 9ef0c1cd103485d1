#include "app/window/forms/side_form.h"

#include <QLocale>

#include "app/models/text.h"

namespace swingroom {
namespace {

QString joined(const std::vector<std::string>& clauses) {
  QStringList all;
  for (const std::string& clause : clauses) all += qt(clause);
  return all.join(QStringLiteral("; "));
}

}  // namespace

SideForm::SideForm(Session& session, QWidget* parent) : QDialog(parent), session_(session) {
  setWindowTitle(tr("The other side"));
  build();
  connect(&session.document(), &OpenDocument::changed, this, [this] {
    if (isVisible()) preview();
  });
  connect(&session, &Session::sceneChanged, this, [this] {
    if (isVisible()) survey(ticked());
  });
}

std::optional<edits::MirrorPlane> SideForm::plane() const {
  return plane(way_->currentIndex());
}

std::optional<edits::MirrorPlane> SideForm::plane(int way) const {
  const auto& document = session_.document().document();
  Vector3d normal = edits::MirrorPlane::betweenSides(document).normal();
  const Vector3d up(document.up.data()), front(document.front.data());
  if (way == upDown) normal = up;
  if (way == frontBack) normal = front - up * (up.dot(front) / up.squaredNorm());
  if (way == typed) {
    normal = Vector3d(normal_[0]->value(), normal_[1]->value(), normal_[2]->value());
  }
  if (!(normal.norm() > 1e-9)) return std::nullopt;
  const ThreeNumbers unit = edits::withoutDust(normal.normalized(), edits::kDustOfDirection);
  return edits::MirrorPlane(edits::withoutDust(at_->value() * Vector3d(unit.data())), unit);
}

SideForm::Way SideForm::likelyWay() const {
  Way likely = leftRight;
  std::size_t most = 0;
  for (const Way way : {leftRight, frontBack, upDown}) {
    const auto there = plane(way);
    const std::size_t even =
        there ? edits::evenParts(session_.scene()->assembly(), *there) : std::size_t{0};
    if (even <= most) continue;
    most = even;
    likely = way;
  }
  return likely;
}

void SideForm::openFor() {
  if (!session_.scene()) return;
  filling_ = true;
  at_->setValue(0);
  way_->setCurrentIndex(likelyWay());
  follow_->setChecked(false);
  filling_ = false;
  survey();
  std::set<std::string> chosen;
  for (const PartId part : session_.choice().parts()) {
    chosen.insert(session_.scene()->assembly().part(part).name);
  }
  if (!chosen.empty()) survey(chosen);
  guessWords();
  preview();
  showChosen();
  show();
  raise();
  activateWindow();
  parts_->setFocus(Qt::OtherFocusReason);
}

void SideForm::guessWords() {
  std::vector<std::string> names;
  for (const std::string& part : ticked()) names.push_back(part);
  const auto words = edits::likelyWords(names);
  edits::SideWords best = words.front();
  // Where names say nothing, left is where the assembly's own left hand is.
  const bool said = std::any_of(names.begin(), names.end(), [&](const std::string& name) {
    return edits::hasWord(name, best.here);
  });
  if (!said) {
    best = {"left", "right"};
    for (std::size_t p = 0; p < sides_.size(); ++p) {
      if (!ticked().contains(session_.scene()->assembly().parts()[p].name)) continue;
      if (sides_[p].side == edits::Side::behind) best = {"right", "left"};
      break;
    }
  }
  filling_ = true;
  here_->setEditText(qt(best.here));
  there_->setEditText(qt(best.there));
  filling_ = false;
}

QString SideForm::sideText(const edits::StandingSide& side) const {
  const auto mm = [](double value) { return QLocale::c().toString(std::abs(value), 'f', 2); };
  const int way = way_->currentIndex();
  switch (side.side) {
    case edits::Side::before:
      return (way == leftRight   ? tr("%1 to %2 mm left")
              : way == frontBack ? tr("%1 to %2 mm in front")
              : way == upDown    ? tr("%1 to %2 mm above")
                                 : tr("%1 to %2 mm before"))
          .arg(mm(side.lowMm), mm(side.highMm));
    case edits::Side::behind:
      return (way == leftRight   ? tr("%1 to %2 mm right")
              : way == frontBack ? tr("%1 to %2 mm behind it")
              : way == upDown    ? tr("%1 to %2 mm below")
                                 : tr("%1 to %2 mm behind"))
          .arg(mm(side.highMm), mm(side.lowMm));
    case edits::Side::across:
      return tr("on it: stays");
    case edits::Side::nowhere:
      break;
  }
  return tr("no mesh: stays");
}

/// Anew for another plane.
void SideForm::survey() {
  if (filling_ || !session_.scene()) return;
  const auto newPlane = plane();
  if (!newPlane) return preview();
  const Assembly& assembly = session_.scene()->assembly();
  survey(edits::likelySide(assembly, edits::sidesOf(assembly, *newPlane)));
}

/// Off the plane first: what stands on it is seldom mirrored.
void SideForm::survey(const std::set<std::string>& wanted) {
  const auto newPlane = plane();
  if (!newPlane || !session_.scene()) return preview();
  const Assembly& assembly = session_.scene()->assembly();
  sides_ = edits::sidesOf(assembly, *newPlane);
  filling_ = true;
  parts_->clear();
  for (const bool stays : {false, true}) {
    for (std::size_t p = 0; p < sides_.size(); ++p) {
      const bool isStaying =
          sides_[p].side == edits::Side::across || sides_[p].side == edits::Side::nowhere;
      if (isStaying != stays) continue;
      auto* item = new QTreeWidgetItem(parts_);
      const std::string& name = assembly.parts()[p].name;
      item->setData(0, Qt::UserRole, qt(name));
      item->setText(0, qt(name));
      item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsUserCheckable);
      item->setCheckState(0, wanted.contains(name) ? Qt::Checked : Qt::Unchecked);
      item->setText(2, sideText(sides_[p]));
    }
  }
  filling_ = false;
  preview();
}

std::set<std::string> SideForm::ticked() const {
  std::set<std::string> names;
  for (int i = 0; i < parts_->topLevelItemCount(); ++i) {
    const QTreeWidgetItem* item = parts_->topLevelItem(i);
    if (item->checkState(0) == Qt::Checked) {
      names.insert(item->data(0, Qt::UserRole).toString().toStdString());
    }
  }
  return names;
}

const std::set<std::string>& SideForm::ownImages(const edits::SideWish& wish) const {
  const ScenePtr& scene = session_.scene();
  const Vector3d through = wish.plane.through(), normal = wish.plane.normal();
  Images asked{scene,
               wish.parts,
               {through.x(), through.y(), through.z()},
               {normal.x(), normal.y(), normal.z()},
               {}};
  const bool known = images_.scene == asked.scene && images_.parts == asked.parts &&
                     images_.through == asked.through && images_.normal == asked.normal;
  if (known) return images_.own;
  asked.own = edits::ownImagesOf(scene->assembly(), scene->document, wish.parts, wish.plane);
  images_ = std::move(asked);
  return images_.own;
}

edits::SideWish SideForm::wish() const {
  edits::SideWish wish;
  wish.parts = ticked();
  wish.plane = plane().value();
  wish.words = {here_->currentText().trimmed().toStdString(),
                there_->currentText().trimmed().toStdString()};
  wish.follow = follow_->isChecked();
  const ScenePtr& scene = session_.scene();
  wish.ownImages = ownImages(wish);
  wish.aside = edits::partsAside(scene->assembly(), sides_, wish.parts);
  return wish;
}

void SideForm::preview() {
  if (filling_ || !session_.scene()) return;
  made_.reset();
  make_->setEnabled(false);
  if (!plane()) return said_->setText(tr("The plane needs a normal that is not 0."));
  const edits::SideWish wanted = wish();
  filling_ = true;
  for (int i = 0; i < parts_->topLevelItemCount(); ++i) {
    QTreeWidgetItem* item = parts_->topLevelItem(i);
    const std::string name = item->data(0, Qt::UserRole).toString().toStdString();
    const bool isHere = item->checkState(0) == Qt::Checked;
    const edits::SidePair pair = edits::sideNames(name, wanted.words, '_');
    item->setText(0, qt(isHere ? pair.here : name));
    item->setText(1, isHere ? qt(pair.there) : QString());
  }
  for (const int shown : {0, 1}) parts_->resizeColumnToContents(shown);
  filling_ = false;
  auto outcome = edits::mirrorSide(session_.document().document(), wanted);
  if (!outcome) return said_->setText(qt(toText(outcome.problems().front())));
  QStringList lines;
  lines += tr("Makes %1, %2 and %3.")
               .arg(tr("%n part(s)", nullptr, static_cast<int>(outcome->parts.size())),
                    tr("%n joint(s)", nullptr, static_cast<int>(outcome->joints.size())),
                    tr("%n rule(s) of pairs", nullptr, static_cast<int>(outcome->rules)));
  if (!outcome->left.empty()) {
    lines += tr("%n are there already and stay as they are.", nullptr,
                static_cast<int>(outcome->left.size()));
  }
  if (!outcome->also.empty()) lines += joined(outcome->also);
  said_->setText(lines.join(QLatin1Char(' ')));
  make_->setEnabled(!outcome->parts.empty() || !outcome->joints.empty() || outcome->rules > 0);
  made_ = std::move(outcome).value();
}

/// What is ticked stands out in the view.
void SideForm::showChosen() {
  const ScenePtr& scene = session_.scene();
  if (!scene) return;
  std::vector<PartId> parts;
  for (const std::string& name : ticked()) {
    if (const auto part = scene->assembly().findPart(name)) parts.push_back(*part);
  }
  session_.choice().chooseParts(parts);
}

void SideForm::take() {
  if (!made_) return;
  const edits::MirroredSide made = *made_;
  hide();
  session_.choice().clear();
  session_.document().edit(tr("the other side"), made.document);
  Q_EMIT told(tr("The other side: %1 and %2.")
                  .arg(tr("%n part(s)", nullptr, static_cast<int>(made.parts.size())),
                       tr("%n joint(s)", nullptr, static_cast<int>(made.joints.size()))));
  accept();
}

}  // namespace swingroom
