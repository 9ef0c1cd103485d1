#pragma once

#include <nlohmann/json_fwd.hpp>

#include "core/report/print/print_report.h"

/// What `print` of the JSON report holds, a function a member.
namespace swingroom::print_json {

nlohmann::ordered_json findingsJson(const PrintReport& report);
nlohmann::ordered_json asPrintedJson(const PrintReport& report);
nlohmann::ordered_json printersJson(const PrintReport& report);
nlohmann::ordered_json jointsJson(const PrintReport& report);
nlohmann::ordered_json gripsJson(const PrintReport& report);
nlohmann::ordered_json seamsJson(const PrintReport& report);
nlohmann::ordered_json wallsJson(const PrintReport& report);
nlohmann::ordered_json weightJson(const PrintReport& report);
nlohmann::ordered_json standJson(const PrintReport& report, const FigureStand& standing);
nlohmann::ordered_json setJson(const PrintReport& report);
/// The notes that belong beside them, and the figures.
nlohmann::ordered_json cautionsJson(const PrintReport& report);

}  // namespace swingroom::print_json
