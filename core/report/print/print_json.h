#pragma once

#include <nlohmann/json_fwd.hpp>

#include "core/report/print/print_report.h"

namespace swingroom {

/// What the print checks found, as the value of `print` in the JSON report: lengths in mm, angles
/// in degrees, torques in N mm, masses in g, in the names; its schema is
/// resources/report.schema.json.
nlohmann::ordered_json printJson(const PrintReport& report);

}  // namespace swingroom
