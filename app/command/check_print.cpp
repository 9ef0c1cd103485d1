#include "app/command/check_print.h"

#include "core/measure/user_tables.h"

namespace swingroom {

Outcome<PrintTables> tablesFor(const std::string& file) {
  return file.empty() ? userTables() : readPrintTables(file);
}

void askPrint(const CheckSubject& subject, const PrintTables& tables, const std::string& file,
              unsigned threads, CheckedPrint& print) {
  print.asked = printAsked(subject.written.document, tables, file);
  print.geometry = prepareGeometry(subject.loaded.assembly, threads);
  PrintSubject& asked = print.subject;
  asked.assembly = &subject.loaded.assembly;
  asked.modes = &subject.loaded.modes;
  asked.ways = &subject.report.ways;
  asked.geometry = &print.geometry;
  if (!subject.report.results.empty()) asked.results = &subject.report.results;
  asked.parts = print.asked.parts;
  asked.play = print.asked.play;
  asked.up_W = print.asked.up_W;
  asked.threads = threads;
}

void checkPrintOf(CheckSubject& subject, const PrintTables& tables, const std::string& file,
                  unsigned threads) {
  auto print = std::make_unique<CheckedPrint>();
  askPrint(subject, tables, file, threads, *print);
  WorkMonitor monitor;
  print->result = checkPrint(print->subject, monitor);
  print->report = {&print->subject, &print->result};
  subject.print = std::move(print);
  subject.report.print = &subject.print->report;
}

}  // namespace swingroom
