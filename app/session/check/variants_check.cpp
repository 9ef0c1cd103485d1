#include "app/session/check/variants_check.h"

#include <algorithm>

#include "core/base/parallel.h"
#include "core/files/document/variant_document.h"
#include "core/files/loading/load_assembly.h"
#include "core/store/kept_check.h"

namespace swingroom {

/// One run's part that both threads see.
struct VariantsCheck::Run {
  AssemblyDocument document;
  std::filesystem::path file;
  std::vector<std::string> names;
  WorkMonitor monitor;

  /// What stands under a name.
  Outcome<VariantDocument> written(const std::string& name) const {
    if (name.empty()) return VariantDocument{"", document, {}};
    return documentOfVariant(document, name, file.string());
  }

  CheckedVariant check(const std::string& name, const MeshSource& source, ResultStore& results) {
    const Outcome<VariantDocument> made = written(name);
    if (!made) return {name, std::nullopt, made.problems()};
    const Outcome<LoadedAssembly> loaded = loadAssembly(made->document, file, source);
    if (!loaded) {
      return {name, std::nullopt,
              name.empty() ? loaded.problems() : inFile(*made, loaded.problems())};
    }
    SweepSettings settings;
    settings.resolutionMm = loaded->assembly.resolutionMm();
    CheckReport report{&*loaded, settings.resolutionMm,
                       waysToCheck(loaded->modes, loaded->sequences), {}};
    report.variant = name;
    report.results =
        sweepKept(loaded->assembly, loaded->modes, report.ways, settings, &results, monitor);
    return {name, variantRowOf(report), {}};
  }
};

VariantsCheck::VariantsCheck(MeshReader reader, std::shared_ptr<ResultStore> results,
                             QObject* parent)
    : QObject(parent), reader_(std::move(reader)), results_(std::move(results)) {}

VariantsCheck::~VariantsCheck() {
  cancel();
}

void VariantsCheck::cancel() {
  if (!run_) return;
  run_->monitor.cancel();
  run_.reset();
  Q_EMIT changed();
}

std::size_t VariantsCheck::known() const {
  return static_cast<std::size_t>(
      std::count_if(rows_.begin(), rows_.end(), [](const auto& row) { return row.isKnown(); }));
}

void VariantsCheck::start(const AssemblyDocument& document, const std::filesystem::path& file) {
  if (run_) run_->monitor.cancel();
  run_ = std::make_shared<Run>();
  run_->document = document_ = document;
  run_->file = file;
  run_->names = {""};
  for (const DocumentVariant& variant : document.variants) run_->names.push_back(variant.name);
  rows_.clear();
  for (const std::string& name : run_->names) rows_.push_back({name, std::nullopt, {}});
  worker_.ask([this, run = run_] { work(run); },
              [this, run = run_](const std::string& why) {
                QMetaObject::invokeMethod(
                    this,
                    [this, run, why] {
                      for (CheckedVariant& row : rows_) {
                        if (run == run_ && !row.isKnown()) {
                          row.problems = {{row.name, "was not checked: " + why, ""}};
                        }
                      }
                      end(run);
                    },
                    Qt::QueuedConnection);
              });
  Q_EMIT changed();
}

void VariantsCheck::work(const std::shared_ptr<Run>& run) {
  stepBack(StepBack::far);
  const MeshSource source{&reader_, defaultThreads(), &memory_, &run->monitor};
  for (std::size_t i = 0; i < run->names.size(); ++i) {
    const CheckedVariant checked = run->check(run->names[i], source, *results_);
    if (run->monitor.cancelled()) return;  // What was found means nothing.
    QMetaObject::invokeMethod(
        this, [this, run, i, checked] { put(run, i, checked); }, Qt::QueuedConnection);
  }
  QMetaObject::invokeMethod(
      this, [this, run] { end(run); }, Qt::QueuedConnection);
}

void VariantsCheck::put(const std::shared_ptr<Run>& run, std::size_t index,
                        const CheckedVariant& checked) {
  if (run != run_) return;
  rows_.at(index) = checked;
  Q_EMIT changed();
}

void VariantsCheck::end(const std::shared_ptr<Run>& run) {
  if (run != run_) return;
  run_.reset();
  Q_EMIT changed();
}

}  // namespace swingroom
