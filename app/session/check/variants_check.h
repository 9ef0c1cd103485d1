#pragma once

#include <QObject>
#include <memory>
#include <optional>
#include <vector>

#include "app/session/latest_worker.h"
#include "core/base/work_monitor.h"
#include "core/files/document/assembly_document.h"
#include "core/files/mesh_memory.h"
#include "core/files/mesh_file.h"
#include "core/report/variant_table.h"
#include "core/store/result_store.h"

namespace swingroom {

/// What is known of one variant.
struct CheckedVariant {
  std::string name;               ///< Empty: the plain file.
  std::optional<VariantRow> row;  ///< None: not checked yet, or it cannot be.
  Problems problems;              ///< Why it cannot be checked.

  bool isKnown() const { return row || !problems.empty(); }
};

/// Checks a document and each of its variants, one after the other, in the background. Pairs that
/// several have alike are checked once: results are kept by content.
class VariantsCheck : public QObject {
  Q_OBJECT

 public:
  /// @param results  Where results are looked up and kept. Not null.
  VariantsCheck(MeshReader reader, std::shared_ptr<ResultStore> results,
                QObject* parent = nullptr);
  ~VariantsCheck() override;

  /// What ran before is cancelled.
  /// @param file  Of the document: mesh paths are relative to it.
  void start(const AssemblyDocument& document, const std::filesystem::path& file);
  void cancel();
  bool isRunning() const { return run_ != nullptr; }

  /// The plain file, then its variants in file order; empty: nothing was asked yet.
  const std::vector<CheckedVariant>& rows() const { return rows_; }
  std::size_t known() const;
  /// What the rows are of; they say nothing of a document that differs.
  const AssemblyDocument& document() const { return document_; }

 Q_SIGNALS:
  /// More is known, or it ended.
  void changed();

 private:
  struct Run;

  void work(const std::shared_ptr<Run>& run);
  void put(const std::shared_ptr<Run>& run, std::size_t index, const CheckedVariant& checked);
  void end(const std::shared_ptr<Run>& run);

  MeshReader reader_;
  MeshMemory memory_;
  std::shared_ptr<ResultStore> results_;
  AssemblyDocument document_;
  std::vector<CheckedVariant> rows_;
  std::shared_ptr<Run> run_;
  LatestWorker worker_;
};

}  // namespace swingroom
