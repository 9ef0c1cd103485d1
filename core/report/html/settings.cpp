#include "core/report/html/sections.h"
#include "core/report/html/text.h"

namespace swingroom::html {
namespace {

std::string fact(const std::string& name, const std::string& value) {
  return "<dt>" + name + "</dt><dd>" + value + "</dd>";
}

std::string meshTable(const ReportPage& page) {
  if (page.figures->meshes.empty()) return "";
  const Assembly& assembly = page.report->loaded->assembly;
  std::string out =
      "<div class=\"scroll panel\"><table><thead><tr><th scope=\"col\">Mesh file</th><th "
      "scope=\"col\">Parts</th>"
      "<th scope=\"col\" class=\"n\">Triangles</th><th scope=\"col\">Health</th><th "
      "scope=\"col\">SHA-256</th></tr></thead><tbody>";
  for (const MeshFigure& mesh : page.figures->meshes) {
    std::string parts, notes;
    for (const PartId part : mesh.parts)
      parts += (parts.empty() ? "" : ", ") + escaped(assembly.part(part).name);
    for (const std::string& note : mesh.notes)
      notes += (notes.empty() ? "" : "<br>") + escaped(note);
    out += "<tr><th scope=\"row\">" + escaped(mesh.file) + "</th><td>" + parts +
           "</td><td class=\"n\">" + std::to_string(mesh.triangles) + "</td><td>" +
           (notes.empty() ? "sound" : notes) + "</td><td class=\"hash\">" + escaped(mesh.sha256) +
           "</td></tr>";
  }
  return out + "</tbody></table></div>";
}

}  // namespace

std::string settingsSection(const ReportPage& page) {
  std::string out =
      "<section id=\"settings\"><h2>Settings and files</h2><dl class=\"facts\" style=\"margin:8px "
      "0 16px\">";
  out += fact("Required gap",
              millimetres(page.document->requiredGap) + ", unless a pair says otherwise");
  out += fact("Resolution",
              shortest(page.report->resolutionMm) + "\u00a0mm" + ": most that a bracket is wide");
  out += fact("Budget", std::to_string(page.budget / 1'000'000) +
                            " million node tests for each pair of surfaces");
  if (!page.document->process.empty()) out += fact("Process", escaped(page.document->process));
  out += fact("Program", "Swingroom " SWINGROOM_VERSION ", with FCL " SWINGROOM_FCL_VERSION
                         ", Embree " SWINGROOM_EMBREE_VERSION ", Assimp " SWINGROOM_ASSIMP_VERSION
                         ", lib3mf " SWINGROOM_LIB3MF_VERSION);
  return out + "</dl>" + meshTable(page) + "</section>";
}

}  // namespace swingroom::html
