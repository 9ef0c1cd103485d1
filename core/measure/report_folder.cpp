#include "core/measure/report_folder.h"

#include <charconv>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fstream>

#include "core/files/replace_file.h"
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
  // A pipe or a terminal is written to, not replaced.
  std::error_code none;
  if (std::filesystem::is_regular_file(file, none) || !std::filesystem::exists(file, none)) {
    if (!replaceFile(file, text)) return std::nullopt;
  } else {
    std::ofstream out(file, std::ios::binary);
    out << text;
    out.close();
    if (out) return std::nullopt;
  }
  return Problem{file.string(), "cannot be written",
                 "is the folder there, and may you write to it?"};
}

std::optional<Problem> writeReportFolder(const std::filesystem::path& folder,
                                         const ReportSource& source,
                                         const SweepSettings& settings,
                                         const WorkMonitor* monitor) {
  const CheckReport& report = *source.report;
  std::error_code failure;
  std::filesystem::create_directories(folder, failure);
  if (failure) return Problem{folder.string(), "cannot be made", failure.message()};
  if (auto problem = writeFile(folder / "report.json", toJson(report))) return problem;
  if (auto problem = writeFile(folder / "pairs.csv", toCsv(report))) return problem;
  const std::vector<Finding> findings = findingsOf(report);
  const ReportFigures figures =
      measureFigures(report, *source.document, source.file.parent_path(), *source.geometry,
                     findings, kMostCards, settings.threads, monitor);
  ReportPage page;
  page.report = &report;
  page.document = source.document;
  page.figures = &figures;
  page.findings = findings;
  page.pictures =
      paintReport(report, *source.document, page.findings, kMostCards, settings.threads, monitor);
  if (isCancelled(monitor)) return Problem{folder.string(), "the report was not finished", ""};
  page.fileName = source.file.filename().string();
  page.date = reportDate();
  page.budget = settings.budget;
  return writeFile(folder / "report.html", toHtml(page));
}

}  // namespace swingroom
