#include "core/files/formats/assimp_log.h"

#include <array>
#include <assimp/DefaultLogger.hpp>
#include <assimp/LogStream.hpp>
#include <string_view>

namespace swingroom {
namespace {

struct Warning {
  std::string_view words;
  const char* what;
};

/// Seen with Assimp 5.2.5 on damaged files; the mesh is handed out all the same.
constexpr std::array<Warning, 4> kLosses = {
    {{"faces were dropped", "has triangles that name corners which are not there"},
     {"'endsolid' keyword was expected", "has no 'endsolid' at its end: it is cut off or damaged"},
     {"facet normal vector was expected", "has a facet without its normal: it is damaged"},
     {"Ignoring empty face", "has a face without corners: it is cut off or damaged"}}};

}  // namespace

class AssimpLog::Listener : public Assimp::LogStream {
 public:
  void write(const char* message) override {
    for (const Warning& loss : kLosses) {
      if (first_ || std::string_view(message).find(loss.words) == std::string_view::npos) continue;
      first_ = Problem{"", loss.what, "repair or export the mesh again"};
    }
  }
  const std::optional<Problem>& first() const { return first_; }

 private:
  std::optional<Problem> first_;
};

AssimpLog::AssimpLog() : listener_(std::make_unique<Listener>()) {
  constexpr unsigned kSeverities = Assimp::Logger::Warn | Assimp::Logger::Err;
  Assimp::DefaultLogger::create("", Assimp::Logger::NORMAL, 0);
  Assimp::DefaultLogger::get()->attachStream(listener_.get(), kSeverities);
}

AssimpLog::~AssimpLog() {
  Assimp::DefaultLogger::get()->detachStream(listener_.get());
  Assimp::DefaultLogger::kill();
}

std::optional<Problem> AssimpLog::problem() const {
  return listener_->first();
}

}  // namespace swingroom
