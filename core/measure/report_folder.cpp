#include "core/measure/report_folder.h"

#include <charconv>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fstream>

#include "core/files/read_document.h"
#include "core/measure/measure_figures.h"
#include "core/report/html/page.h"
#include "core/report/json_report.h"

namespace swingroom {
namespace {

/// See reproducible-builds.org, "SOURCE_DATE_EPOCH".
std::string reportDate() {
  using namespace std::chrono;
  sys_seconds now = floor<seconds>(system_clock::now());
  if (const char* epoch = std::getenv("SOURCE_DATE_EPOCH")) {
    long long seconds = 0;
    const auto [end, error] = std::from_chars(epoch, epoch + std::strlen(epoch), seconds);
    if (error == std::errc() && *end == '\0') now = sys_seconds(std::chrono::seconds(seconds));
  }
  const year_month_day day(floor<days>(now));
  char text[32];
  std::snprintf(text, sizeof text, "%04d-%02u-%02u", static_cast<int>(day.year()),
                static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()));
  return text;
}

}  // namespace

std::optional<Problem> writeFile(const std::filesystem::path& file, const std::string& text) {
  std::ofstream out(file, std::ios::binary);
  out << text;
  out.close();
  if (out) return std::nullopt;
  return Problem{file.string(), "cannot be written",
                 "is the folder there, and may you write to it?"};
}

std::optional<Problem> writeReportFolder(const std::filesystem::path& folder,
                                         const std::filesystem::path& file,
                                         const CheckReport& report,
                                         const AssemblyGeometry& geometry,
                                         const SweepSettings& settings) {
  std::error_code failure;
  std::filesystem::create_directories(folder, failure);
  if (failure) return Problem{folder.string(), "cannot be made", failure.message()};
  if (auto problem = writeFile(folder / "report.json", toJson(report))) return problem;
  if (auto problem = writeFile(folder / "pairs.csv", toCsv(report))) return problem;
  const Outcome<ReadDocument> read = readDocument(file);
  if (!read) return read.problems().front();
  const std::vector<Finding> findings = findingsOf(report);
  const ReportFigures figures = measureFigures(report, read->document, file.parent_path(), geometry,
                                               findings, kMostCards, settings.threads);
  ReportPage page;
  page.report = &report;
  page.document = &read->document;
  page.figures = &figures;
  page.findings = findings;
  page.pictures = paintReport(report, read->document, page.findings, kMostCards, settings.threads);
  page.fileName = file.filename().string();
  page.date = reportDate();
  page.budget = settings.budget;
  return writeFile(folder / "report.html", toHtml(page));
}

}  // namespace swingroom
